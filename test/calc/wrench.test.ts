import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leverage, settable, settingFor, torqueAtBolt } from '../../server/src/calc/wrench';

describe('a torque wrench with an extension', () => {
  // Lever arms by hand: 90 N·m over 400 mm of 460 mm; at right angles nothing changes; folded back 340 mm of 400 mm are left.
  it.each([
    [90, 400, 60, 0, 78.261],
    [90, 400, 60, 90, 90],
    [90, 400, 60, 180, 105.882],
    [90, 400, 60, 60, 83.721],
    [90, 400, 0, 0, 90],
  ])('for %d N·m with %d mm, %d mm at %d° is set to %d', (torque, length, extension, angle, setting) => {
    expect(settingFor(torque, { length, extension, angle })).toBeCloseTo(setting, 3);
  });

  it('gives the bolt what was asked for, by the force at the hand', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 800, noNaN: true }),
        fc.double({ min: 150, max: 1200, noNaN: true }),
        fc.double({ min: 0, max: 140, noNaN: true }),
        fc.double({ min: 0, max: 180, noNaN: true }),
        (torque, length, extension, angle) => {
          const how = { length, extension, angle };
          const setting = settingFor(torque, how)!;
          expect(torqueAtBolt(setting, how)).toBeCloseTo(torque, 6);
          // The hand's force about the bolt, worked out from places: square at the origin, hand to the left, force straight up.
          const force = setting / length;
          const bolt = [
            extension * Math.cos((angle * Math.PI) / 180),
            extension * Math.sin((angle * Math.PI) / 180),
          ];
          const moment = (bolt[0]! - -length) * force;
          expect(moment).toBeCloseTo(torque, 6);
        },
      ),
    );
  });

  it('has no setting where the bolt is behind the hand', () => {
    expect(settingFor(90, { length: 100, extension: 120, angle: 180 })).toBe(null);
    expect(settingFor(90, { length: 0, extension: 60, angle: 0 })).toBe(null);
    expect(leverage({ length: 400, extension: 60, angle: 0 })).toBeCloseTo(1.15, 9);
  });

  it.each([
    [78.261, 1, 78],
    [78.261, 0.5, 78.5],
    [78.261, 2, 78],
    [78.261, 5, 80],
    [7.26, 0.1, 7.3],
  ])('%d can be set in steps of %d to %d', (figure, step, set) => {
    expect(settable(figure, step)).toBe(set);
  });
});
