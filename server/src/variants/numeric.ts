import { printMeasure } from '../units/format';
import { type Dimension, parseQuantity } from '../units/quantity';
import type { BoundCondition, NumericBounds, ValueCondition } from './condition';

/** A numeric trait as declared: a range, or the only values there are. Figures in the base unit of the dimension. */
export type NumericTrait =
  | {
      readonly dimension: Dimension;
      readonly from: number;
      readonly to: number;
      /** Symbol of the unit in which intervals are printed. */
      readonly symbol: string;
    }
  | {
      readonly dimension: Dimension;
      readonly list: readonly { readonly name: string; readonly value: number }[];
    };

/** A piece of a numeric trait's range, in the base unit. */
export interface Interval {
  readonly low: number;
  readonly high: number;
  /** The end itself belongs to the neighbouring piece. */
  readonly lowOpen: boolean;
  readonly highOpen: boolean;
}

export interface NumericValue {
  readonly name: string;
  readonly interval: Interval;
}

/** A line through a numeric trait, just before or just after a figure. */
export interface Cut {
  readonly at: number;
  readonly after: boolean;
}

/** Figures that differ only by arithmetic in floating point are one (3 in and 76.2 mm). */
const settled = (figure: number): number => Number(figure.toPrecision(12));

const compareCuts = (a: Cut, b: Cut): number => a.at - b.at || Number(a.after) - Number(b.after);

/** The measure or range that a written value names, as bounds, or undefined where it is no measure of the dimension. */
export function boundsOfValue(written: string, dimension: Dimension): NumericBounds | undefined {
  const parsed = parseQuantity(written, dimension);
  return parsed.ok ? { atLeast: parsed.quantity.low, atMost: parsed.quantity.high } : undefined;
}

/** The lines that conditions on one numeric trait draw, in order, each once. */
export function cutValues(leaves: readonly (ValueCondition | BoundCondition)[], dimension: Dimension): Cut[] {
  const cuts: Cut[] = [];
  const addBounds = (bounds: NumericBounds): void => {
    if (bounds.atLeast !== undefined) cuts.push({ at: settled(bounds.atLeast), after: false });
    if (bounds.below !== undefined) cuts.push({ at: settled(bounds.below), after: false });
    if (bounds.above !== undefined) cuts.push({ at: settled(bounds.above), after: true });
    if (bounds.atMost !== undefined) cuts.push({ at: settled(bounds.atMost), after: true });
  };
  for (const leaf of leaves) {
    if (!('values' in leaf)) addBounds(leaf);
    else for (const value of leaf.values) addBounds(boundsOfValue(value, dimension) ?? {});
  }
  cuts.sort(compareCuts);
  return cuts.filter((cut, index) => index === 0 || compareCuts(cuts[index - 1]!, cut) !== 0);
}

/** The values of a numeric trait: the listed ones, each figure once, or the pieces into which the cuts divide its range. */
export function numericValues(trait: NumericTrait, cuts: readonly Cut[]): NumericValue[] {
  if ('list' in trait) {
    const byFigure = new Map<number, NumericValue>();
    for (const { name, value } of trait.list) {
      const figure = settled(value);
      if (!byFigure.has(figure)) byFigure.set(figure, { name, interval: point(figure) });
    }
    return [...byFigure.values()];
  }
  const from = settled(Math.min(trait.from, trait.to));
  const to = settled(Math.max(trait.from, trait.to));
  const inner = cuts.filter((cut) =>
    cut.after ? cut.at >= from && cut.at < to : cut.at > from && cut.at <= to,
  );
  const ends: Cut[] = [{ at: from, after: false }, ...inner, { at: to, after: true }];
  const values: NumericValue[] = [];
  for (let index = 1; index < ends.length; index++) {
    const start = ends[index - 1]!;
    const end = ends[index]!;
    const interval = { low: start.at, high: end.at, lowOpen: start.after, highOpen: !end.after };
    values.push({ name: nameOf(interval, trait.dimension, trait.symbol), interval });
  }
  return values;
}

/** The places of the intervals that lie within bounds, or 'uncut' where one lies across a bound. */
export function placesWithin(intervals: readonly Interval[], bounds: NumericBounds): number[] | 'uncut' {
  const places: number[] = [];
  for (let place = 0; place < intervals.length; place++) {
    const side = sideOf(intervals[place]!, bounds);
    if (side === 'across') return 'uncut';
    if (side === 'inside') places.push(place);
  }
  return places;
}

const point = (at: number): Interval => ({ low: at, high: at, lowOpen: false, highOpen: false });

function sideOf(interval: Interval, bounds: NumericBounds): 'inside' | 'outside' | 'across' {
  const start: Cut = { at: interval.low, after: interval.lowOpen };
  const end: Cut = { at: interval.high, after: !interval.highOpen };
  // What is allowed runs from the last of the lower lines to the first of the upper ones.
  const lower: Cut[] = [];
  const upper: Cut[] = [];
  if (bounds.atLeast !== undefined) lower.push({ at: settled(bounds.atLeast), after: false });
  if (bounds.above !== undefined) lower.push({ at: settled(bounds.above), after: true });
  if (bounds.atMost !== undefined) upper.push({ at: settled(bounds.atMost), after: true });
  if (bounds.below !== undefined) upper.push({ at: settled(bounds.below), after: false });
  if (lower.some((cut) => compareCuts(end, cut) <= 0)) return 'outside';
  if (upper.some((cut) => compareCuts(cut, start) <= 0)) return 'outside';
  const within =
    lower.every((cut) => compareCuts(cut, start) <= 0) && upper.every((cut) => compareCuts(end, cut) <= 0);
  return within ? 'inside' : 'across';
}

function nameOf(interval: Interval, dimension: Dimension, symbol: string): string {
  const low = printMeasure(interval.low, dimension, symbol);
  const high = printMeasure(interval.high, dimension, symbol);
  if (interval.low === interval.high) return low;
  return `${interval.lowOpen ? 'over ' : ''}${low} to ${interval.highOpen ? 'under ' : ''}${high}`;
}
