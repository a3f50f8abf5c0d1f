import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hoseLengths, hoseToSpare, trackBarShift } from '../../server/src/calc/travel';

describe('a track bar under a lift', () => {
  // Triangles with whole sides: 5-12-13 and 3-4-5, in units of 50 and 130 mm; worked by hand.
  it('pulls the axle towards its end at the frame by the difference of the two bases', () => {
    const found = trackBarShift({ length: 650, rise: 250 }, 140)!;
    expect(found.shift).toBeCloseTo(600 - 520, 9);
    expect(found.length).toBeCloseTo(Math.hypot(600, 390), 9);
    expect(found.bracket).toBe(140);
    expect(found.angleBefore).toBeCloseTo(22.62, 2);
    expect(found.angleAfter).toBeCloseTo(36.87, 2);
  });

  it('shifts the other way where the body comes down to a level bar, and never where nothing moves', () => {
    expect(trackBarShift({ length: 650, rise: 250 }, -250)!.shift).toBeCloseTo(600 - 650, 9);
    expect(trackBarShift({ length: 900, rise: 100 }, 0)!.shift).toBe(0);
    expect(trackBarShift({ length: 500, rise: 200 }, 400)).toBe(null);
    expect(trackBarShift({ length: 0, rise: 0 }, 10)).toBe(null);
  });

  it('puts the axle back in the middle with the length it gives', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 500, max: 1100, noNaN: true }),
        fc.double({ min: -150, max: 250, noNaN: true }),
        fc.double({ min: -80, max: 200, noNaN: true }),
        (length, rise, lift) => {
          const found = trackBarShift({ length, rise }, lift)!;
          const across = Math.sqrt(length ** 2 - rise ** 2);
          expect(Math.sqrt(found.length ** 2 - (rise + lift) ** 2)).toBeCloseTo(across, 6);
          // For little lift on a bar at an angle: shift = lift × tan of the angle.
          const little = trackBarShift({ length, rise }, 0.01)!;
          expect(little.shift / 0.01).toBeCloseTo(Math.tan((little.angleBefore * Math.PI) / 180), 3);
        },
      ),
    );
  });
});

describe('a hose over the travel', () => {
  it('has to bridge the long side of a right-angled triangle', () => {
    const lengths = hoseLengths({ across: 150, drop: 80, droop: 120, bump: 80 });
    expect(lengths).toEqual({ ride: 170, atDroop: 250, atBump: 150, needed: 250 });
    expect(hoseToSpare(300, lengths)).toBe(50);
    expect(hoseToSpare(240, lengths)).toBe(-10);
  });

  it('is longest at bump where the moving end is above', () => {
    const lengths = hoseLengths({ across: 150, drop: -80, droop: 80, bump: 120 });
    expect(lengths).toEqual({ ride: 170, atDroop: 150, atBump: 250, needed: 250 });
  });
});
