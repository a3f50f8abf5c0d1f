import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeOfTyre, circumference, ratioToRestore } from '../../server/src/calc/tyres';
import { parseTyre, type Tyre } from '../../server/src/units/tyre';

function tyre(text: string): Tyre {
  const result = parseTyre(text);
  if (!result.ok) throw new Error(result.message);
  return result.tyre;
}

describe('tyre codes', () => {
  // Diameters in mm: SEEN in several pages, RUN by the code's own sum.
  it.each([
    ['205/55R16', 631.9],
    ['225/65R17', 724.3],
    ['215/65R17', 711.3],
    ['225/60R17', 701.8],
    ['285/75R17', 859.3],
  ])('%s is %d mm tall', (code, diameter) => {
    expect(tyre(code).diameter).toBeCloseTo(diameter, 1);
  });

  // SEEN with the diameters: 205/55R16 has 1985 mm around, 285/75R17 is 33.8 in tall.
  it('have a circumference, and a diameter in inches', () => {
    expect(Math.round(circumference(tyre('205/55R16')))).toBe(1985);
    expect(tyre('285/75R17').diameter / 25.4).toBeCloseTo(33.8, 1);
  });

  it.each([
    ['205/55R16 91V', '205/55R16 91V', 205, 55, 91, 'V'],
    ['205/55 R 16 91 V', '205/55R16 91V', 205, 55, 91, 'V'],
    ['205/55zr16 91w xl', '205/55ZR16 91W', 205, 55, 91, 'W'],
    ['285/75R16', '285/75R16', 285, 75, null, null],
    ['LT285/75R16 126/123Q', 'LT285/75R16 126Q', 285, 75, 126, 'Q'],
    ['225/70R15C 112/110S', '225/70R15C 112S', 225, 70, 112, 'S'],
  ])('%s is read', (text, name, width, aspect, loadIndex, speed) => {
    expect(tyre(text)).toMatchObject({ name, width, aspect, loadIndex, speed });
  });

  it.each([
    ['35x12.50R17', 35, 12.5, 17],
    ['35×12,50 R17LT 121Q', 35, 12.5, 17],
    ['31x10.5-15', 31, 10.5, 15],
  ])('%s says its diameter itself', (text, over, width, rim) => {
    const read = tyre(text);
    expect(read.diameter / 25.4).toBeCloseTo(over, 9);
    expect(read.width / 25.4).toBeCloseTo(width, 9);
    expect(read.rim / 25.4).toBeCloseTo(rim, 9);
    expect(read.aspect).toBe(null);
  });

  it.each([
    ['', 'A tyre is missing here; write one such as 205/55R16 or 35x12.50R17.'],
    ['205-55-16', '"205-55-16" is no tyre; write one such as 205/55R16 91V, 285/75R16 or 35x12.50R17.'],
    ['205/15R16', 'No tyre has the size "205/15R16".'],
    ['950/55R16', 'No tyre has the size "950/55R16".'],
    ['16x12.50R17', 'No tyre has the size "16x12.50R17".'],
  ])('%j is refused in a sentence', (text, message) => {
    expect(parseTyre(text)).toEqual({ ok: false, message });
  });

  it('never throws', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[0-9/xRC. ]{1,60}$/)), (text) => {
        const read = parseTyre(text);
        if (read.ok) {
          expect(read.tyre.diameter).toBeGreaterThan(read.tyre.rim);
          expect(tyre(read.tyre.name)).toEqual(read.tyre);
        } else expect(read.message).toMatch(/\.$/);
      }),
    );
  });
});

describe('another tyre', () => {
  it('lifts by half, makes the speedometer read low and the gearing long', () => {
    const change = changeOfTyre(tyre('265/70R16'), tyre('285/75R16'));
    // By hand: 777.4 and 833.9 mm.
    expect(change.diameter).toBeCloseTo(56.5, 6);
    expect(change.lift).toBeCloseTo(28.25, 6);
    expect(change.trueSpeed * 100).toBeCloseTo(107.268, 3);
    expect(change.gearing * 4.1).toBeCloseTo(3.8222, 3);
    expect(ratioToRestore(4.1, change)).toBeCloseTo(4.398, 3);
  });

  it('and back is none', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('205/55R16', '225/60R16', '35x12.50R17'),
        fc.constantFrom('285/75R16', '31x10.5R15'),
        (a, b) => {
          const there = changeOfTyre(tyre(a), tyre(b));
          const back = changeOfTyre(tyre(b), tyre(a));
          expect(there.trueSpeed * back.trueSpeed).toBeCloseTo(1, 12);
          expect(there.lift + back.lift).toBeCloseTo(0, 12);
          expect(ratioToRestore(ratioToRestore(4, there), back)).toBeCloseTo(4, 12);
        },
      ),
    );
  });
});
