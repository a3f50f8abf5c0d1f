/**
 * What is known of a sum of times that do not depend on each other, in minutes: their means add, and so do their
 * variances; no job takes less than all the lows or more than all the highs.
 */
export interface Spread {
  readonly expected: number;
  /** In square minutes. */
  readonly variance: number;
  readonly least: number;
  readonly most: number;
}

/** A spread with what it says of a quote: of a hundred such jobs, fifty take no longer than `at50` and ninety no longer than `at90`. */
export interface Figures {
  readonly expected: number;
  readonly deviation: number;
  readonly at50: number;
  readonly at90: number;
  readonly least: number;
  readonly most: number;
}

export const NO_TIME: Spread = { expected: 0, variance: 0, least: 0, most: 0 };

export function addSpreads(a: Spread, b: Spread): Spread {
  return {
    expected: a.expected + b.expected,
    variance: a.variance + b.variance,
    least: a.least + b.least,
    most: a.most + b.most,
  };
}

/**
 * The figures of a spread. What is assumed: a beta curve from `least` to `most` with that mean and that variance. For one
 * three-point time that is what the PERT estimate takes for granted; for many it becomes the normal curve, and for a few
 * it keeps within the bounds and leans as they do, which the normal curve does not. Times in single figures have no
 * spread of their own: a total of such alone has all its figures in one.
 */
export function figuresOf(spread: Spread): Figures {
  const { expected, variance, least, most } = spread;
  const [at50, at90] = percentilesOf(spread, [0.5, 0.9]) as [number, number];
  return { expected, deviation: Math.sqrt(variance), at50, at90, least, most };
}

/** All figures of a quote multiplied: an allowance stretches every one of them. */
export function scaled(figures: Figures, factor: number): Figures {
  return {
    expected: figures.expected * factor,
    deviation: figures.deviation * factor,
    at50: figures.at50 * factor,
    at90: figures.at90 * factor,
    least: figures.least * factor,
    most: figures.most * factor,
  };
}

/** Cells in which the curve is added up: the figures are then true to a ten-thousandth of its width. */
const CELLS = 512;
/** How many standard deviations on either side of the mean are looked at; next to nothing lies outside. */
const REACH = 9;

/**
 * The times that a spread keeps with each of some shares, which go up. The density of the beta curve is added up over the
 * square of a sine, where it has no edges; what it is multiplied by falls out.
 */
export function percentilesOf(spread: Spread, shares: readonly number[]): number[] {
  const { expected, variance, least, most } = spread;
  const width = most - least;
  if (!(width > 1e-9) || !(variance > 1e-12)) return shares.map(() => expected);
  const mean = Math.min(1, Math.max(0, (expected - least) / width));
  const deviation = Math.sqrt(variance) / width;
  // What the two parameters of the curve add up to. At least 4 where the figures are those of three-point times.
  const sum = Math.max(2, (mean * (1 - mean)) / deviation ** 2 - 1);
  const low = angleOf(mean - REACH * deviation);
  const cell = (angleOf(mean + REACH * deviation) - low) / CELLS;
  const logs = Array.from({ length: CELLS }, (_, index) => {
    const angle = low + (index + 0.5) * cell;
    return (
      (2 * mean * sum - 1) * Math.log(Math.sin(angle)) +
      (2 * (1 - mean) * sum - 1) * Math.log(Math.cos(angle))
    );
  });
  const highest = Math.max(...logs);
  const masses = logs.map((log) => Math.exp(log - highest));
  const whole = masses.reduce((all, mass) => all + mass, 0);
  const found: number[] = [];
  let before = 0;
  for (let index = 0; index < CELLS && found.length < shares.length; index++) {
    const after = before + masses[index]! / whole;
    while (found.length < shares.length && shares[found.length]! <= after) {
      const angle = low + (index + (shares[found.length]! - before) / (after - before)) * cell;
      found.push(least + width * Math.sin(angle) ** 2);
    }
    before = after;
  }
  while (found.length < shares.length) found.push(most);
  return found;
}

/** The angle whose sine squared is a share of the width. */
const angleOf = (share: number): number => Math.asin(Math.sqrt(Math.min(1, Math.max(0, share))));
