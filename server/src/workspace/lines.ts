/** Where lines begin: `\n`, `\r\n` and a lone `\r` end one, as editors count. Lines and columns here start at 0. */
export class Lines {
  private readonly starts: number[] = [0];

  constructor(readonly text: string) {
    for (let at = 0; at < text.length; at++) {
      const code = text.charCodeAt(at);
      if (code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10)) this.starts.push(at + 1);
    }
  }

  get count(): number {
    return this.starts.length;
  }

  /** Line and column (UTF-16 units) of an offset; one outside the text gives the nearest place inside. */
  positionAt(offset: number): { readonly line: number; readonly column: number } {
    const at = Math.max(0, Math.min(offset, this.text.length));
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.starts[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    return { line: low, column: at - this.starts[low]! };
  }

  /** The text of a line without its end; empty where there is no such line. */
  lineAt(line: number): string {
    const start = this.starts[line];
    if (start === undefined) return '';
    let end = this.starts[line + 1] ?? this.text.length;
    while (end > start && (this.text[end - 1] === '\n' || this.text[end - 1] === '\r')) end--;
    return this.text.slice(start, end);
  }

  /** The offset of a position; one outside the text gives the nearest place inside. */
  offsetAt(line: number, column: number): number {
    if (line >= this.starts.length) return this.text.length;
    const start = this.starts[Math.max(0, line)]!;
    return Math.min(start + Math.max(0, column), start + this.lineAt(line).length);
  }
}
