/**
 * Cuts a document into pieces that are read one by one: each root key, each item or entry right under a root key, and
 * each step of a section. One pass over the lines; what it knows before a line is a small state, so that after an edit
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
  | 'steps' // behind an item's `steps:`
  | 'step'; // in a step

export interface SplitState {
  readonly mode: Mode;
  /** Indentation of the list's dashes, or of the map's keys under a root key. */
  readonly outer: number;
  /** Column of the keys in a list's item; `UNKNOWN` until its first line, `NONE` if it is no plain map. */
  readonly column: number;
  /** Indentation of the steps' dashes. */
  readonly inner: number;
}

/** What a piece holds: pairs of the root, an item, pairs of an entry map, more pairs of the item, a step. */
export type PieceKind = 'root' | 'item' | 'entry' | 'part' | 'step';

export interface PieceStart {
  readonly offset: number;
  readonly kind: PieceKind;
  /** The state before the piece's first line. */
  readonly before: SplitState;
}

export const FIRST_STATE: SplitState = { mode: 'start', outer: 0, column: 0, inner: 0 };

export function sameState(a: SplitState, b: SplitState): boolean {
  return a.mode === b.mode && a.outer === b.outer && a.column === b.column && a.inner === b.inner;
}

/** Splits text that starts in a state. `first` is true at the start of the document, which always starts a piece. */
export function split(
  text: string,
  state: SplitState,
  first: boolean,
): { starts: PieceStart[]; end: SplitState } {
  const splitter = new Splitter(text, state);
  if (first) splitter.starts.push({ offset: 0, kind: 'root', before: state });
  splitter.run(first);
  return { starts: splitter.starts, end: splitter.state() };
}

const UNKNOWN = -1;
const NONE = -2;

const TAB = 9;
const SPACE = 32;
const HASH = 35;
const DASH = 45;
const DOT = 46;
const COLON = 58;

class Splitter {
  readonly starts: PieceStart[] = [];
  private mode: Mode;
  private outer: number;
  private column: number;
  private inner: number;
  /** The current line: where it starts, where its content starts, where it ends. */
  private line = 0;
  private content = 0;
  private end = 0;

  constructor(
    private readonly text: string,
    before: SplitState,
  ) {
    this.mode = before.mode;
    this.outer = before.outer;
    this.column = before.column;
    this.inner = before.inner;
  }

  state(): SplitState {
    return { mode: this.mode, outer: this.outer, column: this.column, inner: this.inner };
  }

  run(first: boolean): void {
    const { text } = this;
    let at = first && text.charCodeAt(0) === 0xfeff ? 1 : 0;
    while (at < text.length) {
      this.line = at;
      while (text.charCodeAt(at) === SPACE) at++;
      this.content = at;
      while (at < text.length && text.charCodeAt(at) !== 10 && text.charCodeAt(at) !== 13) at++;
      this.end = at;
      if (!this.isBlank(this.content) && text.charCodeAt(this.content) !== TAB) this.take();
      if (text.charCodeAt(at) === 13 && text.charCodeAt(at + 1) === 10) at++;
      at++;
    }
  }

  private take(): void {
    const indent = this.content - this.line;
    if (indent === 0 && this.isMarker()) {
      if (this.mode === 'start' && !this.isBlank(this.content + 3)) this.mode = 'whole';
      return;
    }
    switch (this.mode) {
      case 'start':
        if (indent === 0 && this.startsWord(this.content)) this.enterRootKey();
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
        else if (indent === this.outer && this.startsWord(this.content)) this.start('entry');
        return;
      default:
        this.inList(indent);
    }
  }

  private firstUnderKey(indent: number): void {
    if (this.isDash()) this.item(indent);
    else if (indent === 0) this.rootLine();
    else if (this.isPair(this.content)) {
      this.start('entry');
      this.mode = 'entries';
      this.outer = indent;
    } else this.mode = 'root';
  }

