import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  coarsePitch,
  minorDiameter,
  parseThread,
  pitchDiameter,
  rootDiameter,
  stressArea,
} from '../../server/src/calc/threads';
import { refusal, thread } from './threads-of';

describe('designations', () => {
  it.each([
    ['M12x1.25', 'M12x1.25', 12, 1.25, 'fine'],
    ['M12×1,25', 'M12x1.25', 12, 1.25, 'fine'],
    ['m12 X 1.25', 'M12x1.25', 12, 1.25, 'fine'],
    ['M12-1.25', 'M12x1.25', 12, 1.25, 'fine'],
    ['M12x1.75', 'M12', 12, 1.75, 'coarse'],
    ['M12', 'M12', 12, 1.75, 'coarse'],
    ['M12 - 6g', 'M12', 12, 1.75, 'coarse'],
    ['M12-6g', 'M12', 12, 1.75, 'coarse'],
    ['M12x1.25-6H', 'M12x1.25', 12, 1.25, 'fine'],
    ['M12x1.25 LH', 'M12x1.25', 12, 1.25, 'fine'],
    ['M6x1.0', 'M6', 6, 1, 'coarse'],
    ['M12x2', 'M12x2', 12, 2, 'coarser'],
    ['M9x1.25', 'M9x1.25', 9, 1.25, 'other'],
  ])('%s is %s', (text, name, diameter, pitch, series) => {
    expect(thread(text)).toEqual({ name, system: 'metric', diameter, pitch, series, perInch: null });
  });

  it.each([
    ['1/2-13 UNC', '1/2-13 UNC', 12.7, 13, 'coarse'],
    ['1/2"-13', '1/2-13 UNC', 12.7, 13, 'coarse'],
    ['1/2 UNC', '1/2-13 UNC', 12.7, 13, 'coarse'],
    ['1/2 in - 13 UNC-2A', '1/2-13 UNC', 12.7, 13, 'coarse'],
    ['0.5-13', '1/2-13 UNC', 12.7, 13, 'coarse'],
    ['3/8-24', '3/8-24 UNF', 9.525, 24, 'fine'],
    ['3/8 x 24 tpi', '3/8-24 UNF', 9.525, 24, 'fine'],
    ['#10-32', '#10-32 UNF', 4.826, 32, 'fine'],
    ['No. 10-24', '#10-24 UNC', 4.826, 24, 'coarse'],
    ['1 1/8-7', '1 1/8-7 UNC', 28.575, 7, 'coarse'],
    ['1-14 UNS', '1-14', 25.4, 14, 'fine'],
  ])('%s is %s', (text, name, diameter, perInch, series) => {
    const found = thread(text);
    expect(found).toMatchObject({ name, system: 'unified', perInch, series });
    expect(found.diameter).toBeCloseTo(diameter, 9);
    expect(found.pitch).toBeCloseTo(25.4 / perInch, 9);
  });

  it.each([
    ['', 'A thread is missing here; write one such as M12x1.25 or 3/8-24.'],
    ['M12x', 'The pitch is missing in "M12x"; write it such as M12x1.25.'],
    ['M12x125', 'A pitch of 125 mm does not fit on a diameter of 12 mm; the coarse pitch of M12 is 1.75 mm.'],
    ['M11', 'M11 has no standard coarse pitch; write the pitch behind it, such as M12x1.25.'],
    ['M', '"M" is no thread; write one such as M12x1.25 or M10.'],
    ['M12x1.25 bolt', '"bolt" in "M12x1.25 bolt" is not understood; write a thread such as M12x1.25.'],
    [
      '1/2',
      'How many threads per inch does 1/2 have? Write them behind it, such as 1/2-13 (coarse) or 1/2-20 (fine).',
    ],
    ['1/2-20 UNC', '1/2 UNC has 13 threads per inch, not 20.'],
    ['12x1.25', '"12x1.25" is no thread; a metric one begins with M, such as M12.'],
    ['#11-24', 'There is no unified thread #11.'],
    ['1/2-1', '1 threads per inch do not fit on a diameter of 1/2 in.'],
    ['bolt', '"bolt" is no thread; write one such as M12x1.25, 1/2-13 UNC or 3/8-24.'],
  ])('%j is refused in a sentence', (text, message) => {
    expect(refusal(text)).toBe(message);
  });

  it('never throws, and reads again what it prints', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ maxLength: 50 }),
          fc.stringMatching(/^[M#]?[0-9./ ]{1,5}[x-][0-9.]{1,4}( UNC| UNF|-6g)?$/),
        ),
        (text) => {
          const result = parseThread(text);
          if (!result.ok) {
            expect(result.message).toMatch(/^[A-Z"#0-9].*[.?)]$/s);
            return;
          }
          const { diameter, pitch, name } = result.thread;
          expect(rootDiameter(result.thread)).toBeGreaterThan(0);
          const again = thread(name);
          expect(again.diameter).toBeCloseTo(diameter, 2);
          expect(again.pitch).toBeCloseTo(pitch, 2);
        },
      ),
    );
  });
});

