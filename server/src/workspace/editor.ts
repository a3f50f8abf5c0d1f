import type { Span } from '../findings/finding';
import { Lines, type Position } from '../text/lines';
import { LocatedText } from '../text/read';
import { type Document, readDocument } from './document';
import type { Files } from './port';

/** One change of an open text: a range and what takes its place, or without a range the whole text. */
export interface TextChange {
  readonly range?: { readonly start: Position; readonly end: Position };
  readonly text: string;
}

/** A text that is open in an editor: what the editor says counts, not what is on the disk. */
export class OpenText {
  private readonly located: LocatedText;
  private lines: Lines;

  constructor(
    readonly name: string,
    /** What the editor calls it. */
    readonly uri: string,
    public version: number,
    text: string,
  ) {
    this.located = new LocatedText(text);
    this.lines = new Lines(text);
  }

  /** Makes changes, each of the text that the one before left. Ranges outside the text are moved to its nearest end. */
  change(changes: readonly TextChange[], version: number): void {
    for (const { range, text } of changes) {
      if (range === undefined) this.located.load(text);
      else {
        const start = this.lines.offsetAt(range.start);
        const end = Math.max(start, this.lines.offsetAt(range.end));
        this.located.edit(start, end - start, text);
      }
      this.lines = new Lines(this.located.text());
    }
    this.version = version;
  }

  get text(): string {
    return this.lines.text;
  }

  /** The text as a document, null where it is none of ours. Only what changed is read again. */
  document(): Document | null {
    const { text } = this.lines;
    const document = readDocument(this.name, text, () => this.located.reading());
    return document === null ? null : { ...document, lines: this.lines };
  }
}

/** The editor's side of the port: open texts before files. */
export class EditorFiles implements Files {
  readonly open = new Map<string, OpenText>();

  constructor(private readonly files: Files) {}

  readonly isTop = (folder: string): boolean => this.files.isTop?.(folder) === true;

  async read(name: string): Promise<string | null> {
    return this.open.get(name)?.text ?? this.files.read(name);
  }

  async bytes(name: string): Promise<Uint8Array | null> {
    return (await this.files.bytes?.(name)) ?? null;
  }

  list(folder: string): ReturnType<Files['list']> {
    return this.files.list(folder);
  }

  async kind(name: string): ReturnType<Files['kind']> {
    return this.open.has(name) ? 'file' : this.files.kind(name);
  }
}

/** Whether an offset lies in a span, its end included: a cursor behind a word is still at it. */
export const holds = (span: Span, offset: number): boolean => span.start <= offset && offset <= span.end;
