/** Figures of a torque by variant: those that are never used, and vehicles that none is for. */

import { describe, expect, it } from 'vitest';
import { expectChecked } from '../support/marked';

const VEHICLE = `
# file: wren.vehicle.yaml
kitproof: vehicle/1
name: Wren
traits: { lift: { from: 0 mm, to: 150 mm, unit: mm }, seats: ["3", "6"], tyre: [215 mm, 235 mm, 255 mm], doors: [barn, gate] }
parts:
  bellows: { kind: air-spring, sided: true, mass: 2 kg, pressure: 0.7-7 bar, joints: { bolt: { torque: 90-140 N·m } } }
  arm: { kind: bracket, sided: true, mass: 2 kg, joints: { bolt: {} } }
`;
const guide = (steps: string, head = 'vehicle: wren.vehicle.yaml\n') => `${VEHICLE}
# file: g.install.yaml
kitproof: install/1
title: G
${head}sections:
  - title: S
    steps:
${steps}`;

describe('figures by variant', () => {
  const torque = (to: string, joint = 'bellows.bolt') => `      - do: [{ torque: ${joint}, to: ${to} }]\n`;

  it.each([
    ['with one for the rest', torque('[{ when: { doors: barn }, is: 110 N·m }, { is: 95 N·m }]')],
    ['that are an exception to the data', torque('[{ when: { doors: barn }, is: 110 N·m }]')],
    [
      'of two traits',
      torque('[{ when: { doors: barn }, is: 110 N·m }, { when: { seats: "3" }, is: 95 N·m }]'),
    ],
    [
      'that are for all, and one for whatever else there may be',
      torque(
        '[{ when: { doors: barn }, is: 110 N·m }, { when: { doors: gate }, is: 95 N·m }, { is: 92 N·m }]',
      ),
    ],
    [
      'of ranges',
      torque(
        '[{ when: { lift: { below: 75 mm } }, is: 110 N·m }, { when: { lift: { at-least: 75 mm } }, is: 95 N·m }]',
      ),
    ],
    [
      'of ranges of which the first counts',
      torque(
        '[{ when: { lift: { below: 75 mm } }, is: 110 N·m }, { when: { lift: { below: 100 mm } }, is: 95 N·m }, { is: 92 N·m }]',
      ),
    ],
  ])('are silent %s', async (_what, steps) => {
    await expectChecked(guide(steps));
  });

  it('leave nobody out', async () => {
    const { findings } = await expectChecked(
      guide(`      - do: [{ torque: bellows.bolt, to: [{ when: { lift: { below: 75 mm } }, is: 110 N·m }, { when: { lift: { at-least: 80 mm } }, is: 95 N·m }] }]
      #                              ^^ warning[figure-gap]: Some vehicles get none of these figures, and so that of the data.
      - do: [{ torque: bellows.bolt, to: [{ when: { tyre: 215 mm }, is: 110 N·m }, { when: { tyre: 235 mm }, is: 95 N·m }] }]
      #                              ^^ warning[figure-gap]
`),
    );
    expect(findings.map(({ variants }) => variants)).toEqual([
      [{ lift: ['75 mm to under 80 mm'] }],
      [{ tyre: ['255 mm'] }],
    ]);
  });

  it('leave nobody out whose joint has no data: once', async () => {
    await expectChecked(
      guide(`      - do: [{ torque: arm.bolt, to: [{ when: { lift: { below: 75 mm } }, is: 110 N·m }, { when: { lift: { at-least: 80 mm } }, is: 95 N·m }] }]
      #        ^^^^^^^^^^^^^^^^ warning[torque-without-figure]
`),
    );
  });

  it('are all used', async () => {
    await expectChecked(
      guide(
        `      - do: [{ torque: bellows.bolt, to: [{ is: 110 N·m }, { when: { doors: gate }, is: 95 N·m }] }]
      #                                                            ^^^^^^^^^^^^^^^ warning[figure-never-used]: The figures before this one are for all of these vehicles.
      - do: [{ torque: bellows.bolt, to: [{ when: { doors: [barn, gate] }, is: 110 N·m }, { when: { doors: gate }, is: 95 N·m }] }]
      #                                                                                           ^^^^^^^^^^^^^^^ warning[figure-never-used]
      #                                           ^^^^^^^^^^^^^^^^^^^^^^^ info[always-so]
      - do: [{ torque: bellows.bolt, to: [{ when: { seats: "6" }, is: 110 N·m }, { is: 95 N·m }] }]
      #                                             ^^^^^^^^^^ warning[never-done]: The guide covers no such vehicle, so this figure is never used.
`,
        'vehicle: wren.vehicle.yaml\ncovers: { seats: "3" }\n',
      ),
    );
  });

  it('without a vehicle file are not asked of what nobody knows', async () => {
    await expectChecked(
      guide(
        `      - do: [{ torque: thing.bolt, to: [{ when: { doors: barn }, is: 110 N·m }, { when: { doors: gate }, is: 95 N·m }] }]
      #        ^^^^^^^^^^^^^^^^^^ warning[torque-without-figure]
`,
        '',
      ),
    );
  });
});
