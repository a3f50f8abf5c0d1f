/** Written values in one form, so that another spelling of the same is no change: keys in order, a list of one as the one, units apart. */

import type { Cursor } from '../model/source';
import { ANY_DIMENSION } from '../model/variables';
import { parseQuantity } from '../units/quantity';

/** What a value says, alike for all ways to write it down; null where nothing is said. */
export function saidBy(cursor: Cursor | null): string | null {
  return cursor === null ? null : said(cursor.value);
}

export function said(value: unknown): string {
  if (Array.isArray(value)) {
    return value.length === 1 ? said(value[0]) : `[${value.map(said).join(', ')}]`;
  }
  if (typeof value === 'object' && value !== null) {
    const pairs = Object.entries(value).map(([key, one]) => `${key}: ${said(one)}`);
    return `{${pairs.sort().join(', ')}}`;
  }
  return typeof value === 'string' ? measured(value.trim().split(/\s+/).join(' ')) : String(value);
}

/** `12 cm` is `120 mm`. */
function measured(text: string): string {
  if (text.length > 60) return text;
  const read = parseQuantity(text, ANY_DIMENSION);
  if (!read.ok) return text;
  const { dimension, low, high } = read.quantity;
  return `${dimension} ${tidy(low)} ${tidy(high)}`;
}

/** Figures that differ only by arithmetic in floating point are one. */
const tidy = (figure: number): number => Number(figure.toPrecision(9));

/** A value as a reader likes it: lists with commas, maps as pairs. */
export function shownValue(value: unknown): string {
  if (Array.isArray(value)) return value.map(shownValue).join(', ');
  if (typeof value === 'object' && value !== null) {
    return Object.entries(value)
      .map(([key, one]) => `${key} ${shownValue(one)}`)
      .join(', ');
  }
  return String(value).trim();
}
