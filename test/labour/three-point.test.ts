import { describe, expect, it } from 'vitest';
import { expectedOf, hoursOf, printHours, varianceOf } from '../../server/src/labour/three-point';

describe('three-point times', () => {
  // Printed examples of the PERT estimate: te = (a + 4m + b) / 6 and variance ((b - a) / 6)².
  // The first from course notes published at bms.co.in; the lettered activities from the fourteen-activity
  // exercise published at wizedu.com, question 717873. Printed to two decimals.
  it.each([
    ['5/8/14', 5, 8, 14, 8.5, 1.5 ** 2],
    ['A', 5, 5, 7, 5.33, 0.33 ** 2],
    ['D', 4, 8, 13, 8.17, 1.5 ** 2],
    ['E', 1, 10, 17, 9.67, 2.67 ** 2],
    ['G', 2, 6, 9, 5.83, 1.17 ** 2],
    ['I', 2, 7, 10, 6.67, 1.33 ** 2],
    ['N', 7, 7, 12, 7.83, 0.83 ** 2],
  ])('gives the printed figures of %s', (_, low, likely, high, mean, variance) => {
    expect(expectedOf({ low, likely, high })).toBeCloseTo(mean, 2);
    expect(Math.sqrt(varianceOf({ low, likely, high }))).toBeCloseTo(Math.sqrt(variance), 2);
  });

  it('takes a single figure as it is', () => {
    expect(expectedOf({ low: 12, likely: 12, high: 12 })).toBe(12);
    expect(varianceOf({ low: 12, likely: 12, high: 12 })).toBe(0);
  });
});

describe('hours', () => {
  it.each([
    [0, 0],
    [1, 0.1],
    [6, 0.1],
    [6.0001, 0.2],
    [60, 1],
    [61, 1.1],
    [66, 1.1],
    [384, 6.4],
  ])('rounds %d minutes up to %d h', (minutes, hours) => {
    expect(hoursOf(minutes)).toBe(hours);
  });

  it('is not misled by the noise of floating point', () => {
    expect(hoursOf(0.1 * 3 * 20)).toBe(0.1);
    for (let tenths = 0; tenths < 500; tenths++)
      expect(hoursOf(tenths * 6)).toBe(Number((tenths / 10).toFixed(1)));
  });

  it('prints with the decimals of the rounding', () => {
    expect(printHours(60)).toBe('1.0 h');
    expect(printHours(61, 0.25)).toBe('1.25 h');
    expect(printHours(61, 1)).toBe('2 h');
  });
});