  private inList(indent: number): void {
    if (this.mode === 'step') {
      if (indent > this.inner) return;
      if (indent === this.inner && this.isDash()) {
        this.start('step');
        return;
      }
      if (indent === this.column && !this.isDash()) {
        this.part();
        return;
      }
      if (indent > this.outer) return;
      this.inner = 0;
    } else if (this.mode === 'steps') {
      if (indent >= this.column && this.isDash()) {
        this.start('step');
        this.mode = 'step';
        this.inner = indent;
        return;
      }
      if (indent === this.column) {
        this.part();
        return;
      }
    }
    this.mode = 'list';
    if (indent > this.outer) {
      if (this.column === UNKNOWN) this.column = this.isPair(this.content) ? indent : NONE;
      if (indent === this.column && this.opens(this.content, 'steps')) this.part();
    } else if (indent === this.outer && this.isDash()) this.item(indent);
    else if (indent === 0) this.rootLine();
  }

  private part(): void {
    this.start('part');
    this.inner = 0;
    this.mode = this.opens(this.content, 'steps') ? 'steps' : 'list';
  }

  private item(indent: number): void {
    this.start('item');
    let at = this.content + 1;
    while (at < this.end && this.text.charCodeAt(at) === SPACE) at++;
    this.outer = indent;
    this.inner = 0;
    this.column = this.isBlank(at) ? UNKNOWN : this.isPair(at) ? at - this.line : NONE;
    this.mode = this.column >= 0 && this.opens(at, 'steps') ? 'steps' : 'list';
  }

  /** A line without indentation, anywhere but at the document's start. */
  private rootLine(): void {
    const underRootKey = this.mode === 'root' || this.mode === 'open';
    if (underRootKey && !this.startsWord(this.content)) {
      this.mode = 'root';
      return;
    }
    this.start('root');
    this.enterRootKey();
  }

  private enterRootKey(): void {
    this.outer = this.column = this.inner = 0;
    this.mode = this.opens(this.content, null) ? 'open' : 'root';
  }

  private start(kind: PieceKind): void {
    this.starts.push({ offset: this.line, kind, before: this.state() });
  }

  /** True when nothing but blanks and a comment follows up to the line's end. */
  private isBlank(from: number): boolean {
    let at = from;
    while (at < this.end && (this.text.charCodeAt(at) === SPACE || this.text.charCodeAt(at) === TAB)) at++;
    if (at >= this.end) return true;
    return this.text.charCodeAt(at) === HASH && (at > from || at === this.content);
  }

  private isMarker(): boolean {
    const code = this.text.charCodeAt(this.content);
    return (code === DASH || code === DOT) && isMarkerAt(this.text, this.content);
  }

  private isDash(): boolean {
    return this.text.charCodeAt(this.content) === DASH && this.endsWordAt(this.content + 1);
  }

  private endsWordAt(at: number): boolean {
    return at >= this.end || this.text.charCodeAt(at) === SPACE || this.text.charCodeAt(at) === TAB;
  }

  /** True for what can only be the start of a plain key or value. */
  private startsWord(at: number): boolean {
    return !'-?:,[]{}#&*!|>\'"%@`'.includes(this.text[at] ?? '#');
  }

  /** True for `word: …` in a place where a block map's key may stand. */
  private isPair(from: number): boolean {
    if (!this.startsWord(from)) return false;
    for (let at = from; at < this.end; at++) {
      const code = this.text.charCodeAt(at);
      if (code === COLON && this.endsWordAt(at + 1)) return true;
      if (code === HASH && this.endsWordAt(at - 1)) return false;
    }
    return false;
  }

  /** True for a bare `key:` with nothing behind it, or for the given key alone. */
  private opens(from: number, key: string | null): boolean {
    let at = from;
    while (at < this.end && isNameCharacter(this.text.charCodeAt(at))) at++;
    if (at === from || (key !== null && this.text.slice(from, at) !== key)) return false;
    while (at < this.end && this.text.charCodeAt(at) === SPACE) at++;
    return this.text.charCodeAt(at) === COLON && this.isBlank(at + 1);
  }
}

/** True for `---` or `...` standing alone at this place, which must be a line's start. */
export function isMarkerAt(text: string, at: number): boolean {
  if (!text.startsWith('---', at) && !text.startsWith('...', at)) return false;
  const behind = text.charCodeAt(at + 3);
  return Number.isNaN(behind) || behind === SPACE || behind === TAB || behind === 10 || behind === 13;
}

function isNameCharacter(code: number): boolean {
  return (
    (code >= 97 && code <= 122) ||
    (code >= 65 && code <= 90) ||
    (code >= 48 && code <= 57) ||
    code === DASH ||
    code === 95
  );
}
