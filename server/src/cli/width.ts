/** How wide characters stand on a terminal, and lines cut to what fits. */

/** Code points that take two cells: East Asian wide and full-width forms, emoji. From the Unicode blocks, whole. */
const WIDE: readonly (readonly [number, number])[] = [
  [0x1100, 0x115f],
  [0x2e80, 0x303e],
  [0x3041, 0x33ff],
  [0x3400, 0x4dbf],
  [0x4e00, 0x9fff],
  [0xa000, 0xa4cf],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe30, 0xfe6f],
  [0xff00, 0xff60],
  [0xffe0, 0xffe6],
  [0x1f300, 0x1f64f],
  [0x1f680, 0x1f6ff],
  [0x1f900, 0x1f9ff],
  [0x20000, 0x3fffd],
];

const MARK = /^\p{Mark}$/u;

/** Cells that one character takes: 0 for what stands on the one before, 2 for wide ones. */
export function cellsOf(character: string): number {
  const code = character.codePointAt(0)!;
  if (code < 0x300) return 1;
  if (code === 0x200d || (code >= 0x200b && code <= 0x200f) || (code >= 0xfe00 && code <= 0xfe0f)) return 0;
  if (MARK.test(character)) return 0;
  return WIDE.some(([from, to]) => code >= from && code <= to) ? 2 : 1;
}

export function widthOf(text: string): number {
  let cells = 0;
  for (const character of text) cells += cellsOf(character);
  return cells;
}

export const TAB = 4;

export interface Cell {
  readonly shown: string;
  readonly cells: number;
  /** Where the character stands in the line, in UTF-16 units. */
  readonly start: number;
  readonly end: number;
}

/** A source line as it is shown: tabs as spaces, what would move the cursor as a dot. */
export function cellsOfLine(line: string): Cell[] {
  const found: Cell[] = [];
  let at = 0;
  let column = 0;
  for (const character of line) {
    const code = character.codePointAt(0)!;
    let shown = character;
    let cells = cellsOf(character);
    if (character === '\t') {
      cells = TAB - (column % TAB);
      shown = ' '.repeat(cells);
    } else if (
      code < 0x20 ||
      (code >= 0x7f && code < 0xa0) ||
      (code >= 0x202a && code <= 0x202e) ||
      (code >= 0x2066 && code <= 0x2069)
    ) {
      // Control characters and those that turn the direction of writing would make the page lie.
      shown = '·';
      cells = 1;
    } else if (code === 0xfeff) {
      shown = '';
      cells = 0;
    }
    found.push({ shown, cells, start: at, end: at + character.length });
    column += cells;
    at += character.length;
  }
  return found;
}

/** Text of ours or of a document as it may be printed: nothing in it moves the cursor. */
export function printable(text: string): string {
  return cellsOfLine(text)
    .map((cell) => cell.shown)
    .join('');
}

/** Breaks a sentence at spaces into lines of at most so many cells; a longer word stands alone. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && widthOf(line) + 1 + widthOf(word) > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

/** Cut to so many cells, with an ellipsis where something is left out. */
export function shorten(text: string, width: number): string {
  if (widthOf(text) <= width) return text;
  let shown = '';
  let cells = 0;
  for (const character of text) {
    cells += cellsOf(character);
    if (cells > width - 1) break;
    shown += character;
  }
  return `${shown.trimEnd()}…`;
}

/** Filled with spaces to so many cells. */
export function padded(text: string, width: number): string {
  return text + ' '.repeat(Math.max(0, width - widthOf(text)));
}

export function paddedLeft(text: string, width: number): string {
  return ' '.repeat(Math.max(0, width - widthOf(text))) + text;
}
