import type {
  CancellationToken,
  ClientCapabilities,
  Connection,
  Location,
  Range,
  ServerCapabilities,
} from 'vscode-languageserver/lib/common/api.js';
import type { Place, Span } from '../findings/finding';
import type { Lines } from '../text/lines';
import type { Checker } from '../workspace/checker';
import type { Document } from '../workspace/document';
import type { EditorFiles } from '../workspace/editor';
import type { Guides } from '../workspace/guides';
import type { Files } from '../workspace/port';
import type { Project } from '../workspace/project';
import type { RevisionFiles } from '../workspace/revisions';
import type { NameIndex } from '../workspace/uses';
import type { RulePages } from './rule-pages';
import type { Settings } from './settings';

/** What the machine around a session gives it; the one difference between a process and a browser worker. */
export interface Host {
  /** The machine's own files; null where all files are the client's. */
  readonly files: Files | null;
  /** Today where the writer is, `2026-03-14`. */
  today(): string;
  /** Of the program, for `initialize`. */
  readonly version: string;
  /** The name of the catalogue of rules that comes with the program; null where it comes without. */
  readonly catalogue: string | null;
  /** A page as a PDF, with what `print-pdf.ts` throws where there is none; without it nothing prints here. */
  readonly printPdf?: (page: string) => Promise<Uint8Array>;
  /** The files of a revision of the repository that a folder stands in; fails with a sentence where there are none. */
  readonly filesAt?: (folder: string, revision: string) => Promise<RevisionFiles>;
  /** Whether the client has been silent for a while; without it there are no rehearsals. */
  readonly isQuiet?: () => boolean;
}

/** After so long nothing more is expected of a client for the moment, ms. */
export const SILENCE = 100;

/** What every feature of the editor works with. */
export interface Context {
  readonly connection: Connection;
  readonly client: ClientCapabilities;
  readonly texts: EditorFiles;
  readonly project: Project;
  readonly checker: Checker;
  /** Guides bound and run, for what is asked of them. */
  readonly guides: Guides;
  readonly settings: Settings;
  /** What documents name, each read once. */
  readonly names: NameIndex;
  /** Where rules are described. */
  readonly rulePages: RulePages;
  /** As of `Host`; null where nothing prints. */
  readonly printPdf: Host['printPdf'] | null;
  /** As of `Host`; null where no revision can be read. */
  readonly filesAt: NonNullable<Host['filesAt']> | null;
  /** Today where the writer is, `2026-03-14`. */
  today(): string;
  /** The YAML files of all folders that are open, and every open document, whether they are checked or not. */
  everyDocument(): Promise<readonly string[]>;
  /** The document of a uri as it stands, null where it is none of ours. */
  document(uri: string): Promise<Document | null>;
  /** What the editor calls a document. */
  uriOf(name: string): string;
  linesOf(name: string): Promise<Lines | null>;
  location(place: Place): Promise<Location | null>;
}

/** A feature of the editor: one file each, registered in `features.ts`. */
export interface Feature {
  capabilities(client: ClientCapabilities): Partial<ServerCapabilities>;
  register(connection: Connection, context: Context): void;
}

export function rangeOf(lines: Lines, span: Span): Range {
  return { start: lines.positionAt(span.start), end: lines.positionAt(span.end) };
}

/**
 * A handler that never fails: a fault of ours gives the empty answer and a line in the log. What nobody wants any longer
 * is not begun.
 */
export function answering<Parameters, Result>(
  context: Context,
  empty: Result,
  work: (parameters: Parameters, token: CancellationToken) => Promise<Result>,
): (parameters: Parameters, token: CancellationToken) => Promise<Result> {
  return async (parameters, token) => {
    if (token.isCancellationRequested) return empty;
    try {
      return await work(parameters, token);
    } catch (error) {
      context.connection.console.error(`kitproof: ${error instanceof Error ? error.stack : String(error)}`);
      return empty;
    }
  };
}
