import type { LedgerLine } from '../../../server/src/lsp/guide-view-types';

/** What a line does beside one step. */
export type Doing = 'opens' | 'runs' | 'closes' | 'both';

export interface LaneMark {
  /** From the left; one line keeps its column. */
  readonly column: number;
  readonly doing: Doing;
  readonly line: LedgerLine;
}

export interface Lane {
  /** How many columns are drawn. */
  readonly columns: number;
  /** By path of the step, from the left. */
  readonly marks: ReadonlyMap<string, readonly LaneMark[]>;
  /** Lines that were open before the first step. */
  readonly before: readonly LedgerLine[];
  /** Lines beside a step that found no column, by path. */
  readonly more: ReadonlyMap<string, number>;
}

/** More columns than this are not told apart by anybody. */
const MOST_COLUMNS = 14;

/**
 * Puts each line in a column of its own for as long as it is open. The column nearest to the steps that is free is
 * taken; a line whose step is not shown is left out.
 * @param paths of the steps, in order.
 */
export function laneOf(lines: readonly LedgerLine[], paths: readonly string[]): Lane {
  const places = new Map(paths.map((path, index) => [path, index]));
  const marks = new Map<string, LaneMark[]>();
  const more = new Map<string, number>();
  const before: LedgerLine[] = [];
  const rows: { line: LedgerLine; first: number; last: number }[] = [];
  for (const line of lines) {
    const first = line.opened === null ? -1 : places.get(line.opened);
    const last = line.closed === null ? paths.length : places.get(line.closed);
    if (first === undefined || last === undefined) continue;
    if (first < 0) before.push(line);
    rows.push({ line, first, last });
  }
  rows.sort((a, b) => a.first - b.first || b.last - a.last);
  /** By column, counted from the steps: the last place that is taken. */
  const taken: number[] = [];
  const placed = rows.map((row) => {
    let from = taken.findIndex((last) => last < row.first);
    if (from < 0 && taken.length < MOST_COLUMNS) from = taken.length;
    if (from >= 0) taken[from] = row.last;
    return { ...row, from };
  });
  const columns = taken.length;
  for (const { line, first, last, from } of placed) {
    for (let at = Math.max(first, 0); at <= Math.min(last, paths.length - 1); at++) {
      const path = paths[at]!;
      if (from < 0) {
        more.set(path, (more.get(path) ?? 0) + 1);
        continue;
      }
      const doing =
        at === first && at === last ? 'both' : at === first ? 'opens' : at === last ? 'closes' : 'runs';
      const mark: LaneMark = { column: columns - 1 - from, doing, line };
      const list = marks.get(path);
      if (list === undefined) marks.set(path, [mark]);
      else list.push(mark);
    }
  }
  for (const list of marks.values()) list.sort((a, b) => a.column - b.column);
  return { columns, marks, before, more };
}
