/** The words of a step against its operations: counts, sizes of tools, names of parts and aids. */

import { describe, expect, it, test } from 'vitest';
import { checkFiles } from '../support/engine';

const VEHICLE = `kitproof: vehicle/1
name: Wren
parts:
  front-axle: { kind: live-axle, mass: 80 kg }
  rear-axle: { kind: live-axle, mass: 80 kg }
  front-shock: { kind: shock, sided: true, mass: 3 kg, joins: [body, front-axle], joints: { upper-bolt: { hex: 17 mm, torque: 60 N·m }, lower-bolt: { hex: 18 mm, counterhold: 19 mm, torque: 60 N·m } } }
  rear-shock: { kind: shock, sided: true, mass: 3 kg, joins: [body, rear-axle], joints: { bolt: { hex: 9/16 in, torque: 60 N·m } } }
  plate: { kind: bracket, mass: 3 kg, joins: [body], joints: { bolt: { bolts: 4, hex: 13 mm, torque: 20 N·m } } }
  rail: { kind: bracket, sided: true, mass: 3 kg, joins: [body], joints: { bolt: { bolts: 3, key: 8 mm, torque: 20 N·m } } }
  cap: { kind: bracket, mass: 1 kg, joins: [body], joints: { screw: { torque: 5 N·m } } }
`;

async function told(text: string, work: string): Promise<string[]> {
  const { findings } = await checkFiles({
    'wren.vehicle.yaml': VEHICLE,
    'g.install.yaml': `kitproof: install/1
title: G
vehicle: wren.vehicle.yaml
sections: [{ title: S, steps: [{ text: ${JSON.stringify(text)}, do: ${work} }] }]
`,
  });
  return findings
    .filter(({ rule }) => rule === 'words-against-data' || rule === 'name-against-words')
    .map(({ message }) => message);
}

describe('counts in words', () => {
  test.each([
    ['Take out all four bolts.', '[{ remove: plate.bolt }]'],
    ['Take out the two upper bolts first, then the other two bolts.', '[{ remove: plate.bolt }]'],
    ['Take out all three bolts of each rail.', '[{ remove: rail.bolt }]'],
    ['Take out all six bolts.', '[{ remove: rail.bolt }]'],
    ['Take out all seven bolts.', '[{ remove: [plate.bolt, rail.bolt], side: left }]'],
    ['Take out both screws.', '[{ remove: cap.screw }]'],
    ['Take out all five screws.', '[{ remove: [plate.bolt, cap.screw] }]'],
    ['Take out both brackets.', '[{ remove: plate.bolt }]'],
    ['Take out both lower bolts.', '[{ remove: plate.bolt }]'],
    ['Take out the M6x1.0 bolts.', '[{ remove: plate.bolt }]'],
    ['Take out the 4 plate bolts.', '[{ remove: plate.bolt }]'],
  ])('%s on %s is silent', async (text, work) => expect(await told(text, work)).toEqual([]));

  test.each([
    ['Take out both bolts.', '[{ remove: plate.bolt }]', 'The words say both bolts, and plate.bolt has 4.'],
    ['Take out the 6 bolts.', '[{ remove: plate.bolt }]', 'The words say 6 bolts, and plate.bolt has 4.'],
    [
      'Take out the six plate bolts.',
      '[{ remove: plate.bolt }]',
      'The words say six plate bolts, and plate.bolt has 4.',
    ],
    ['Take out the six bolts.', '[{ remove: plate.bolt }]', 'The words say six bolts, and plate.bolt has 4.'],
    [
      'Take out all five mounting bolts.',
      '[{ remove: rail.bolt }]',
      'The words say all five mounting bolts, and rail.bolt has 3.',
    ],
  ])('%s on %s is found', async (text, work, message) => expect(await told(text, work)).toEqual([message]));
});

