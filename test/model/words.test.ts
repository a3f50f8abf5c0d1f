/** The words of a step, held against its operations: figures and sides. */

import { describe, it } from 'vitest';
import { checkFiles } from '../support/engine';
import { expectFindings, parseFixture } from '../support/fixture';

const VEHICLE = `
# file: wren.vehicle.yaml
kitproof: vehicle/1
name: Wren
traits: { lift: [40 mm, 50 mm], load: { from: 0 kg, to: 900 kg, unit: kg } }
parts:
  rear-axle: { kind: live-axle, mass: 80 kg }
  rear-bellows: { kind: air-spring, sided: true, mass: 2 kg, pressure: 0.7-7 bar, joints: { bolt: { torque: 20 N·m } } }
  cross-bar: { kind: bracket, mass: 4 kg, holes: { bolt-hole: { size: 13 mm } }, joints: { bolt: { bolts: 2, torque: 60 N·m } } }
`;
const guide = (steps: string) => `${VEHICLE}
# file: g.install.yaml
kitproof: install/1
title: G
vehicle: wren.vehicle.yaml
sections:
  - title: S
    steps:
${steps}`;

/** Only what is told of words: the small guides here are otherwise no whole jobs. */
async function expectWords(steps: string): Promise<void> {
  const fixture = guide(steps);
  const files = parseFixture(fixture).files.map(({ name, text }) => [name, text] as const);
  const { findings } = await checkFiles(Object.fromEntries(files));
  const told = findings
    .filter(({ rule }) => rule === 'words-against-data' || rule === 'side-against-words')
    .map((one) => ({
      ...one,
      place: { ...one.place, uri: one.place.uri.slice(one.place.uri.indexOf('/', 1) + 1) },
    }));
  expectFindings(fixture, () => told);
}

describe('figures in the words of a step', () => {
  it.each([
    ['the same', 'Set both to 2.5 bar.', 'inflate: rear-bellows, to: 2.5 bar'],
    ['in another unit, rounded', 'Set both to 36 psi.', 'inflate: rear-bellows, to: 2.5 bar'],
    ['none', 'Fill both.', 'inflate: rear-bellows, to: 2.5 bar'],
    ['the figure of the data', 'Tighten to 60 N·m.', 'torque: cross-bar.bolt'],
    ['foot-pounds, as the trade writes them', 'Tighten to 44 ft-lbs.', 'torque: cross-bar.bolt'],
    ['foot-pounds with a stop', 'Tighten to 44 ft. lbs, evenly.', 'torque: cross-bar.bolt'],
    ['one end of a range', 'Fill to 1 bar at least.', 'inflate: rear-bellows, to: 1-2 bar'],
    ['a distance to keep beside it', 'Let it down, 100 mm from the floor.', 'lower: rear-axle, by: 80 mm'],
    ['the size of a tool', 'Open the hole with a 10 mm key.', 'drill: cross-bar.bolt-hole, to: 13 mm'],
    ['a figure that no operation has', 'Cut 30 mm off the sleeve.', 'check: sleeve'],
    [
      'a length of something else, in another sentence',
      'Let the axle down until the bellows are free. The gap must be 10 mm.',
      'lower: rear-axle, by: 120 mm',
    ],
    [
      'what no longer counts',
      'The old figure of 120 N·m no longer counts.',
      'torque: cross-bar.bolt, to: 60 N·m',
    ],
    ['what the tool does', 'The compressor stops at 8 bar. Fill both.', 'inflate: rear-bellows, to: 2.4 bar'],
    ['a case', 'If a nut spins before 10 N·m is reached, stop.', 'torque: cross-bar.bolt, to: 60 N·m'],
    [
      'the figure itself beside a bound',
      'The beam may go down no more than 80 mm; take the two long ones of 95 mm.',
      'lower: rear-axle, by: 80 mm',
    ],
    [
      'a guess beside a gap',
      'Let it down until the gap is 12 mm, about 60 mm.',
      'lower: rear-axle, by: 60 mm',
    ],
    [
      'more figures than are wanted',
      'Go in with a 3 mm drill, then 8 mm, then open it.',
      'drill: cross-bar.bolt-hole, to: 13 mm',
    ],
    [
      'where a hole is',
      'Mark it 25 mm in from the edge and drill it.',
      'drill: cross-bar.bolt-hole, to: 13 mm',
    ],
    [
      'a gauge',
      'Measure the play with a dial gauge of 10 mm travel.',
      'measure: play, expect: { below: 0.1 mm }',
    ],
    ['volts', 'The battery shows 12.6 V.', 'measure: battery-voltage, expect: { at-least: 12.4 V }'],
    ['a thread', 'Take the M10x1.5 bolt.', 'torque: cross-bar.bolt, to: 60 N·m'],
  ])('silent: %s', async (_, text, operation) => {
    await expectWords(`      - { text: "${text}", do: [{ ${operation} }] }\n`);
  });

  it('foot-pounds that are not those of the data', async () => {
    await expectWords(`
      - text: Tighten to 54 ft-lbs.
      #                  ^^^^^^^^^ warning[words-against-data]: The words say 54 ft-lbs, and the data 60 N·m.
        do: [{ torque: cross-bar.bolt }]
`);
  });

  it('two operations, each with its own', async () => {
    await expectWords(`
      - text: Drill the hole 5 mm, then open it to 13 mm.
        do: [{ drill: cross-bar.bolt-hole, to: 5 mm }, { drill: cross-bar.bolt-hole, to: 13 mm }]
`);
  });

  it('another pressure', async () => {
    await expectWords(`
      - text: Set both bellows to 2.5 bar.
        #                         ^^^^^^^ warning[words-against-data]: The words say 2.5 bar, and the operation 1.3 bar.
        do: [{ inflate: rear-bellows, to: 1.3 bar }]
`);
  });

  it('the second of two sizes', async () => {
    await expectWords(`
      - text: Drill the hole 5 mm, then open it to 13 mm.
        #                                          ^^^^^ info[words-against-data]: The words say 13 mm, and the operation 12 mm.
        do: [{ drill: cross-bar.bolt-hole, to: 5 mm }, { drill: cross-bar.bolt-hole, to: 12 mm }]
`);
  });

  it('another torque than the data', async () => {
    await expectWords(`
      - text: Tighten the bolts to 80 N·m.
        #                          ^^^^^^ warning[words-against-data]: The words say 80 N·m, and the data 60 N·m.
        do: [{ torque: cross-bar.bolt }]
`);
  });

  it('a figure within the condition is none of another', async () => {
    await expectWords(`
      - text: For payloads of 500 kg and more look at the bar.
        when: { load: { at-least: 300 kg } }
        do: [{ check: cross-bar }]
`);
  });

  it('another amount', async () => {
    await expectWords(`
      - text: Fill 4.2 l.
        #          ^^^^^ info[words-against-data]: The words say 4.2 l, and the operation 2.4 l.
        do: [{ fill: gearbox-oil, amount: 2.4 l }]
`);
  });

  it('another condition', async () => {
    await expectWords(`
      - text: For 40 mm of lift, use the lower hole.
        #         ^^^^^ info[words-against-data]: The words say 40 mm, and the condition 50 mm.
        when: { lift: 50 mm }
        do: [{ check: cross-bar }]
      - text: The van carries 300 kg or more.
        #                     ^^^^^^ info[words-against-data]: The words say 300 kg, and the condition 600 kg.
        when: { load: { at-least: 600 kg } }
        do: [{ check: cross-bar }]
`);
  });
});

