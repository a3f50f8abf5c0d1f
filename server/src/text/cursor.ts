const TAB = 9;
const SPACE = 32;
const HASH = 35;
const DASH = 45;
const COLON = 58;

/** Goes through text line by line and tells, by a line's characters alone, what it can be in YAML. */
export class LineCursor {
  /** The current line: where it starts, where its content starts behind its spaces, where it ends. */
  start = 0;
  content = 0;
  end = 0;
  private following: number;

  /** A byte order mark is stepped over at a document's start. */
  constructor(
    private readonly text: string,
    documentStart: boolean,
  ) {
    this.following = documentStart && text.charCodeAt(0) === 0xfeff ? 1 : 0;
  }

  /** Goes to the next line; false when there is none. LF, CRLF and CR end a line. */
  next(): boolean {
    const { text } = this;
    if (this.following >= text.length) return false;
    let at = this.following;
    this.start = at;
    while (text.charCodeAt(at) === SPACE) at++;
    this.content = at;
    while (at < text.length && text.charCodeAt(at) !== 10 && text.charCodeAt(at) !== 13) at++;
    this.end = at;
    this.following = text.charCodeAt(at) === 13 && text.charCodeAt(at + 1) === 10 ? at + 2 : at + 1;
    return true;
  }

  get indent(): number {
    return this.content - this.start;
  }

  /** True for a line that holds nothing, only a comment, or a tab in its indentation: it belongs to what is open. */
  get isIdle(): boolean {
    return this.text.charCodeAt(this.content) === TAB || this.isBlankFrom(this.content);
  }

  /** True for `---` or `...` alone at the line's very start, with or without content behind. */
  get isMarker(): boolean {
    return this.indent === 0 && isMarkerAt(this.text, this.content);
  }

  get isDash(): boolean {
    return this.text.charCodeAt(this.content) === DASH && this.endsWordAt(this.content + 1);
  }

  /** Where the content behind the line's dash starts. */
  get behindDash(): number {
    let at = this.content + 1;
    while (at < this.end && this.text.charCodeAt(at) === SPACE) at++;
    return at;
  }

  /** True when nothing but blanks and a comment follows up to the line's end. */
  isBlankFrom(from: number): boolean {
    let at = from;
    while (at < this.end && this.endsWordAt(at)) at++;
    if (at >= this.end) return true;
    return this.text.charCodeAt(at) === HASH && (at === this.content || this.endsWordAt(at - 1));
  }

  /** True for what can only be the start of a plain key or value. */
  startsWord(at: number): boolean {
    return at < this.end && !'-?:,[]{}#&*!|>\'"%@`\t'.includes(this.text[at]!);
  }

  /**
   * True for `name: …` or `"name": …`, the keys that our documents have at their root. A text with a colon in it that got
   * to the line's start, or a key in one of YAML's rarer forms, is not thought of.
   */
  get isNamedPair(): boolean {
    const quote = this.text[this.content];
    let at = this.content;
    if (quote === '"' || quote === "'") {
      do at++;
      while (at < this.end && this.text[at] !== quote);
      at++;
    } else at = this.behindName(at);
    if (at <= this.content || at > this.end) return false;
    while (this.text.charCodeAt(at) === SPACE) at++;
    return this.text.charCodeAt(at) === COLON && this.endsWordAt(at + 1);
  }

  /** True for `word: …` in a place where a block map's key may stand. */
  isPair(from: number): boolean {
    if (!this.startsWord(from)) return false;
    for (let at = from; at < this.end; at++) {
      const code = this.text.charCodeAt(at);
      if (code === COLON && this.endsWordAt(at + 1)) return true;
      if (code === HASH && this.endsWordAt(at - 1)) return false;
    }
    return false;
  }

  /** True for a `key:` with nothing behind it, under which a list or map may stand; its colon may still be missing. */
  opens(from: number): boolean {
    let at = this.behindName(from);
    if (at === from) return false;
    while (at < this.end && this.text.charCodeAt(at) === SPACE) at++;
    return this.isBlankFrom(this.text.charCodeAt(at) === COLON ? at + 1 : at);
  }

  private behindName(from: number): number {
    let at = from;
    while (at < this.end && isNameCharacter(this.text.charCodeAt(at))) at++;
    return at;
  }

  private endsWordAt(at: number): boolean {
    return at >= this.end || this.text.charCodeAt(at) === SPACE || this.text.charCodeAt(at) === TAB;
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
