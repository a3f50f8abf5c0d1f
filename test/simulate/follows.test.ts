/** A job over two guides: the second starts where the first left off, and owes what that left. */

import { describe, expect, it } from 'vitest';
import { standardPacks } from '../oracle/example';
import { compare } from '../support/agree';
import { checkFiles } from '../support/engine';

const VEHICLE = `kitproof: vehicle/1
name: Wren
parts:
  rear-axle: { kind: live-axle }
  rear-wheel: { kind: wheel, sided: true, joins: [rear-axle], joints: { nut: { torque: 130 N·m } } }
  rear-shock: { kind: shock, sided: true, mass: 3 kg, joins: [frame, rear-axle], joints: { bolt: { bushed: false, torque: 90 N·m } } }
`;
const KIT = `kitproof: kit/1
name: Stiff
for: Wren
parts:
  stiff-shock: { replaces: rear-shock }
  badge: { kind: bracket, mass: 1 kg, joins: [body], joints: { screw: { torque: 2 N·m } } }
`;
const FIRST = `kitproof: install/1
title: First day
vehicle: wren.vehicle.yaml
kit: stiff.kit.yaml
leaves: { rear-wheel: off, vehicle: raised, badge: boxed }
sections:
  - title: One
    steps:
      - do: [{ raise: vehicle, with: two-post-lift }, { unbolt: rear-wheel }, { support: rear-axle, with: pole-jack }]
      - do: [{ unbolt: rear-shock }, { discard: rear-shock }, { bolt-up: stiff-shock }, { torque: stiff-shock }]
      - do: [{ unsupport: rear-axle }]
`;
const second = (steps: string) => `kitproof: install/1
title: Second day
vehicle: wren.vehicle.yaml
kit: stiff.kit.yaml
follows: first.install.yaml
sections:
  - title: Two
    steps:
${steps}`;
const WHEELS = `      - do: [{ bolt-up: rear-wheel }, { snug: rear-wheel }, { lower: vehicle }, { torque: rear-wheel }]
`;
const BADGE = `      - do: [{ bolt-up: badge }, { torque: badge }]
`;

async function found(steps: string) {
  const { findings } = await checkFiles({
    'wren.vehicle.yaml': VEHICLE,
    'stiff.kit.yaml': KIT,
    'first.install.yaml': FIRST,
    'second.install.yaml': second(steps),
  });
  return findings.map(({ rule, item, place }) => `${place.uri.split('/').at(-1)} ${rule} ${item}`);
}

describe('a guide that follows another', () => {
  it('starts with what that fitted and scrapped, and is silent when it closes what that left', async () => {
    expect(await found(WHEELS + BADGE)).toEqual([]);
  });

  it('owes what the other left', async () => {
    expect(await found(`      - do: [{ lower: vehicle }]\n${BADGE}`)).toEqual([
      'second.install.yaml wheel-seated-before-ground rear-wheel',
    ]);
    expect(await found(BADGE)).toEqual([
      'second.install.yaml left-off rear-wheel',
      'second.install.yaml left-raised vehicle',
    ]);
  });

  it('owes what of the kit neither uses', async () => {
    expect(await found(WHEELS)).toEqual(['second.install.yaml left-unused badge']);
  });
});

describe('a third day', () => {
  const THIRD = `kitproof: install/1
title: Third day
vehicle: wren.vehicle.yaml
kit: stiff.kit.yaml
follows: second.install.yaml
sections:
  - title: Three
    steps:
      - do: [{ check: stiff-shock }]
      - do: [{ raise: vehicle, with: two-post-lift }, { unbolt: rear-wheel }]
      - do: [{ unbolt: stiff-shock, side: left }]
      - do: [{ bolt-up: rear-wheel }, { snug: rear-wheel }, { lower: vehicle }, { torque: rear-wheel }]
`;

  it('starts with what the first day did', async () => {
    const files = {
      'wren.vehicle.yaml': VEHICLE,
      'stiff.kit.yaml': KIT,
      'first.install.yaml': FIRST,
      'second.install.yaml': second(WHEELS + BADGE),
      'third.install.yaml': THIRD,
    };
    const { findings } = await checkFiles(files);
    expect(findings.map(({ rule, item, sides }) => `${rule} ${item} ${sides?.join()}`)).toEqual([
      'left-off stiff-shock left',
    ]);
    const { disagreements } = await compare(files, 'third.install.yaml', standardPacks());
    expect(disagreements).toEqual([]);
  });
});
