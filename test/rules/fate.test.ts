/** What becomes of old parts, and of holes that are wide already: by the engine, and the same by the oracle. */

import { expect, it } from 'vitest';
import { standardPacks } from '../oracle/example';
import { compare } from '../support/agree';
import { checkFiles } from '../support/engine';

const VEHICLE = `
kitproof: vehicle/1
name: Moorhen
parts:
  stop: { kind: bump-stop, sided: false, mass: 1 kg, joins: [frame], joints: { bolt: { torque: 20 N·m } } }
`;
const KIT = `
kitproof: kit/1
name: Stops
options: { stops: [old, long] }
parts:
  long-stop: { replaces: stop, when: { stops: long }, mass: 1 kg, holes: { bolt-hole: { size: 9 mm } } }
`;

async function findings(guide: string): Promise<string[]> {
  const files = {
    'v.vehicle.yaml': VEHICLE,
    'k.kit.yaml': KIT,
    'g.install.yaml': `kitproof: install/1\ntitle: Stops\nvehicle: v.vehicle.yaml\nkit: k.kit.yaml\nsections:\n  - title: Work\n    steps:\n${guide}`,
  };
  const { disagreements } = await compare(files, 'g.install.yaml', standardPacks());
  expect(disagreements).toEqual([]);
  const { findings: all } = await checkFiles(files);
  return all.map(
    ({ rule, severity, item, variants }) => `${severity} ${rule} ${item} ${JSON.stringify(variants)}`,
  );
}

const FIT = '      - { when: { stops: long }, do: [{ bolt-up: long-stop }, { torque: long-stop.bolt }] }\n';

it('an old part whose place is taken wants a word, one that is missed is missed', async () => {
  expect(await findings(`      - { when: { stops: long }, do: [{ unbolt: stop }] }\n${FIT}`)).toEqual([
    'info left-off stop [{"stops":["long"]}]',
  ]);
  expect(await findings(`      - do: [{ unbolt: stop }]\n${FIT}`)).toEqual(['error left-off stop []']);
});

it('what is replaced with one option only is not thrown away with the other', async () => {
  expect(await findings(`      - do: [{ unbolt: stop }, { discard: stop }]\n${FIT}`)).toEqual([
    'error left-without stop [{"stops":["old"]}]',
  ]);
});

it('a thin drill leaves a wide hole as it is, and is told of', async () => {
  const work = (...drills: string[]) =>
    `      - { when: { stops: long }, do: [{ unbolt: stop }, { discard: stop }, { mark: long-stop.bolt-hole }, ${drills.map((to) => `{ drill: long-stop.bolt-hole, to: ${to} }`).join(', ')}, { deburr: long-stop.bolt-hole }, { coat: long-stop.bolt-hole }] }\n${FIT}`;
  expect(await findings(work('9 mm', '5 mm'))).toEqual([
    'info drilled-already long-stop.bolt-hole [{"stops":["long"]}]',
  ]);
  expect(await findings(work('5 mm'))).toEqual([
    'warning left-pilot long-stop.bolt-hole [{"stops":["long"]}]',
  ]);
});
