import type { Files } from '../workspace/port';

/** Everything outside that a command may touch, so that tests can hand in their own. */
export interface Io {
  readonly files: Files;
  /** The folder that paths are seen from, as a name. */
  readonly folder: string;
  /** Names of the files that patterns match, seen from `folder`. */
  glob(patterns: readonly string[]): Promise<readonly string[]>;
  /** Writes a new file with the folders above it; false where one stands there already. */
  create(name: string, content: string | Uint8Array): Promise<boolean>;
  /** Writes a file that is there already, whole or not at all. */
  replace(name: string, content: string | Uint8Array): Promise<void>;
  /** A page of HTML as a PDF; `NoBrowser` where the machine has nothing that prints. */
  printPdf(page: string): Promise<Uint8Array>;
  readInput(): Promise<string>;
  out(text: string): void;
  outBytes(bytes: Uint8Array): void;
  err(text: string): void;
  /** Waits for Ctrl-C, which from then on does not end the program by itself. */
  untilInterrupted(): Promise<void>;
  readonly outIsTerminal: boolean;
  readonly errIsTerminal: boolean;
  /** Width of the terminal, null where there is none. */
  readonly columns: number | null;
  readonly environment: Readonly<Record<string, string | undefined>>;
  /** Today, `2026-03-14`. */
  readonly today: string;
}

export const EXIT = { clean: 0, found: 1, usage: 2, failed: 3 } as const;
export type Exit = (typeof EXIT)[keyof typeof EXIT];

/** Wrong usage: said in one line, with where to read on. */
export class UsageError extends Error {}

/** Something that could not be read or done: said in one line. */
export class ReadError extends Error {}
