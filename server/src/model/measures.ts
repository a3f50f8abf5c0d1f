/** Figures of declarations in the base units of the model; what cannot be read was reported by the schema and counts as not said. */

import { type Dimension, parseQuantity, type Quantity } from '../units/quantity';
import { type Body, textOf } from './body';

/** A quantity under a key, null where none is said or it cannot be read. */
export function quantityOf(
  body: Body,
  key: string,
  dimension: Dimension,
  quantities?: QuantityReader,
): Quantity | null {
  const text = textOf(body, key);
  return quantities === undefined ? readQuantity(text, dimension) : quantities.read(text, dimension);
}

/** A figure under a key in the base unit of its dimension. */
export function figureOf(
  body: Body,
  key: string,
  dimension: Dimension,
  quantities?: QuantityReader,
): number | null {
  return quantityOf(body, key, dimension, quantities)?.nominal ?? null;
}

/** Figures that are kept as they were read; someone who types makes a new one with every key. */
const MOST_KEPT = 20_000;

/** Reads quantities and remembers them: guides repeat their figures and times. */
export class QuantityReader {
  private readonly known = new Map<string, Quantity | null>();

  read(text: string | null, dimension: Dimension | readonly Dimension[]): Quantity | null {
    if (text === null) return null;
    const key = `${dimension} ${text}`;
    const before = this.known.get(key);
    if (before !== undefined) return before;
    const read = readQuantity(text, dimension);
    if (this.known.size >= MOST_KEPT) this.known.clear();
    this.known.set(key, read);
    return read;
  }
}

export function readQuantity(
  text: string | null,
  dimension: Dimension | readonly Dimension[],
): Quantity | null {
  // Words (`to: ride-height`) are common where a figure may stand, and are told at a glance.
  if (text === null || !/[0-9]/.test(text)) return null;
  const read = parseQuantity(text, dimension);
  return read.ok ? read.quantity : null;
}
