/** Settings by a figure of the vehicle: gaps between their ranges, and ranges over one another. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectChecked } from '../support/marked';
import { checkProject } from './support';

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
const set = (when: string, to: string) =>
  `      - { when: ${when}, do: [{ inflate: bellows, to: ${to} }] }\n`;
const below = (figure: string) => `{ lift: { below: ${figure} } }`;
const from = (figure: string) => `{ lift: { at-least: ${figure} } }`;

describe('ranges that fit one to the other', () => {
  it.each([
    ['two', set(below('75 mm'), '1 bar') + set(from('75 mm'), '2 bar')],
    ['two in inches and mm', set(below('3 in'), '1 bar') + set(from('76.2 mm'), '2 bar')],
    [
      'three, the middle one last',
      set(below('50 mm'), '1 bar') +
        set(from('100 mm'), '3 bar') +
        set('{ lift: { at-least: 50 mm, below: 100 mm } }', '2 bar'),
    ],
    [
      'with the figure itself apart',
      set(below('75 mm'), '1 bar') +
        set('{ lift: 75 mm }', '1.5 bar') +
        set('{ lift: { above: 75 mm } }', '2 bar'),
    ],
    [
      'as conditions that are not',
      set(below('75 mm'), '1 bar') + set('{ not: { lift: { below: 75 mm } } }', '2 bar'),
    ],
    [
      'within each of another trait',
      set('{ doors: barn, lift: { below: 75 mm } }', '1 bar') +
        set('{ doors: gate, lift: { below: 90 mm } }', '2 bar') +
        set('{ doors: barn, lift: { at-least: 75 mm } }', '3 bar') +
        set('{ doors: gate, lift: { at-least: 90 mm } }', '4 bar'),
    ],
    [
      'that need nothing below',
      set('{ lift: { at-least: 50 mm, below: 100 mm } }', '1 bar') + set(from('100 mm'), '2 bar'),
    ],
    [
      'one of them a special case of the one before',
      set(from('20 mm'), '1 bar') + set(from('75 mm'), '2 bar'),
    ],
    [
      'of two settings, one after the other',
      set(below('75 mm'), '1 bar') +
        set(from('75 mm'), '2 bar') +
        set(below('75 mm'), '1.5 bar') +
        set(from('75 mm'), '3 bar'),
    ],
    [
      'of two settings with work in between',
      `${set(below('75 mm'), '1 bar')}      - do: [{ deflate: bellows }]\n${set(from('90 mm'), '2 bar')}      - { when: { lift: { below: 90 mm } }, do: [{ inflate: bellows, to: 1 bar }] }\n`,
    ],
    [
      'of things that are not one',
      `${set(below('75 mm'), '1 bar')}      - { when: { lift: { at-least: 90 mm } }, do: [{ check: bellows-gap, expect: { at-least: 15 mm } }] }\n`,
    ],
    [
      'where nothing is set',
      `      - { when: { lift: { below: 75 mm } }, do: [{ check: bellows }] }
      - { when: { lift: { at-least: 90 mm } }, do: [{ check: bellows }] }
`,
    ],
    [
      'of the widths that there are',
      `      - { when: { tyre: { below: 230 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      - { when: { tyre: { at-least: 235 mm } }, do: [{ inflate: bellows, to: 2 bar }] }
`,
    ],
  ])('are silent: %s', async (_what, steps) => {
    await expectChecked(guide(steps));
  });
});

describe('a gap', () => {
  it('lies between two ranges', async () => {
    const { findings } = await expectChecked(
      guide(`      - { when: { lift: { below: 75 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      - { when: { lift: { at-least: 80 mm } }, do: [{ inflate: bellows, to: 2 bar }] }
      #                 ^^^^^^^^^^^^^^^^^^^ info[choice-gap]: This range and that of step 1.1 leave a gap, in which nothing is said of bellows.
`),
    );
    expect(findings[0]!.variants).toEqual([{ lift: ['75 mm to under 80 mm'] }]);
    expect(findings[0]!.related).toMatchObject([{ message: 'that of step 1.1' }]);
  });

  it('may lie above ranges that begin with the least', async () => {
    const { findings } = await expectChecked(
      guide(`      - { when: { lift: { below: 50 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      - { when: { lift: { at-least: 50 mm, below: 100 mm } }, do: [{ inflate: bellows, to: 2 bar }] }
      #                 ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ info[choice-gap]: Above this range and that of step 1.1 nothing is said of bellows.
`),
    );
    expect(findings[0]!.variants).toEqual([{ lift: ['100 mm to 150 mm'] }]);
  });

  it('is none where another section fills it', async () => {
    await expectChecked(
      guide(`      - { when: { lift: { below: 50 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      - { when: { lift: { at-least: 100 mm } }, do: [{ inflate: bellows, to: 3 bar }] }
  - title: Later
    steps:
      - { when: { lift: { at-least: 50 mm, below: 100 mm } }, do: [{ inflate: bellows, to: 2 bar }] }
`),
    );
  });

  it('may be a single figure', async () => {
    const { findings } = await expectChecked(
      guide(`      - { when: { lift: { above: 75 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      - { when: { lift: { below: 75 mm } }, do: [{ inflate: bellows, to: 2 bar }] }
      #                 ^^^^^^^^^^^^^^^^ info[choice-gap]
`),
    );
    expect(findings[0]!.variants).toEqual([{ lift: ['75 mm'] }]);
  });

  it('of one trait within another, and within a step', async () => {
    const { findings } = await expectChecked(
      guide(`      - when: { doors: barn }
        do:
          - { measure: toe, expect: { at-most: 2 mm }, when: { lift: { at-most: 40 mm } } }
          - { measure: toe, expect: { at-most: 3 mm }, when: { lift: { above: 50 mm } } }
          #                                                          ^^^^^^^^^^^^^^^^ info[choice-gap]: This range and the one before it leave a gap
      - { when: { doors: gate }, do: [{ measure: toe, expect: { at-most: 3 mm } }] }
`),
    );
    expect(findings[0]!.variants).toEqual([{ lift: ['over 40 mm to 50 mm'], doors: ['barn'] }]);
  });

  it('is one of the values there are', async () => {
    await expectChecked(
      guide(`      - { when: { tyre: { below: 235 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      - { when: { tyre: { above: 235 mm } }, do: [{ inflate: bellows, to: 2 bar }] }
      #                 ^^^^^^^^^^^^^^^^^ info[choice-gap]
`),
    );
  });

  it('outside of what the guide covers is none', async () => {
    await expectChecked(
      guide(
        `      - { when: { lift: { below: 75 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      - { when: { lift: { at-least: 80 mm } }, do: [{ inflate: bellows, to: 2 bar }] }
`,
        'vehicle: wren.vehicle.yaml\ncovers: { lift: [50 mm, 100 mm] }\n',
      ),
    );
  });

  it('without a vehicle file is one too', async () => {
    await expectChecked(
      guide(
        `      - { when: { lift: { below: 75 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      - { when: { lift: { at-least: 80 mm } }, do: [{ inflate: bellows, to: 2 bar }] }
      #                 ^^^^^^^^^^^^^^^^^^^ info[choice-gap]
`,
        '',
      ),
    );
  });
});

describe('an overlap', () => {
  it('of two ranges is told at the later', async () => {
    const { findings } = await expectChecked(
      guide(`      - { when: { lift: { below: 80 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      - { when: { lift: { at-least: 75 mm } }, do: [{ inflate: bellows, to: 2 bar }] }
      #                 ^^^^^^^^^^^^^^^^^^^ warning[choice-overlap]: This range and that of step 1.1 lie over one another: bellows gets both there.
`),
    );
    expect(findings[0]!.variants).toEqual([{ lift: ['75 mm to under 80 mm'] }]);
  });

  it('may be a single figure', async () => {
    await expectChecked(
      guide(`      - { when: { lift: { at-most: 75 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      - { when: { lift: { at-least: 75 mm } }, do: [{ inflate: bellows, to: 2 bar }] }
      #                 ^^^^^^^^^^^^^^^^^^^ warning[choice-overlap]
`),
    );
  });

  it('is a wider range that comes last and undoes the one before', async () => {
    await expectChecked(
      guide(`      - { when: { lift: { at-least: 75 mm } }, do: [{ inflate: bellows, to: 2 bar }] }
      - { when: { lift: { at-least: 20 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      #                 ^^^^^^^^^^^^^^^^^^^ warning[choice-overlap]
`),
    );
  });

  it('is none where a setting for all comes right after one for some: that one never counts', async () => {
    await expectChecked(
      guide(`      - { when: { doors: barn }, do: [{ inflate: bellows, to: 1 bar }] }
      #                                 ^^^^^^^^^^^^^^^^ warning[setting-replaced]: This setting never counts: that of step 1.2 always takes its place, so bellows is never left as this one sets it.
      - { do: [{ inflate: bellows, to: 2 bar }] }
`),
    );
  });

  it('is none where something is done to the thing between, or the first is for all', async () => {
    await expectChecked(
      guide(`      - { when: { doors: barn }, do: [{ inflate: bellows, to: 1 bar }] }
      - { do: [{ check: bellows }] }
      - { do: [{ inflate: bellows, to: 2 bar }] }
      - { when: { doors: barn }, do: [{ inflate: bellows, to: 3 bar }] }
`),
    );
  });

  it('is none where a torque is reached in stages', async () => {
    await expectChecked(
      guide(`      - { when: { lift: { at-least: 75 mm } }, do: [{ torque: bellows.bolt, to: 92 N·m }] }
      - { when: { lift: { at-least: 20 mm } }, do: [{ torque: bellows.bolt, to: 120 N·m }] }
`),
    );
  });

  it('may be waived', async () => {
    const { coverage } = await expectChecked(
      guide(`      - { when: { lift: { below: 80 mm } }, do: [{ inflate: bellows, to: 1 bar }] }
      - when: { lift: { at-least: 75 mm } }
        waive: { rule: choice-overlap, because: The second is a trial., by: A. Fitter, until: 2026-12-31 }
        do: [{ inflate: bellows, to: 2 bar }]
`),
    );
    expect(coverage.waived).toBe(1);
  });
});

describe('random ranges', () => {
  type Range = {
    readonly low: number | null;
    readonly over: boolean;
    readonly high: number | null;
    readonly under: boolean;
  };
  /** Every figure that a condition names and those between them, in mm. */
  const samples = Array.from({ length: 31 }, (_, at) => at * 5);
  const holds = ({ low, over, high, under }: Range) =>
    samples.filter(
      (figure) =>
        (low === null || (over ? figure > low : figure >= low)) &&
        (high === null || (under ? figure < high : figure <= high)),
    );
  const written = ({ low, over, high, under }: Range) =>
    [
      ...(low === null ? [] : [`${over ? 'above' : 'at-least'}: ${low} mm`]),
      ...(high === null ? [] : [`${under ? 'below' : 'at-most'}: ${high} mm`]),
    ].join(', ');
  const figure = fc.option(fc.integer({ min: 1, max: 14 }).map((ten) => ten * 10));
  const range = fc
    .record({ low: figure, over: fc.boolean(), high: figure, under: fc.boolean() })
    .filter((one) => (one.low !== null || one.high !== null) && holds(one).length > 0);
  const key = (one: Range) => holds(one).join();

  it('leave the gaps and overlaps that a count of every figure finds', () => {
    fc.assert(
      fc.property(fc.uniqueArray(range, { minLength: 2, maxLength: 4, selector: key }), (ranges) => {
        const sets = ranges.map(holds);
        const covered = samples.filter((one) => sets.some((set) => set.includes(one)));
        const [least, most] = [Math.min(...covered), Math.max(...covered)];
        const expected = {
          gap:
            samples.some((one) => one > least && one < most && !covered.includes(one)) ||
            (least === samples[0] &&
              most < samples.at(-1)! &&
              !sets.some((set) => set.includes(least) && set.includes(most))),
          overlaps: sets.flatMap((later, at) =>
            sets.slice(0, at).filter((earlier) => {
              const both = later.filter((one) => earlier.includes(one)).length;
              return both > 0 && both < later.length;
            }),
          ).length,
        };
        const steps = ranges.map(
          (one, at) =>
            `      - { when: { lift: { ${written(one)} } }, do: [{ set: ride-height, to: ${at + 1} mm }] }`,
        );
        const files = [
          {
            name: 'v.vehicle.yaml',
            text: 'kitproof: vehicle/1\nname: V\ntraits: { lift: { from: 0 mm, to: 150 mm } }\n',
          },
          {
            name: 'g.install.yaml',
            text: `kitproof: install/1\ntitle: G\nvehicle: v.vehicle.yaml\nsections:\n  - title: S\n    steps:\n${steps.join('\n')}\n`,
          },
        ];
        const rules = checkProject(files).map(({ rule }) => rule);
        expect({
          gap: rules.includes('choice-gap'),
          overlaps: rules.filter((rule) => rule === 'choice-overlap').length,
        }).toEqual(expected);
      }),
      { numRuns: 300 },
    );
  });
});
