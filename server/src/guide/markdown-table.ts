import type { RootContent } from 'mdast';
import { heading, list, table as mdastTable, text } from './mdast';
import { forPrint, type Table } from './table';

/** A table of a guide under its title, with its notes; nothing for an empty one. */
export function headed(table: Table, depth: 1 | 2 | 3 = 2): RootContent[] {
  if (table.rows.length === 0) return [];
  const { title, columns, rows, byHand, notes } = forPrint(table);
  return [
    heading(depth, title),
    mdastTable(
      [...columns.map((one) => one.title), ...byHand.map((one) => one.title)],
      rows.map((row) => [...row.map((one) => (one === null ? '' : String(one))), ...byHand.map(() => '')]),
      columns.map(({ numeric }) => (numeric === true ? 'right' : null)),
    ),
    ...(notes.length === 0 ? [] : [list(notes.map((note) => ({ line: [text(note)] })))]),
  ];
}
