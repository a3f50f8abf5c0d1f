/** Figures that stand in running words. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spokenFigures } from '../../server/src/units/spoken';

const said = (text: string) =>
  spokenFigures(text).map(({ quantity, start, end }) => [
    text.slice(start, end),
    quantity.dimension,
    quantity.low,
    quantity.high,
  ]);

describe('figures in running words', () => {
  it.each([
    ['Raise the axle 90 mm, evenly.', [['90 mm', 'length', 90, 90]]],
    ['Set both bellows to 2.5 bar.', [['2.5 bar', 'pressure', 250, 250]]],
    ['Tighten to 25-30 N·m.', [['25-30 N·m', 'torque', 25, 30]]],
    ['Tighten to 25 to 30 N.m, by hand', [['25 to 30 N.m', 'torque', 25, 30]]],
    ['Turn it 90° on', [['90°', 'angle', 90, 90]]],
    [
      'Open both holes to 9 mm, then to 13 mm',
      [
        ['9 mm', 'length', 9, 9],
        ['13 mm', 'length', 13, 13],
      ],
    ],
    ['The long wheelbase takes 145 Nm', [['145 Nm', 'torque', 145, 145]]],
    ...[
      'ft-lb',
      'ft-lbs',
      'ft/lb',
      'ft. lbs',
      'ft lb',
      'lb-ft',
      'ft.-lbs',
      'foot-pounds',
      'lbs/ft',
      'lbf·ft',
    ].map((unit): [string, unknown[]] => [
      `Tighten to 10 ${unit}. Turn the 2 in by hand.`,
      [[`10 ${unit}`, 'torque', 13.558179483314003, 13.558179483314003]],
    ]),
    ['Tighten to 10-12 in-lbs, evenly', [['10-12 in-lbs', 'torque', 1.1298482902761668, 1.3558179483314001]]],
    ['Tighten to 9 N m', [['9 N m', 'torque', 9, 9]]],
    ['Raise it 4 ft-high', [['4 ft', 'length', 1219.1999999999998, 1219.1999999999998]]],
    ['Raise it 4 inches', [['4 inches', 'length', 101.6, 101.6]]],
  ])('%s', (text, figures) => {
    expect(said(text)).toEqual(figures);
  });

  it.each([
    'Take an M10x1.5 bolt',
    'the 3 in the box',
    'all 8 screws',
    'the 2 a side',
    'step 1.2',
    'let it dry for 1 h 30 min',
    'a size-20 fuse',
    'front-coil-50 mm',
    'part no. 12-34',
    '',
  ])('none in: %s', (text) => {
    expect(said(text)).toEqual([]);
  });

  it('never throws, and gives stretches of the text in its order', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.constantFrom('1', '9', '.', ',', '-', ' ', 'mm', 'N', '·', 'm', 'to', '°', '/', 'h', 'min', 'é'),
        ),
        (parts) => {
          const text = parts.join('');
          let at = 0;
          for (const { start, end } of spokenFigures(text)) {
            expect(start).toBeGreaterThanOrEqual(at);
            expect(end).toBeGreaterThan(start);
            at = end;
          }
        },
      ),
    );
  });
});
