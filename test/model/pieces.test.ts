/** Pieces under `new` and `stays`: a slip is told with the name that was meant, and the run goes on with that. */

import { describe, expect, it } from 'vitest';
import { checkFiles } from '../support/engine';
import { expectFindings, parseFixture } from '../support/fixture';
import { checkProject } from './support';

const VEHICLE = `
# file: v.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
parts:
  stay:
    mass: 1 kg
    joins: [frame]
    joints: { bolt: { nut: self-locking, stack: [cup-washer, sealing-washer], torque: 40 N·m } }
`;

describe('pieces', () => {
  it('are told where they are a slip of one that the joint or a pack has, and left alone where they are not', () => {
    expectFindings(
      `${VEHICLE}
# file: guide.install.yaml
kitproof: install/1
title: T
vehicle: v.vehicle.yaml
sections:
  - title: S
    steps:
      - do:
          - { remove: stay.bolt, stays: [cup-wahser] }
          #                              ^^^^^^^^^^ warning[unknown-piece]: did you mean "cup-washer"?
          - { torque: stay.bolt, new: [nutt, sealing-washers, house-tag] }
          #                            ^^^^ warning[unknown-piece]: did you mean "nut"?
`,
      checkProject,
    );
  });

  it('count as the one that was meant', async () => {
    const guide = (piece: string) => `kitproof: install/1
title: T
vehicle: v.vehicle.yaml
sections: [{ title: S, steps: [{ do: [{ remove: stay.bolt }, { torque: stay.bolt, new: [${piece}, sealing-washer] }] }] }]
`;
    const vehicle = parseFixture(VEHICLE).files.find(({ name }) => name === 'v.vehicle.yaml')!.text;
    const rules = async (piece: string) => {
      const { findings } = await checkFiles({ 'v.vehicle.yaml': vehicle, 'g.install.yaml': guide(piece) });
      return findings.map(({ rule }) => rule);
    };
    expect(await rules('nutt')).toEqual(['unknown-piece']);
    expect(await rules('cup-washer')).toEqual(['new-locking-nut']);
  });
});
