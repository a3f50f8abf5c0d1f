/** Repairs of a table of clearances. Each keeps to the smaller tyre where two could be meant. */

import type { Fix, Place } from '../findings/finding';
import { parseQuantity } from '../units/quantity';
import type { ClearanceRow } from './clearances';
import { writeInstead } from './report';
import type { Cursor } from './source';
import { ANY_DIMENSION } from './variables';

export const tyrePlace = ({ cursor }: ClearanceRow): Place => cursor.get('tyre')!.place;

/** A bound of the one trait that a row's condition asks of. */
interface Bound {
  readonly trait: string;
  readonly figure: number;
  readonly cursor: Cursor;
}

/** The bound under a word, where the condition is a map of one trait. */
function boundOf({ when }: ClearanceRow, ...words: readonly string[]): Bound | null {
  const pairs = when?.entries() ?? [];
  const [pair] = pairs;
  if (pair === undefined || pairs.length > 1) return null;
  for (const word of words) {
    const cursor = pair[1].get(word);
    const read = cursor?.text ? parseQuantity(cursor.text, ANY_DIMENSION) : null;
    if (cursor !== null && read?.ok === true)
      return { trait: pair[0], figure: read.quantity.nominal, cursor };
  }
  return null;
}

/** Where a row ends below one figure and the next begins with a larger one: the first goes on to where the next begins. */
export function closing(rows: readonly ClearanceRow[]): Fix[] {
  const begins = rows.flatMap((row) => boundOf(row, 'at-least') ?? []).sort((a, b) => a.figure - b.figure);
  return rows.flatMap((row) => {
    const end = boundOf(row, 'below');
    const next = begins.find((one) => one.trait === end?.trait && one.figure >= end.figure);
    return end === null || next === undefined || next.figure === end.figure
      ? []
      : [writeInstead(end.cursor.place, next.cursor.text!)];
  });
}

/** Where two rows lie over one another: that of the larger tyre begins where that of the smaller one ends. */
export function parting(one: ClearanceRow, other: ClearanceRow): Fix[] {
  const [small, large] = one.tyre.diameter < other.tyre.diameter ? [one, other] : [other, one];
  const end = boundOf(small, 'below', 'at-most');
  const begin = boundOf(large, 'at-least', 'above');
  if (end === null || begin === null || begin.trait !== end.trait || begin.figure > end.figure) return [];
  const word = end.cursor.keyText === 'below' ? 'at-least' : 'above';
  const { text } = end.cursor;
  return [
    {
      title: `Write ${word}: ${text}`,
      edits: [
        { place: begin.cursor.keyPlace, text: word },
        { place: begin.cursor.place, text: text! },
      ],
      safe: false,
    },
  ];
}

/** Two rows that name each other's tyre. */
export const swapped = (one: ClearanceRow, other: ClearanceRow): Fix[] => [
  {
    title: `Swap ${one.tyre.name} and ${other.tyre.name}`,
    edits: [
      { place: tyrePlace(one), text: other.cursor.get('tyre')!.text! },
      { place: tyrePlace(other), text: one.cursor.get('tyre')!.text! },
    ],
    safe: false,
  },
];
