import { type Cell, type Column, forPrint, type Table, underOf } from '../table';
import { type Content, h } from './html';

export interface TableLook {
  /** Keys of columns that are read at a glance. */
  readonly strong?: readonly string[];
  /** Rows with one first cell stand together beside it. */
  readonly grouped?: boolean;
  readonly className?: string;
  /** The heading above says what the table is: the caption is for those who hear the page. */
  readonly headed?: boolean;
}

/** A list as a table, with boxes and room for what is filled in by hand; nothing for an empty one. */
export function htmlTable(table: Table, look: TableLook = {}): Content[] {
  if (table.rows.length === 0) return [];
  const { strong = [], grouped = false, className = '', headed = false } = look;
  const printable = forPrint(table);
  const { title, columns, rows, byHand, notes } = printable;
  const shown = columns.flatMap((column, index) =>
    column.under !== undefined ? [] : [{ ...column, index }],
  );
  const classOf = ({ key, numeric }: Column): string[] => [
    ...(numeric === true ? ['n'] : []),
    ...(strong.includes(key) ? ['strong'] : []),
  ];
  const cellsOf = (row: readonly Cell[], at: number): Content[] =>
    shown.flatMap(({ index, ...column }, place) => {
      if (place > 0) return [h('td', { className: classOf(column) }, printed(row[index]))];
      if (!grouped) {
        const small = underOf(printable, row);
        return [
          h('th', { scope: 'row' }, [
            h('span', printed(row[index])),
            ...(small === '' ? [] : [h('small', small)]),
          ]),
        ];
      }
      if (at > 0 && rows[at - 1]![index] === row[index]) return [];
      const next = rows.findIndex((other, later) => later > at && other[index] !== row[index]);
      const span = (next < 0 ? rows.length : next) - at;
      return [h('th', { scope: 'rowgroup', rowSpan: span }, printed(row[index]))];
    });
  return [
    h('table', { className: className === '' ? [] : [className] }, [
      h('caption', { className: headed ? ['hidden'] : [] }, title),
      h('thead', [
        h('tr', [
          ...shown.map((column) => h('th', { scope: 'col', className: classOf(column) }, column.title)),
          ...byHand.map((one) =>
            h('th', { scope: 'col', className: one.room ? ['hand', 'room'] : ['hand'] }, one.title),
          ),
        ]),
      ]),
      h(
        'tbody',
        rows.map((row, at) =>
          h('tr', [
            ...cellsOf(row, at),
            ...byHand.map((one) =>
              h('td', { className: ['hand'] }, one.room ? [] : boxes(row.includes('left, right'))),
            ),
          ]),
        ),
      ),
    ]),
    ...(notes.length === 0
      ? []
      : [
          h(
            'ul',
            { className: ['notes'] },
            notes.map((note) => h('li', note)),
          ),
        ]),
  ];
}

const printed = (cell: Cell | undefined): string => (cell === null || cell === undefined ? '' : String(cell));

/** What has two sides is ticked twice. */
const boxes = (both: boolean): Content[] => (both ? [box(), text('L '), box(), text('R')] : [box()]);

const box = (): Content => h('span', { className: ['box'] });

const text = (value: string): Content => ({ type: 'text', value });
