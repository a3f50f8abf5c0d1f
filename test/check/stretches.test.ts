import { expect, it } from 'vitest';
import { openStretches } from '../../server/src/check/stretches';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import { traceOfGuide } from '../../server/src/workspace/trace';

const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted] }
parts:
  rear-axle: { kind: live-axle, mass: 90 kg, drop: 150 mm, limited-by: [rear-shock] }
  rear-wheel: { kind: wheel, sided: true, joins: [rear-axle], joints: { nut: { torque: 130 N·m } } }
  rear-shock: { kind: shock, sided: true, joins: [frame, rear-axle], joints: { bolt: { torque: 60 N·m } } }
  cover: { mass: 2 kg, joins: [frame], joints: { bolt: { torque: 22 N·m } } }
lines:
  plug: { kind: plug, spans: [frame, rear-axle], when: { lockers: fitted } }
`;

async function stretches(steps: readonly string[], more = '', variant: Record<string, string> = {}) {
  const list = steps.map((operations) => `      - do: [${operations}]`).join('\n');
  const guide = `kitproof: install/1\ntitle: A\nvehicle: v.vehicle.yaml\n${more}sections:\n  - title: W\n    steps:\n${list}\n`;
  const files = memoryFiles(
    new Map([
      ['/a.install.yaml', guide],
      ['/v.vehicle.yaml', VEHICLE],
    ]),
  );
  const project = new Project(files, standardPacks());
  const trace = await traceOfGuide(
    project,
    (await project.open('/a.install.yaml'))!,
    new Map(Object.entries(variant)),
  );
  return openStretches(trace).map(({ sort, items, state, opened, closed, variants }) => {
    const names = items.map(({ name, sides }) => [name, ...sides].join(' ')).join(', ');
    const only = variants.length === 0 ? '' : ` ${JSON.stringify(variants)}`;
    return `${opened} to ${closed}: ${sort}, ${names} ${state}${only}`;
  });
}

it('tells from where to where each thing is open, sides and things that go together as one', async () => {
  const found = await stretches([
    '{ raise: vehicle, with: two-post-lift }',
    '{ unbolt: [rear-wheel, cover] }',
    '{ support: rear-axle, with: pole-jacks }',
    '{ disconnect: plug }',
    '{ connect: plug }',
    '{ bolt-up: [rear-wheel, cover] }, { snug: rear-wheel.nut }, { torque: cover.bolt }',
    '{ unsupport: rear-axle }',
    '{ lower: vehicle }',
    '{ torque: rear-wheel.nut }',
  ]);
  expect(found).toEqual([
    '1.1 to 1.8: raised, vehicle raised',
    '1.2 to 1.6: off, rear-wheel left right, cover off',
    '1.3 to 1.7: aid, rear-axle left right on pole-jack',
    '1.4 to 1.5: apart, plug disconnected [{"lockers":["fitted"]}]',
    '1.6 to 1.9: loose, rear-wheel.nut left right loose',
  ]);
});

it('of one variant, what there is in it; what is never closed has no end', async () => {
  expect(await stretches(['{ disconnect: plug }'], '', { lockers: 'fitted' })).toEqual([
    '1.1 to null: apart, plug disconnected',
  ]);
  expect(await stretches(['{ disconnect: plug }'], '', { lockers: 'none' })).toEqual([]);
});

it('what a guide is given is open from the first step that touches it', async () => {
  expect(
    await stretches(
      ['{ check: cover }', '{ bolt-up: cover }, { torque: cover.bolt }'],
      'given: { cover: off }\n',
    ),
  ).toEqual(['1.1 to 1.2: off, cover off']);
});
