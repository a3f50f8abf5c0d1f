import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { otherUnit, printMeasure, printQuantity } from '../../server/src/units/format';
import { type Dimension, parseQuantity, type Quantity } from '../../server/src/units/quantity';
import { findUnit, fromBase, symbolsOf, toBase } from '../../server/src/units/table';

function read(text: string, dimension: Dimension): Quantity {
  const result = parseQuantity(text, dimension);
  if (!result.ok) throw new Error(result.problem.message);
  return result.quantity;
}

const dimensions: Dimension[] = [
  ...(['torque', 'length', 'distance', 'mass', 'angle'] as const),
  ...(['time', 'pressure', 'force', 'volume', 'temperature'] as const),
];

describe('the table of units', () => {
  // International inch, pound, pound-force and standard gravity are exact by definition; the torque and pressure
  // factors follow from them, and NIST SP 811, appendix B, prints 1.355 818, 0.112 984 8 and 6.894 757 E+03 for them.
  it.each<[Dimension, string, string, number]>([
    ['torque', 'lbf·ft', 'N·m', 1.3558179483314003],
    ['torque', 'lbf·in', 'N·m', 0.1129848290276167],
    ['torque', 'kgf·m', 'N·m', 9.80665],
    ['length', 'in', 'mm', 25.4],
    ['length', 'ft', 'mm', 304.8],
    ['mass', 'lb', 'kg', 0.45359237],
    ['mass', 'oz', 'g', 28.349523125],
    ['force', 'lbf', 'N', 4.4482216152605],
    ['pressure', 'psi', 'kPa', 6.894757293168361],
    ['pressure', 'bar', 'kPa', 100],
    ['volume', 'US gal', 'L', 3.785411784],
    ['distance', 'mi', 'km', 1.609344],
  ])('holds that for %s one %s is in %s: %d', (dimension, from, to, factor) => {
    const one = toBase(1, findUnit(from, dimension)!);
    expect(fromBase(one, findUnit(to, dimension)!) / factor).toBeCloseTo(1, 14);
  });

  it('turns Fahrenheit into Celsius by (F − 32) / 1.8', () => {
    for (const [f, c] of [
      [32, 0],
      [212, 100],
      [-40, -40],
    ] as const) {
      expect(read(`${f} °F`, 'temperature').low).toBeCloseTo(c, 12);
    }
  });

  it('derives the compound factors from the exact ones', () => {
    const force = findUnit('lbf', 'force')!.factor;
    const inch = findUnit('in', 'length')!.factor / 1000;
    expect(findUnit('lbf·in', 'torque')!.factor / (force * inch)).toBeCloseTo(1, 14);
    expect(findUnit('lbf·ft', 'torque')!.factor / (force * inch * 12)).toBeCloseTo(1, 14);
    expect(findUnit('psi', 'pressure')!.factor / (force / inch ** 2 / 1000)).toBeCloseTo(1, 14);
  });

  it('reads back every symbol that it prints, in every dimension', () => {
    for (const dimension of dimensions) {
      for (const symbol of symbolsOf(dimension)) {
        expect(findUnit(symbol, dimension)?.symbol).toBe(symbol);
        expect(
          read(printMeasure(toBase(5, findUnit(symbol, dimension)!), dimension, symbol), dimension).symbol,
        ).toBe(symbol);
      }
    }
  });
});

describe('printing', () => {
  it('gives the figure as the other half of the trade reads it, as a wrench can be set', () => {
    expect(otherUnit(read('95 N·m', 'torque'))).toBe('70 lbf·ft');
    expect(otherUnit(read('8 N·m', 'torque'))).toBe('71 lbf·in');
    expect(otherUnit(read('80-100 lb-ft', 'torque'))).toBe('108–136 N·m');
    expect(otherUnit(read('10 lbf·ft', 'torque'))).toBe('13.5 N·m');
    expect(otherUnit(read('9 lbf·in', 'torque'))).toBe('1 N·m');
    expect(otherUnit(read('1/2 in', 'length'))).toBe('12.7 mm');
    expect(otherUnit(read('75 mm', 'length'))).toBe('2.95 in');
    expect(otherUnit(read('15 kg', 'mass'))).toBe('33.1 lb');
    expect(otherUnit(read('2 bar', 'pressure'))).toBe('29 psi');
    expect(otherUnit(read('90°', 'angle'))).toBeUndefined();
    expect(otherUnit(read('12 min', 'time'))).toBeUndefined();
  });

  it('gives a written second unit back as it was written', () => {
    expect(otherUnit(read('108-136 N·m (80-100 lb-ft)', 'torque'))).toBe('80–100 lbf·ft');
    expect(printQuantity(read('108-136 N·m (80-100 lb-ft)', 'torque'))).toBe('108–136 N·m');
  });

  it('leaves a figure alone in its own unit', () => {
    expect(printQuantity(read('22.3 Nm', 'torque'))).toBe('22.3 N·m');
    expect(printQuantity(read('-5 to 5 mm', 'length'))).toBe('-5 to 5 mm');
    expect(printQuantity(read('90 deg', 'angle'))).toBe('90°');
    expect(printMeasure(76.19999999999999, 'length', 'mm')).toBe('76.2 mm');
    expect(printMeasure(0.0000001, 'length', 'mm')).toBe('0.0000001 mm');
    expect(printMeasure(20, 'length', 'furlong')).toBe('20 mm');
  });

  it('goes round: what is printed reads as the same figure', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...dimensions).chain((dimension) =>
          fc.record({
            dimension: fc.constant(dimension),
            symbol: fc.constantFrom(...symbolsOf(dimension)),
            figures: fc.tuple(fc.integer({ min: 0, max: 99_999 }), fc.integer({ min: 0, max: 99_999 })),
            places: fc.integer({ min: 0, max: 3 }),
          }),
        ),
        ({ dimension, symbol, figures, places }) => {
          const [low, high] = figures.map((figure) => figure / 10 ** places).sort((a, b) => a - b) as [
            number,
            number,
          ];
          const unit = findUnit(symbol, dimension)!;
          const written = read(low === high ? `${low} ${symbol}` : `${low}-${high} ${symbol}`, dimension);
          expect(written.low).toBeCloseTo(toBase(low, unit), 6);
          const again = read(printQuantity(written), dimension);
          expect(again.low).toBeCloseTo(written.low, 6);
          expect(again.high).toBeCloseTo(written.high, 6);
          expect(again.symbol).toBe(symbol);
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('prints in another unit within the step that it rounds to', () => {
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 30_000 }), (tenths) => {
        const quantity = read(`${tenths / 10} lbf·ft`, 'torque');
        const printed = read(printQuantity(quantity, 'N·m'), 'torque').low;
        const step = quantity.low > 20 ? 1 : quantity.low > 5 ? 0.5 : 0.1;
        expect(Math.abs(printed - quantity.low)).toBeLessThanOrEqual(step / 2 + 1e-9);
      }),
    );
  });

  it('would have printed 43 of the 49 manual pairs to the figure and the rest within the tolerance', async () => {
    const { printedPairs } = await import('./printed-pairs');
    const exact = printedPairs.filter(([, lbLow, lbHigh, low, high]) => {
      const figure = lbLow === lbHigh ? `${lbLow}` : `${lbLow}-${lbHigh}`;
      return (
        printQuantity(read(`${figure} lb-ft`, 'torque'), 'N·m') ===
        `${low === high ? low : `${low}–${high}`} N·m`
      );
    });
    expect(exact.length).toBe(43);
  });
});
