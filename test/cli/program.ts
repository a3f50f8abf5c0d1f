import type { Io } from '../../server/src/cli/io';
import { main } from '../../server/src/cli/main';
import { memoryFiles } from '../../server/src/workspace/memory';
import { matchesPattern } from '../../server/src/workspace/patterns';
import { NoBrowser } from '../../server/src/workspace/print-pdf';

export interface Ran {
  readonly status: number;
  readonly out: string;
  readonly err: string;
  /** All files afterwards, by name. */
  readonly files: ReadonlyMap<string, string>;
}

export interface World {
  /** Files by path, seen from the working folder `/shop`, or whole names. */
  readonly files?: Readonly<Record<string, string>>;
  readonly input?: string;
  readonly io?: Partial<Io>;
}

/** Runs one command line over files in memory. */
export async function kitproof(words: readonly string[], world: World = {}): Promise<Ran> {
  const files = new Map(
    Object.entries(world.files ?? {}).map(([path, text]) => [
      path.startsWith('/') ? path : `/shop/${path}`,
      text,
    ]),
  );
  let out = '';
  let err = '';
  const io: Io = {
    files: memoryFiles(files),
    folder: '/shop',
    glob: async (patterns) =>
      [...files.keys()]
        .filter((name) => patterns.some((pattern) => matchesPattern(pattern, name.slice('/shop/'.length))))
        .sort(),
    create: async (name, text) => {
      if (files.has(name)) return false;
      files.set(name, asText(text));
      return true;
    },
    replace: async (name, text) => {
      files.set(name, asText(text));
    },
    printPdf: async () => {
      throw new NoBrowser();
    },
    outBytes: (bytes) => {
      out += asText(bytes);
    },
    readInput: async () => world.input ?? '',
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    untilInterrupted: () => new Promise(() => {}),
    outIsTerminal: false,
    errIsTerminal: false,
    columns: null,
    environment: {},
    today: '2026-03-14',
    ...world.io,
  };
  const status = await main(words, io);
  return { status, out, err, files };
}

const asText = (content: string | Uint8Array): string =>
  typeof content === 'string' ? content : new TextDecoder().decode(content);