describe('sides in the words of a step', () => {
  it.each([
    ['both, done on both', 'Set both bellows.', '{ inflate: rear-bellows, to: 1 bar }'],
    [
      'both, one by one',
      'Set both bellows.',
      '{ inflate: rear-bellows, to: 1 bar, side: left }, { inflate: rear-bellows, to: 1 bar, side: right }',
    ],
    ['one', 'Set the right bellows.', '{ inflate: rear-bellows, to: 1 bar, side: right }'],
    [
      'a word of no side',
      'Push it all the way in, right up to the stop.',
      '{ check: rear-bellows, side: left }',
    ],
    [
      'a turn to the left',
      'Turn it to the left, anticlockwise.',
      '{ adjust: rear-bellows, to: 1 mm, side: right }',
    ],
    ['the right way round', 'Put it on the right way round.', '{ check: rear-bellows, side: left }'],
    [
      'where something else is',
      'The battery stands on the left; from there look across.',
      '{ check: rear-bellows, side: right }',
    ],
    ['a helper on both sides', 'Each side stands as noted.', '{ check: rear-bellows, side: right }'],
    ['both bolts of one side', 'On the right take both bolts.', '{ check: rear-bellows, side: right }'],
  ])('silent: %s', async (_, text, operations) => {
    await expectWords(`      - { text: "${text}", do: [${operations}] }\n`);
  });

  it('both, done on one', async () => {
    await expectWords(`
      - text: Set both bellows.
        do: [{ inflate: rear-bellows, to: 1 bar, side: right }]
        #      ^^^^^^^^^^^^^^^^^^^^^ info[side-against-words]: The words say both sides, and this is done on the right alone.
`);
  });

  it('both, done twice on one', async () => {
    await expectWords(`
      - text: Look at the bellows on both sides.
        do:
          - { check: rear-bellows, side: left }
          #   ^^^^^^^^^^^^^^^^^^^ info[side-against-words]
          - { check: rear-bellows, side: left }
          #   ^^^^^^^^^^^^^^^^^^^ info[side-against-words]
`);
  });

  it('the other one', async () => {
    await expectWords(`
      - text: Look at the left bellows.
        do: [{ check: rear-bellows, side: right }]
        #      ^^^^^^^^^^^^^^^^^^^ info[side-against-words]: The words say the left one, and this is done on the right alone.
`);
  });

  it('the other one, named by its reference or by its kind', async () => {
    await expectWords(`
      - text: Look at the left {part:rear-bellows}.
        do: [{ check: rear-bellows, side: right }]
        #      ^^^^^^^^^^^^^^^^^^^ info[side-against-words]
      - text: Look at the left air spring.
        do: [{ check: rear-bellows, side: right }]
        #      ^^^^^^^^^^^^^^^^^^^ info[side-against-words]
`);
  });
});
