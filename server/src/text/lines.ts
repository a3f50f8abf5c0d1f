/** A place as editors count it: both from 0, the character in UTF-16 units. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

/** A place as people count it: both from 1, the column in UTF-16 units. */
export interface LineColumn {
  readonly line: number;
  readonly column: number;
}

/** Where the lines of a text start. LF, CRLF and a lone CR end a line. */
export class Lines {
  private readonly starts: readonly number[];
  /** Where each line's content ends, its break excluded. */
  private readonly ends: readonly number[];

  constructor(readonly text: string) {
    const starts = [0];
    const ends: number[] = [];
    for (let at = 0; at < text.length; at++) {
      const code = text.charCodeAt(at);
      if (code !== 10 && code !== 13) continue;
      ends.push(at);
      if (code === 13 && text.charCodeAt(at + 1) === 10) at++;
      starts.push(at + 1);
    }
    ends.push(text.length);
    this.starts = starts;
    this.ends = ends;
  }

  get count(): number {
    return this.starts.length;
  }

  /** The position of an offset; one outside the text gives its nearest end, one inside a CRLF the line's end. */
  positionAt(offset: number): Position {
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.starts[middle]! <= offset) low = middle;
      else high = middle - 1;
    }
    const end = Math.min(offset, this.ends[low]!);
    return { line: low, character: Math.max(0, end - this.starts[low]!) };
  }

  /** The offset of a position; a line outside the text gives its nearest end, a character beyond a line the line's end. */
  offsetAt(position: Position): number {
    if (position.line < 0) return 0;
    if (position.line >= this.starts.length) return this.ends.at(-1)!;
    const start = this.starts[position.line]!;
    return Math.min(start + Math.max(0, position.character), this.ends[position.line]!);
  }

  /** The text of a line (from 0) without its break; empty where there is no such line. */
  lineAt(line: number): string {
    return line in this.starts ? this.text.slice(this.starts[line], this.ends[line]) : '';
  }

  /** The position of an offset, counted from 1. */
  lineColumnAt(offset: number): LineColumn {
    const { line, character } = this.positionAt(offset);
    return { line: line + 1, column: character + 1 };
  }
}
