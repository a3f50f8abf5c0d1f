/** A list of the guide: the same for a page, for Markdown, for a spreadsheet and for a program. */

export type Cell = string | number | null;

export interface Column {
  /** For programs, in kebab case; stable. */
  readonly key: string;
  /** For people. */
  readonly title: string;
  readonly numeric?: true;
  /** Where there is little room its cells stand under the first one, in small print, with these words before each. */
  readonly under?: string;
  /** It is for programs alone and never printed. */
  readonly hidden?: true;
}

export interface Table {
  readonly title: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
  /** Columns that are filled in by hand, on paper: a box to tick, or room to write. */
  readonly byHand: readonly { readonly title: string; readonly room?: true }[];
  /** What is to be said under it, in whole sentences. */
  readonly notes: readonly string[];
}

/** A table without the columns that are for programs, or empty in every row: nobody prints those. */
export function forPrint(table: Table): Table {
  const used = table.columns.map(
    ({ hidden }, index) =>
      hidden !== true && table.rows.some((row) => row[index] !== null && row[index] !== ''),
  );
  return {
    ...table,
    columns: table.columns.filter((_, index) => used[index]),
    rows: table.rows.map((row) => row.filter((_, index) => used[index])),
  };
}

/** `2.1, 3.4 and 5.2`; of many the first and the last. */
export function stepsInWords(numbers: readonly string[]): string {
  const all = [...new Set(numbers)];
  if (all.length > 6) return `${all[0]} to ${all.at(-1)}, ${all.length} steps`;
  return all.join(', ');
}

/** What of a row stands under its first cell: `M12x1.5 · bolts: 2`; empty where nothing does. */
export function underOf({ columns }: Table, row: readonly Cell[]): string {
  return columns
    .flatMap(({ under }, index) => {
      const cell = row[index];
      return under === undefined || cell === null || cell === undefined || cell === ''
        ? []
        : [`${under}${cell}`];
    })
    .join(' · ');
}