describe('sizes of tools in words', () => {
  test.each([
    ['Use a 13 mm socket.', '[{ remove: plate.bolt }]'],
    ['Use an 18 mm spanner and hold with a 19 mm ring.', '[{ remove: front-shock.lower-bolt }]'],
    ['Use an 8 mm key.', '[{ remove: rail.bolt }]'],
    ['Use a 9/16 in socket.', '[{ remove: rear-shock.bolt }]'],
    ['Use a 10 mm socket.', '[{ remove: cap.screw }]'],
    ['Use a 10 mm socket.', '[{ remove: [cap.screw, plate.bolt] }]'],
    ['Keep 18 mm of gap.', '[{ remove: plate.bolt }]'],
  ])('%s on %s is silent', async (text, work) => expect(await told(text, work)).toEqual([]));

  test.each([
    [
      'Use a 15 mm socket.',
      '[{ remove: plate.bolt }]',
      'The words say 15 mm socket, and plate.bolt takes 13 mm.',
    ],
    ['Use a 6 mm key.', '[{ remove: rail.bolt }]', 'The words say 6 mm key, and rail.bolt takes 8 mm.'],
  ])('%s on %s is found', async (text, work, message) => expect(await told(text, work)).toEqual([message]));
});

describe('names in words', () => {
  test.each([
    ['Unbolt the front shock.', '[{ unbolt: front-shock }]'],
    ['Unbolt the front shock and leave the rear shock.', '[{ unbolt: front-shock }]'],
    ['Take out the lower bolt. Leave the upper bolt tight.', '[{ remove: front-shock.lower-bolt }]'],
    ['Take out the rear bolt of each rail.', '[{ remove: rail.bolt }]'],
    ['Take out the rear bolt of the front shock.', '[{ remove: front-shock.lower-bolt }]'],
    ['Unbolt the shock behind the rear seat.', '[{ unbolt: front-shock }]'],
    ['Raise the rear until both front shocks hang.', '[{ unbolt: [front-shock, rear-shock] }]'],
    ['Set pole jacks under it.', '[{ support: front-axle, with: trolley-jack }]'],
    ['Take the weight with the jack.', '[{ support: front-axle, with: trolley-jack }]'],
    ['Take the weight with two pole jacks.', '[{ support: front-axle, with: pole-jacks }]'],
  ])('%s on %s is silent', async (text, work) => expect(await told(text, work)).toEqual([]));

  test.each([
    [
      'Unbolt the rear shock.',
      '[{ unbolt: front-shock }]',
      'The words say rear shock, and this is done on front-shock.',
    ],
    [
      'Take out both upper bolts.',
      '[{ remove: front-shock.lower-bolt }]',
      'The words say upper bolts, and this is done on front-shock.lower-bolt.',
    ],
    [
      'Take the weight with two pole jacks.',
      '[{ support: front-axle, with: trolley-jack }]',
      'The words say pole jacks, and the operation trolley-jack.',
    ],
    [
      'Let it down onto the axle stands.',
      '[{ lower: front-axle, onto: frame-stands }]',
      'The words say axle stands, and the operation frame-stands.',
    ],
  ])('%s on %s is found', async (text, work, message) => expect(await told(text, work)).toEqual([message]));
});

describe('a figure in two units', () => {
  const torque = '[{ torque: plate.bolt, to: 20 N·m }]';
  test.each([
    'Tighten to 20 N·m (15 lbf·ft).',
    'Tighten to 15 ft-lb (20 Nm).',
    'Tighten to 20 Nm, which is 15 ft-lb.',
    'Tighten to 20 N·m / 15 lbf·ft.',
  ])('%s is silent', async (text) => expect(await told(text, torque)).toEqual([]));

  test.each([
    ['Tighten to 30 N·m (22 lbf·ft).', 'The words say 30 N·m, and the operation 20 N·m.'],
    ['Tighten to 22 ft-lb (30 Nm).', 'The words say 22 ft-lb, and the operation 20 N·m.'],
    ['Tighten to 20 N·m (20 lbf·ft).', 'The words say 20 N·m and 20 lbf·ft, which is 27 N·m.'],
  ])('%s is found', async (text, message) => expect(await told(text, torque)).toEqual([message]));
});

it('stands at the words that are wrong', async () => {
  const { findings, text } = await checkFiles({
    'wren.vehicle.yaml': VEHICLE,
    'g.install.yaml': `kitproof: install/1
title: G
vehicle: wren.vehicle.yaml
sections: [{ title: S, steps: [{ text: Take out both bolts., do: [{ remove: plate.bolt }] }] }]
`,
  }).then(({ findings: all }) => ({ findings: all, text: 'both bolts' }));
  const [one] = findings.filter(({ rule }) => rule === 'words-against-data');
  expect(one!.place.span.end - one!.place.span.start).toBe(text.length);
});
