/** Wheels of another size and the speedometer: by the engine, and the same by the oracle. */

import { expect, it } from 'vitest';
import { standardPacks } from '../oracle/example';
import { compare } from '../support/agree';
import { checkFiles } from '../support/engine';

interface Job {
  readonly was?: string;
  readonly is?: string;
  readonly more?: string;
  readonly kit?: string;
  readonly owes?: string;
}

const line = (key: string, text: string | undefined) => (text === undefined ? '' : `, ${key}: ${text}`);

/** What is told of the speedometer where front and rear wheels are changed; `more` are operations at the end. */
async function told({ was, is, more = '', kit = '', owes = '' }: Job): Promise<string[]> {
  const files = {
    'v.vehicle.yaml': `kitproof: vehicle/1\nname: Moorhen\ntraits: { trim: [plain, sport] }
parts:
  front-axle: { kind: live-axle }
  rear-axle: { kind: live-axle }
  front-wheel: { kind: wheel, mass: 20 kg, joins: [front-axle]${line('tyre', was)}, joints: { nut: { torque: 130 N·m } } }
  rear-wheel: { kind: wheel, mass: 20 kg, joins: [rear-axle]${line('tyre', was)}, joints: { nut: { torque: 130 N·m } } }
`,
    'k.kit.yaml': `kitproof: kit/1\nname: Wheels
parts:
  front-trail: { replaces: front-wheel${line('tyre', is)} }
  rear-trail: { replaces: rear-wheel${line('tyre', is)} }
${kit}`,
    'g.install.yaml': `kitproof: install/1\ntitle: Wheels\nvehicle: v.vehicle.yaml\nkit: k.kit.yaml\n${owes}sections:
  - title: Work
    steps:
      - do:
          - { raise: vehicle, with: two-post-lift }
          - { unbolt: [front-wheel, rear-wheel] }
          - { discard: [front-wheel, rear-wheel] }
          - { bolt-up: [front-trail, rear-trail] }
          - { snug: [front-trail, rear-trail] }
          - { lower: vehicle }
          - { torque: [front-trail, rear-trail] }
${more === '' ? '' : `          - ${more}\n`}`,
  };
  const { disagreements } = await compare(files, 'g.install.yaml', standardPacks());
  expect(disagreements).toEqual([]);
  const { findings } = await checkFiles(files);
  return findings.map(({ rule, item, severity, operation, message }) =>
    rule === 'speedometer-not-told' ? `${severity} ${item} ${operation}: ${message}` : rule,
  );
}

it('a larger tyre is told once, with what the vehicle does at 100 shown', async () => {
  expect(await told({ was: '225/65R17', is: '265/65R17' })).toEqual([
    'info front-trail 1.1.4: With 265/65R17 in place of 225/65R17 the speedometer reads too low: at 100 km/h shown the vehicle does 107 km/h, and nothing is said of it.',
  ]);
});

it('a smaller one reads too high', async () => {
  const [message] = await told({ was: '35x12.50R17', is: '265/65R17 112S' });
  expect(message).toContain('too high: at 100 km/h shown the vehicle does 87 km/h');
});

it.each([
  ['the same', { was: '225/65R17', is: '225/65R17 102H' }],
  ['within a per cent', { was: '225/65R17', is: '245/60R17' }],
  ['no size of the old', { is: '265/65R17' }],
  ['no size of the new', { was: '225/65R17' }],
])('nothing is told: %s', async (_, job: Job) => expect(await told(job)).toEqual([]));

const LARGER: Job = { was: '225/65R17', is: '265/65R17' };

it.each([
  '{ check: speedometer }',
  '{ measure: speedometer, expect: 100 km/h }',
  '{ adjust: speedometer }',
  '{ set: speedometer, to: recorded }',
  '{ set: tyre-size }',
  '{ check: speedo.reading }',
])('%s says what becomes of it', async (more) => {
  expect((await told({ ...LARGER, more })).filter((one) => one.startsWith('info front-trail'))).toEqual([]);
});

it.each(['{ check: speed }', '{ record: speedometer }', '{ check: speedometers }'])(
  '%s does not',
  async (more) => {
    expect((await told({ ...LARGER, more })).join()).toContain('front-trail');
  },
);

it('a duty handed over does, for the vehicles it is for', async () => {
  expect(await told({ ...LARGER, owes: 'owes: [{ check: speedometer, before: road }]\n' })).toEqual([]);
  const some = 'owes: [{ check: speedometer, when: { trim: sport } }]\n';
  expect((await told({ ...LARGER, owes: some })).length).toBe(1);
});

it('where one trim gets larger wheels in the rear alone, it is told there', async () => {
  const kit = '  rear-wide: { replaces: rear-wheel, tyre: 285/75R17, when: { trim: sport }, quantity: 0 }\n';
  const all = await told({ was: '225/65R17', is: '225/65R17', kit, more: '{ fit: rear-wide }' });
  expect(all.filter((one) => one.startsWith('info rear-wide 1.1.8')).length).toBe(1);
});
