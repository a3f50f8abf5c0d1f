/** What anchors a torsion bar comes away: by the engine, and the same by the oracle. */

import { expect, it } from 'vitest';
import { standardPacks } from '../oracle/example';
import { compare } from '../support/agree';
import { checkFiles } from '../support/engine';

const VEHICLE = `
kitproof: vehicle/1
name: Moorhen
parts:
  front-arm: { kind: lower-arm, mass: 9 kg, joins: [frame], joints: { pivot: { torque: 150 N·m } } }
  front-bar: { kind: torsion-bar, mass: 7 kg, joins: [front-arm, front-key] }
  front-key: { kind: torsion-anchor, mass: 2 kg, joins: [bar-crossmember] }
  front-screw: { kind: adjuster, sided: true, mass: 0.3 kg, joins: [front-bar, bar-crossmember], joints: { screw: { torque: 20 N·m }, clip: { torque: 9 N·m } } }
  bar-crossmember: { kind: crossmember, mass: 9 kg, joins: [frame], joints: { bolt: { bolts: 4, torque: 80 N·m } } }
`;
const KIT = `
kitproof: kit/1
name: Keys
parts:
  new-key: { replaces: front-key, quantity: 2, mass: 2 kg }
`;

/** What lets a loaded bar go, in a guide of these operations. */
async function letGo(...operations: string[]): Promise<string[]> {
  const files = {
    'v.vehicle.yaml': VEHICLE,
    'k.kit.yaml': KIT,
    'g.install.yaml': `kitproof: install/1\ntitle: Keys\nvehicle: v.vehicle.yaml\nkit: k.kit.yaml\nsections:\n  - title: Work\n    steps:\n${operations.map((one) => `      - do: [{ ${one} }]\n`).join('')}`,
  };
  const { disagreements } = await compare(files, 'g.install.yaml', standardPacks());
  expect(disagreements).toEqual([]);
  const { findings } = await checkFiles(files);
  return findings
    .filter(({ rule }) => rule === 'loaded-bar-let-go' || rule === 'spring-loaded')
    .map(({ rule, item, operation, severity }) => `${severity} ${rule} ${item} ${operation}`);
}

it('the key, the last joint of the screw or the crossmember lets it go, and is told once', async () => {
  expect(await letGo('remove: front-key', 'remove: front-bar')).toEqual([
    'error loaded-bar-let-go front-key 1.1.1',
  ]);
  expect(await letGo('remove: front-screw.clip', 'remove: front-screw.screw', 'remove: front-key')).toEqual([
    'error loaded-bar-let-go front-screw 1.2.1',
  ]);
  expect(await letGo('unbolt: bar-crossmember', 'remove: front-key')).toEqual([
    'error loaded-bar-let-go bar-crossmember 1.1.1',
  ]);
  expect(await letGo('unbolt: front-arm')).toEqual([]);
});

it('one that is unloaded, held by its tool, or let off by it stays where it is', async () => {
  const out = ['unbolt: front-screw', 'remove: front-key'];
  expect(await letGo('relax: front-bar, with: front-screw', ...out)).toEqual([]);
  expect(await letGo('compress: front-bar, with: torsion-bar-tool', ...out)).toEqual([]);
  const [screw, key] = out as [string, string];
  expect(await letGo('compress: front-bar, with: torsion-bar-tool', screw, 'relax: front-bar', key)).toEqual(
    [],
  );
  expect(await letGo('compress: front-bar, with: torsion-bar-tool', 'relax: front-bar', screw, key)).toEqual([
    'error loaded-bar-let-go front-screw 1.3.1',
  ]);
});

it('a key from a kit holds the bar as the old one did', async () => {
  const changed = ['relax: front-bar', 'remove: front-key', 'discard: front-key', 'fit: new-key'];
  expect(await letGo(...changed, 'remove: new-key')).toEqual([]);
  expect(await letGo(...changed, 'adjust: front-screw', 'remove: new-key')).toEqual([
    'error loaded-bar-let-go new-key 1.6.1',
  ]);
});
