import { type Table, withoutEmptyColumns } from '../table';
import { type Content, h } from './html';

export interface TableLook {
  /** Keys of columns that are read at a glance. */
  readonly strong?: readonly string[];
  readonly className?: string;
  /** The heading above says what the table is: the caption is for those who hear the page. */
  readonly headed?: boolean;
}

/** A list as a table, with boxes for the columns that are filled in by hand; nothing for an empty one. */
export function htmlTable(
  table: Table,
  { strong = [], className = '', headed = false }: TableLook = {},
): Content[] {
  if (table.rows.length === 0) return [];
  const { title, columns, rows, byHand, notes } = withoutEmptyColumns(table);
  const classOf = (index: number): string[] => [
    ...(columns[index]?.numeric === true ? ['n'] : []),
    ...(strong.includes(columns[index]?.key ?? '') ? ['strong'] : []),
  ];
  return [
    h('table', { className: className === '' ? [] : [className] }, [
      h('caption', { className: headed ? ['hidden'] : [] }, title),
      h('thead', [
        h('tr', [
          ...columns.map(({ title: head, numeric }) =>
            h('th', { scope: 'col', className: numeric === true ? ['n'] : [] }, head),
          ),
          ...byHand.map((head) => h('th', { scope: 'col', className: ['hand'] }, head)),
        ]),
      ]),
      h(
        'tbody',
        rows.map((row) =>
          h('tr', [
            ...row.map((cell, index) =>
              h('td', { className: classOf(index) }, cell === null ? '' : String(cell)),
            ),
            ...byHand.map(() => h('td', { className: ['hand'] }, handBoxes(sidesIn(row)))),
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

/** What has two sides is ticked twice. */
const sidesIn = (row: readonly unknown[]): number => (row.includes('left, right') ? 2 : 1);

const handBoxes = (count: number): Content[] =>
  count === 2
    ? [...handBox('left'), ' ', ...handBox('right')].map((one) => (typeof one === 'string' ? text(one) : one))
    : [h('span', { className: ['box'] })];

const handBox = (side: string): Content[] => [
  h('span', { className: ['box'] }),
  text(side.charAt(0).toUpperCase()),
];

const text = (value: string): Content => ({ type: 'text', value });
