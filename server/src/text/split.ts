import { LineCursor } from './cursor';

/**
 * Cuts a document into pieces that are read one by one: each root key, each item or entry right under a root key, and
 * each item of a list in those items, such as a step of a section. One pass over the lines; what it knows before a line is a small state, so that after an edit
 * it can start at any piece and stop where the states meet again.
 *
 * A cut is only made where YAML cannot be inside a scalar or a bracket: at exactly the indentation of an open block map
 * or list. Everything deeper, blank lines and comments belong to the piece before.
 */

export type Mode =
  | 'start' // nothing read yet
  | 'whole' // not a plain block map: one piece to the end
  | 'root' // under a root key that holds something of its own
  | 'open' // behind `key:`, which may open a list or a map
  | 'entries' // in a map under a root key
  | 'list' // in an item of a list under a root key
  | 'half' // in such an item that does not begin as a map, and may be a text of several lines
  | 'steps' // behind a key of an item, `steps:` or another, which may open a list
  | 'step'; // in an item of that list

export interface SplitState {
  readonly mode: Mode;
  /** Indentation of the list's dashes, or of the map's keys under a root key. */
  readonly outer: number;
  /** Column of the keys in a list's item; `UNKNOWN` until its first line, `NONE` if it cannot be a plain map. */
  readonly column: number;
  /** Indentation of the dashes of the list in the item. */
  readonly inner: number;
  /** Indentation of the last of these dashes: less than `inner` for one that does not line up. */
  readonly dash: number;
}

/**
 * What a piece holds: pairs of the root; an item of the list under a root key; pairs of the map under one; further pairs
 * of an item; an item of the list under such a pair.
 */
export type PieceKind = 'root' | 'item' | 'entry' | 'part' | 'step';

export interface PieceStart {
  readonly offset: number;
  readonly kind: PieceKind;
  /** The state before the piece's first line. */
  readonly before: SplitState;
}

export const FIRST_STATE: SplitState = { mode: 'start', outer: 0, column: 0, inner: 0, dash: 0 };

export function sameState(a: SplitState, b: SplitState): boolean {
  return (
    a.mode === b.mode &&
    a.outer === b.outer &&
    a.column === b.column &&
    a.inner === b.inner &&
    a.dash === b.dash
  );
}

/** Splits text that starts in a state. `first` is true at the start of the document, which always starts a piece. */
export function split(
  text: string,
  state: SplitState,
  first: boolean,
): { starts: PieceStart[]; end: SplitState } {
  const splitter = new Splitter(text, state, first);
  if (first) splitter.starts.push({ offset: 0, kind: 'root', before: state });
  splitter.run();
  return { starts: splitter.starts, end: splitter.state() };
}

const UNKNOWN = -1;
const NONE = -2;

class Splitter {
  readonly starts: PieceStart[] = [];
  private mode: Mode;
  private outer: number;
  private column: number;
  private inner: number;
  private dash: number;
  private readonly line: LineCursor;

  constructor(text: string, before: SplitState, documentStart: boolean) {
    this.line = new LineCursor(text, documentStart);
    this.mode = before.mode;
    this.outer = before.outer;
    this.column = before.column;
    this.inner = before.inner;
    this.dash = before.dash;
  }

  state(): SplitState {
    return { mode: this.mode, outer: this.outer, column: this.column, inner: this.inner, dash: this.dash };
  }

  run(): void {
    while (this.line.next()) if (!this.line.isIdle) this.take();
  }

  private take(): void {
    const { line } = this;
    if (line.isMarker) {
      if (this.mode === 'start' && !line.isBlankFrom(line.content + 3)) this.mode = 'whole';
      return;
    }
    const indent = line.indent;
    switch (this.mode) {
      case 'start':
        if (indent === 0 && line.startsWord(line.content)) this.enterRootKey();
        else this.mode = 'whole';
        return;
      case 'whole':
        return;
      case 'root':
        if (indent === 0) this.rootLine();
        return;
      case 'open':
        this.firstUnderKey(indent);
        return;
      case 'entries':
        if (indent === 0) this.rootLine();
        else if (indent === this.outer && line.startsWord(line.content)) this.start('entry');
        return;
      default:
        this.inList(indent);
    }
  }

  private firstUnderKey(indent: number): void {
    const { line } = this;
    if (line.isDash) this.item(indent);
    else if (indent === 0) this.rootLine();
    else if (line.isPair(line.content)) {
      this.start('entry');
      this.mode = 'entries';
      this.outer = indent;
    } else this.mode = 'root';
  }

  private inList(indent: number): void {
    const { line } = this;
    if (indent === this.outer && line.isDash) this.item(indent);
    else if (indent === 0) this.rootLine();
    // What stands too far to the left to belong to the item is a mistake in the piece it follows, and ends nothing.
    else if (indent > this.outer) this.inItem(indent);
  }

  private inItem(indent: number): void {
    const { line } = this;
    if (this.mode === 'step') {
      if (indent > this.inner) return;
      if (indent === this.column && line.isNamedPair) this.part();
      // Without its dash, or with a dash too far to the left, it is a step all the same, and not the one before.
      else if (line.isDash ? indent >= this.column : indent === this.inner && this.dash === indent) {
        this.start('step');
        this.dash = indent;
      }
    } else if (this.mode === 'steps') {
      if (indent < this.column) return;
      if (line.isDash) {
        this.start('step');
        this.mode = 'step';
        this.inner = this.dash = indent;
      } else if (indent === this.column) this.part();
      else this.mode = 'list';
    } else {
      if (this.column === UNKNOWN) this.beginItem(line.content);
      // A word alone may go on with a text; with a colon behind it, it cannot.
      const cuts = this.mode === 'list' || line.isPair(line.content);
      if (indent === this.column && cuts && line.opens(line.content)) this.part();
    }
  }

  private part(): void {
    const { line } = this;
    this.start('part');
    this.inner = this.dash = 0;
    this.mode = line.opens(line.content) ? 'steps' : 'list';
  }

  private item(indent: number): void {
    const { line } = this;
    this.start('item');
    const at = line.behindDash;
    this.outer = indent;
    this.inner = this.dash = 0;
    this.column = UNKNOWN;
    this.mode = 'half';
    if (line.isBlankFrom(at)) return;
    this.beginItem(at);
    if (line.isPair(at) && line.opens(at)) this.mode = 'steps';
  }

  /** The first line of an item that says anything. */
  private beginItem(at: number): void {
    const { line } = this;
    this.column = line.startsWord(at) ? at - line.start : NONE;
    this.mode = line.isPair(at) ? 'list' : 'half';
  }

  /** A line without indentation, anywhere but at the document's start. */
  private rootLine(): void {
    const { line } = this;
    const underRootKey = this.mode === 'root' || this.mode === 'open';
    if (underRootKey && !line.startsWord(line.content)) {
      this.mode = 'root';
      return;
    }
    // In a list or map, what is no key yet is something half typed or out of place, and not the end of the list.
    if (!underRootKey && !line.isNamedPair) return;
    this.start('root');
    this.enterRootKey();
  }

  private enterRootKey(): void {
    const { line } = this;
    this.outer = this.column = this.inner = this.dash = 0;
    this.mode = line.opens(line.content) ? 'open' : 'root';
  }

  private start(kind: PieceKind): void {
    this.starts.push({ offset: this.line.start, kind, before: this.state() });
  }
}
