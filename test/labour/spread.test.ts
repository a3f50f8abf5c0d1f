import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addSpreads,
  figuresOf,
  NO_TIME,
  percentilesOf,
  type Spread,
  scaled,
} from '../../server/src/labour/spread';
import { expectedOf, type ThreePoint, varianceOf } from '../../server/src/labour/three-point';

const spreadOf = (time: ThreePoint): Spread => ({
  expected: expectedOf(time),
  variance: varianceOf(time),
  least: time.low,
  most: time.high,
});

const sumOf = (times: readonly ThreePoint[]): Spread => times.map(spreadOf).reduce(addSpreads, NO_TIME);

const threePoint = fc
  .tuple(
    fc.double({ min: 0, max: 40, noNaN: true }),
    fc.double({ min: 0, max: 40, noNaN: true }),
    fc.double({ min: 0, max: 40, noNaN: true }),
  )
  .map((figures) => {
    const [low, likely, high] = [...figures].sort((a, b) => a - b) as [number, number, number];
    return { low, likely, high };
  });

describe('the 50 % and 90 % figures', () => {
  // RUN: scipy.stats.beta.ppf, version 1.14 or so, of the beta curve with the mean (a + 4m + b) / 6 and the deviation
  // (b - a) / 6 between a and b; the last two rows are sums of 10 and of 1000 times of 4, 6, 12 minutes.
  it.each([
    [[{ low: 5, likely: 8, high: 14 }], 8.40753, 10.5552],
    [[{ low: 4, likely: 8, high: 13 }], 8.13738, 10.18004],
    [[{ low: 1, likely: 10, high: 17 }], 9.72534, 13.1653],
    [[{ low: 7, likely: 7, high: 12 }], 7.5591, 9.0631],
    [[{ low: 0, likely: 10, high: 10 }], 8.8818, 9.9135],
    [[{ low: 0, likely: 0, high: 60 }], 6.70921, 24.75722],
    [Array(10).fill({ low: 4, likely: 6, high: 12 }), 66.55363, 72.16151],
    [Array(1000).fill({ low: 4, likely: 6, high: 12 }), 6666.55554, 6720.77481],
  ])('of %j are those that another program computes', (times: ThreePoint[], at50, at90) => {
    const spread = sumOf(times);
    const [found50, found90] = percentilesOf(spread, [0.5, 0.9]) as [number, number];
    const tolerance = (spread.most - spread.least) * 2e-4;
    expect(Math.abs(found50 - at50)).toBeLessThan(tolerance);
    expect(Math.abs(found90 - at90)).toBeLessThan(tolerance);
  });

  it('become those of the normal curve where there are many steps', () => {
    const { expected, deviation, at50, at90 } = figuresOf(
      sumOf(Array(400).fill({ low: 3, likely: 5, high: 11 })),
    );
    expect(Math.abs(at50 - expected) / deviation).toBeLessThan(0.01);
    // 1.2816 is the normal curve's own figure for 90 %: any table of it.
    expect((at90 - expected) / deviation).toBeCloseTo(1.2816, 2);
  });

  it('are one where nothing has a range', () => {
    expect(figuresOf(sumOf([{ low: 7, likely: 7, high: 7 }]))).toMatchObject({
      at50: 7,
      at90: 7,
      deviation: 0,
    });
    expect(figuresOf(NO_TIME)).toMatchObject({ expected: 0, at50: 0, at90: 0 });
  });

  it('lie in order between all lows and all highs, whatever the times', () => {
    fc.assert(
      fc.property(fc.array(threePoint, { maxLength: 6 }), (times) => {
        const { least, at50, at90, most } = figuresOf(sumOf(times));
        expect(at50).toBeGreaterThanOrEqual(least - 1e-9);
        expect(at90).toBeGreaterThanOrEqual(at50 - 1e-9);
        expect(most).toBeGreaterThanOrEqual(at90 - 1e-9);
      }),
      { numRuns: 500 },
    );
  });

  it('grow with an allowance by what everything grows', () => {
    const figures = figuresOf(sumOf([{ low: 5, likely: 8, high: 14 }]));
    expect(scaled(figures, 1.12).at90).toBeCloseTo(figures.at90 * 1.12, 9);
  });
});

/**
 * The oracle samples: each step by a beta curve of its own, with the parameters 1 + 4 (likely - low) / (high - low) and 1 +
 * 4 (high - likely) / (high - low) (the usual beta of a three-point time). Its variance is up to a seventh more or less than the
 * ((high - low) / 6)² of the published examples, which is what the tolerance is for: four tenths of the total's deviation.
 */
describe('against sampling', () => {
  it('the figures of totals of one to twelve steps are near the sampled ones', () => {
    fc.assert(
      fc.property(fc.array(threePoint, { minLength: 1, maxLength: 12 }), fc.integer(), (times, seed) => {
        const spread = sumOf(times);
        fc.pre(spread.most - spread.least > 1);
        const random = generator(seed);
        const totals = Array.from({ length: 4000 }, () =>
          times.reduce((sum, time) => sum + sample(time, random), 0),
        ).sort((a, b) => a - b);
        const { at50, at90, deviation } = figuresOf(spread);
        expect(Math.abs(at50 - totals[2000]!)).toBeLessThan(0.4 * deviation);
        expect(Math.abs(at90 - totals[3600]!)).toBeLessThan(0.4 * deviation);
      }),
      { numRuns: 40 },
    );
  });
});

/** Numbers from 0 to 1, the same for one seed: a linear congruential generator of 32 bits, mixed. */
function generator(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

function sample({ low, likely, high }: ThreePoint, random: () => number): number {
  if (high - low < 1e-9) return likely;
  const a = gamma(1 + (4 * (likely - low)) / (high - low), random);
  const b = gamma(1 + (4 * (high - likely)) / (high - low), random);
  return low + ((high - low) * a) / (a + b);
}

/** A gamma variate of a shape of 1 or more, by the method of squeezing a normal one. */
function gamma(shape: number, random: () => number): number {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const normal = Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    const v = (1 + c * normal) ** 3;
    if (v > 0 && Math.log(1 - random()) < normal ** 2 / 2 + d - d * v + d * Math.log(v)) return d * v;
  }
}
