/** Torques as they are printed, in both units. */

import { otherUnit, printQuantity } from '../units/format';
import type { Quantity } from '../units/quantity';

export interface BothUnits {
  /** `90 N·m`. */
  readonly metric: string;
  /** `66 lbf·ft`, or lbf·in for a small one. */
  readonly imperial: string;
}

const METRIC = 'N·m';
const IMPERIAL = new Set(['lbf·ft', 'lbf·in']);

/** A torque in both units: figures that were written stay as they were, the others are rounded as a wrench can be set. */
export function bothUnits(torque: Quantity): BothUnits {
  const { symbol, second } = torque;
  const secondly =
    second === undefined
      ? null
      : printQuantity({ ...torque, low: second.low, high: second.high, symbol: second.symbol });
  const metric =
    symbol === METRIC
      ? printQuantity(torque)
      : second?.symbol === METRIC && secondly !== null
        ? secondly
        : printQuantity(torque, METRIC);
  const imperial = IMPERIAL.has(symbol)
    ? printQuantity(torque)
    : second !== undefined && IMPERIAL.has(second.symbol) && secondly !== null
      ? secondly
      : (otherUnit({ ...torque, symbol: METRIC, second: undefined } as Quantity) ??
        printQuantity(torque, 'lbf·ft'));
  return { metric, imperial };
}
