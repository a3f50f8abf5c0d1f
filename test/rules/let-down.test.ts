/** A part let down on its jack, or left by it, with its lines still on: by the engine, and the same by the oracle. */

import { expect, it } from 'vitest';
import { standardPacks } from '../oracle/example';
import { compare } from '../support/agree';
import { checkFiles } from '../support/engine';

const VEHICLE = `
kitproof: vehicle/1
name: Moorhen
parts:
  fuel-tank: { kind: fuel-tank, mass: 14 kg, joins: [frame], joints: { strap-bolt: { torque: 25 N·m } } }
  level-sender: { kind: bracket, mass: 0.2 kg, joins: [fuel-tank], joints: { ring: { torque: 5 N·m } } }
lines:
  tank-plug: { kind: plug, spans: [body, fuel-tank], slack: 60 mm }
  sender-lead: { kind: plug, spans: [level-sender, fuel-tank], slack: 20 mm }
`;

const RULES = ['line-stretched', 'part-hangs-on-line', 'unsupport-carrying'];

/** What is told of lines, in a guide of these steps. */
async function told(...steps: string[]): Promise<string[]> {
  const files = {
    'v.vehicle.yaml': VEHICLE,
    'g.install.yaml': `kitproof: install/1\ntitle: Tank\nvehicle: v.vehicle.yaml\nsections:\n  - title: Work\n    steps:\n${steps.map((one) => `      - do: [${one}]\n`).join('')}`,
  };
  const { disagreements } = await compare(files, 'g.install.yaml', standardPacks());
  expect(disagreements).toEqual([]);
  const { findings } = await checkFiles(files);
  return findings
    .filter(({ rule }) => RULES.includes(rule))
    .map(({ rule, item, operation, message }) => `${rule} ${item} ${operation}: ${message}`);
}

const STRAPS = ['{ support: fuel-tank, with: gearbox-jack }', '{ remove: fuel-tank.strap-bolt }'];
const BACK = ['{ raise: fuel-tank }', '{ torque: fuel-tank.strap-bolt }', '{ unsupport: fuel-tank }'];
const down = (by: string) => `{ lower: fuel-tank, by: ${by} }`;

it('a tank goes down as far as its lines reach, and no farther', async () => {
  expect(await told(...STRAPS, down('60 mm'), ...BACK)).toEqual([]);
  expect(await told(...STRAPS, down('90 mm'), ...BACK)).toEqual([
    'line-stretched tank-plug 1.3.1: tank-plug has 60 mm of slack, and fuel-tank goes 90 mm down.',
  ]);
  expect(await told(...STRAPS, '{ disconnect: tank-plug }', down('90 mm'), ...BACK)).toEqual([]);
});

it('what it was let down before counts, until it is raised or bolted up', async () => {
  expect(await told(...STRAPS, down('40 mm'), down('40 mm'), ...BACK)).toEqual([
    'line-stretched tank-plug 1.4.1: tank-plug has 60 mm of slack, and fuel-tank goes 80 mm down.',
  ]);
  for (const up of [
    '{ raise: fuel-tank }',
    '{ start: fuel-tank.strap-bolt }',
    '{ raise: fuel-tank, by: 30 mm }',
  ])
    expect(await told(...STRAPS, down('40 mm'), up, down('40 mm'), ...BACK)).toEqual([]);
});

it('the last jack does not go while the tank has nothing else but its lines', async () => {
  const hangs = async (...steps: string[]) =>
    (await told(...steps)).filter((one) => one.includes('tank-plug'));
  expect(await hangs(...STRAPS, '{ unsupport: fuel-tank }', ...BACK.slice(0, 2))).toEqual([
    'part-hangs-on-line tank-plug 1.3.1: Fuel-tank hangs on tank-plug alone, or is taken away with it still connected.',
  ]);
  const other = '{ support: fuel-tank, with: sling }';
  expect(await hangs(...STRAPS, other, '{ unsupport: fuel-tank, with: gearbox-jack }', ...BACK)).toEqual([]);
  expect(
    await hangs(...STRAPS, '{ unsupport: fuel-tank }, { support: fuel-tank, with: sling }', ...BACK),
  ).toEqual([]);
});
