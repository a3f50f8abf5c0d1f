import { printMeasure } from './format';
import { fail } from './problem';
import { fromBase, type Unit } from './table';

/** A range in base units, with what is needed to compare and print it. */
export interface Resolved {
  readonly low: number;
  readonly high: number;
  readonly unit: Unit;
  readonly written: string;
  readonly start: number;
  readonly end: number;
}

/**
 * Ends in a problem unless a second unit says the same: both ends may differ by 1 %, and a torque by 1 N·m, as printed
 * manuals round. In other dimensions half of the last place of either figure is allowed (`6 mm (1/4 in)`); common practice.
 */
export function checkPair(first: Resolved, second: Resolved): void {
  const { dimension } = first.unit;
  for (const end of ['low', 'high'] as const) {
    const least = dimension === 'torque' ? 1 : Math.max(halfPlace(first, end), halfPlace(second, end));
    const allowed = Math.max(least, Math.abs(first[end]) * 0.01) * (1 + 1e-9);
    if (Math.abs(first[end] - second[end]) <= allowed) continue;
    const figure = printMeasure(second[end], dimension, second.unit.symbol);
    const meant = printMeasure(second[end], dimension, first.unit.symbol, 3);
    const said = printMeasure(first[end], dimension, first.unit.symbol);
    fail(
      'pair-disagrees',
      `The two figures disagree: ${figure} is ${meant}, not ${said}.`,
      second.start,
      second.end,
      first.low === first.high ? printMeasure(first.low, dimension, second.unit.symbol, 3) : undefined,
    );
  }
}

/** Half of the place (1, 0.1, 0.01 or 0.001 of its unit) to which a figure seems to be rounded, in the base unit. */
function halfPlace(range: Resolved, end: 'low' | 'high'): number {
  const figure = Math.abs(fromBase(range[end], range.unit));
  const isWhole = (step: number): boolean => Math.abs(figure / step - Math.round(figure / step)) < 1e-6;
  return 0.5 * range.unit.factor * ([1, 0.1, 0.01].find(isWhole) ?? 0.001);
}