describe('areas and diameters', () => {
  // Nominal stress areas of ISO 898-1, SEEN in optimas and slsbearings, both citing it; the fine ones from MEMORY of its table 6.
  it.each([
    ['M6', 20.1],
    ['M8', 36.6],
    ['M10', 58.0],
    ['M12', 84.3],
    ['M14', 115],
    ['M16', 157],
    ['M18', 192],
    ['M20', 245],
    ['M8x1', 39.2],
    ['M10x1', 64.5],
    ['M10x1.25', 61.2],
    ['M12x1.25', 92.1],
    ['M12x1.5', 88.1],
    ['M14x1.5', 125],
    ['M16x1.5', 167],
    ['M18x1.5', 216],
    ['M20x1.5', 272],
  ])('%s bears on %d mm²', (name, area) => {
    expect(Number(stressArea(thread(name)).toPrecision(3))).toBe(area);
  });

  // ASME B1.1 areas in in² as SAE J429 prints them: SEEN in the Everett WA scan of J429, the 1/2, 5/16-24, 7/16-20, 9/16-18, 5/8-18
  // and 3/4-16 rows from MEMORY.
  it.each([
    ['1/4-20', 0.0318],
    ['5/16-18', 0.0524],
    ['3/8-16', 0.0775],
    ['7/16-14', 0.1063],
    ['1/2-13', 0.1419],
    ['9/16-12', 0.182],
    ['5/8-11', 0.226],
    ['3/4-10', 0.334],
    ['1/4-28', 0.0364],
    ['5/16-24', 0.058],
    ['3/8-24', 0.0878],
    ['7/16-20', 0.1187],
    ['1/2-20', 0.1599],
    ['9/16-18', 0.203],
    ['5/8-18', 0.256],
    ['3/4-16', 0.373],
  ])('%s bears on %d in²', (name, area) => {
    expect(Math.abs(stressArea(thread(name)) / 25.4 ** 2 / area - 1)).toBeLessThan(0.003);
  });

  // Basic diameters of ISO 724 for M10 and M12x1.25, and ISO 68-1's root: MEMORY; the minor ones are RUN in tap_drills.csv.
  it.each([
    ['M10', 9.026, 8.16, 8.376],
    ['M12x1.25', 11.188, 10.466, 10.647],
    ['M20', 18.376, 16.933, 17.294],
  ])('%s has its pitch, root and minor diameter', (name, pitch, root, minor) => {
    expect(pitchDiameter(thread(name))).toBeCloseTo(pitch, 3);
    expect(rootDiameter(thread(name))).toBeCloseTo(root, 3);
    expect(minorDiameter(thread(name))).toBeCloseTo(minor, 3);
  });

  it('knows the coarse pitch of the same diameter', () => {
    expect(coarsePitch(thread('M12x1.25'))).toBe(1.75);
    expect(coarsePitch(thread('M9x1'))).toBe(null);
    expect(coarsePitch(thread('1/2-20'))).toBeCloseTo(25.4 / 13, 9);
  });
});
