import { readMeasure } from './measure';
import type { Dimension } from './table';

export type { Dimension } from './table';

/**
 * A figure with its unit. `low`, `high` and `nominal` (the middle of the range, or the figure itself) are in the base
 * unit of the dimension: torque N·m, length mm, distance km, mass kg, angle degrees, time minutes, pressure kPa,
 * force N, volume L, temperature °C.
 */
export interface Quantity {
  readonly dimension: Dimension;
  readonly low: number;
  readonly high: number;
  readonly nominal: number;
  /** The unit as it is written (`Nm`, `lb-ft`); in `1 h 30 min` the first. */
  readonly unit: string;
  /** The unit as it is printed (`N·m`, `lbf·ft`). */
  readonly symbol: string;
  /** The same figure in a second unit, as written in brackets; `low` and `high` in the base unit too. */
  readonly second?: {
    readonly low: number;
    readonly high: number;
    readonly unit: string;
    readonly symbol: string;
  };
}

export type QuantityProblemCode =
  | 'not-a-number'
  | 'missing-unit'
  | 'unknown-unit'
  | 'wrong-dimension'
  | 'range-upside-down'
  | 'negative'
  | 'pair-disagrees'
  | 'not-understood';

/** Why a text is not the quantity wanted: one plain sentence, and where in the text (UTF-16 units, end exclusive). */
export interface QuantityProblem {
  readonly code: QuantityProblemCode;
  readonly message: string;
  readonly start: number;
  readonly end: number;
  /**
   * For an unknown unit the nearest known one, for a missing unit the base unit, for a second figure that disagrees the
   * first one in its unit: what a fix could write.
   */
  readonly suggestion?: string;
  /** The unit is a slip of one unit alone: a letter for another, or two that changed places. */
  readonly certain?: boolean;
}

export type QuantityResult =
  | { readonly ok: true; readonly quantity: Quantity }
  | { readonly ok: false; readonly problem: QuantityProblem };

/**
 * Reads a quantity as guides write it: `95 N·m`, `108-136 N·m (80-100 lbf·ft)`, `90°`, `3 1/2 in`, `1 h 30 min`,
 * `-5 mm`, `0,7-7 bar`, `95 ± 5 Nm`. Never throws; linear in the length of the text.
 *
 * @param dimension what is wanted, or several where any will do (`after:` takes a distance or a time); the first that fits counts.
 */
export function parseQuantity(text: string, dimension: Dimension | readonly Dimension[]): QuantityResult {
  return readMeasure(text, typeof dimension === 'string' ? [dimension] : dimension);
}
