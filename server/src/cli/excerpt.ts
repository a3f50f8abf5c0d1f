import type { Span } from '../findings/finding';
import type { Lines } from '../text/lines';
import { type Cell, cellsOfLine } from './width';

export interface Excerpt {
  /** The source line as shown, cut around the span where it is long. */
  readonly source: string;
  /** Blanks and marks that stand under the span. */
  readonly blanks: string;
  readonly marks: string;
}

/**
 * The line on which a span begins, and the marks under what of the span stands on it. At least one mark, also for an
 * empty span or one at the end of the line.
 * @param width cells that there are; at least 20 are used.
 */
export function excerptOf(lines: Lines, span: Span, width: number): Excerpt {
  const { line, character: column } = lines.positionAt(span.start);
  const text = lines.lineAt(line);
  const end = lines.positionAt(span.end);
  const endColumn = end.line === line ? end.character : text.trimEnd().length;
  const cells = cellsOfLine(text);
  const before = cells.filter((cell) => cell.end <= column);
  const within = cells.filter((cell) => cell.end > column && cell.start < Math.max(endColumn, column));
  const after = cells.slice(before.length + within.length);
  return cut(before, within, after, Math.max(20, width));
}

const total = (cells: readonly Cell[]): number => cells.reduce((sum, cell) => sum + cell.cells, 0);
const shown = (cells: readonly Cell[]): string => cells.map((cell) => cell.shown).join('');

function cut(before: Cell[], within: Cell[], after: Cell[], width: number): Excerpt {
  // What cannot be shown is not even counted: a line may be a million characters long.
  const most = 2 * width;
  const left = before.slice(-most);
  const middle = within.slice(0, most);
  const right = after.slice(0, most);
  let room = width - total(left) - total(middle) - total(right);
  let leftCut = left.length < before.length;
  let middleCut = middle.length < within.length;
  let rightCut = right.length < after.length;
  const drop = (cells: Cell[], fromEnd: boolean): void => {
    room += (fromEnd ? cells.pop()! : cells.shift()!).cells;
  };
  // Too long: first what stands behind goes, to a few words; then what stands before; then the span's own end.
  const tooLong = () => room < (leftCut ? 1 : 0) + (rightCut || middleCut ? 1 : 0);
  while (tooLong() && total(right) > width / 4) {
    drop(right, true);
    rightCut = true;
  }
  while (tooLong() && total(left) > width / 4) {
    drop(left, false);
    leftCut = true;
  }
  while (tooLong() && right.length > 0) {
    drop(right, true);
    rightCut = true;
  }
  while (tooLong() && middle.length > 1) {
    drop(middle, true);
    middleCut = true;
  }
  const start = leftCut ? '…' : '';
  const blanks = start === '' ? total(left) : total(left) + 1;
  return {
    source:
      `${start}${shown(left)}${shown(middle)}${middleCut ? '…' : ''}${middleCut ? '' : shown(right)}${rightCut && !middleCut ? '…' : ''}`.trimEnd(),
    blanks: ' '.repeat(blanks),
    marks: '^'.repeat(Math.max(1, total(middle) + (middleCut ? 1 : 0))),
  };
}
