import { describe, expect, it } from 'vitest';
import { expectFindings, parseFixture } from '../support/fixture';
import { bind, checkProject } from './support';

const guide = (steps: string, head = '', section = '') => `
# file: v.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
parts:
  front-wheel: { kind: wheel, joints: { nut: { torque: 130 N·m } } }
  cover: {}
# file: guide.install.yaml
kitproof: install/1
title: T
vehicle: v.vehicle.yaml
${head}
sections:
  - title: S
${section}
    steps:
${steps}
`;
const stepsOf = (steps: string) => bind(parseFixture(guide(steps)).files).model.steps;

describe('a side that is never worked on', () => {
  it('names what it is at odds with, once', () => {
    expectFindings(
      guide(
        `
      - do:
          - unbolt: [front-wheel, front-wheel]
            side: left
            #     ^^^^ error[no-side-left]: This is for the left, but the guide is for the right alone, so it is never done.
      - side: both
        do: [{ unbolt: front-wheel }]
`,
        'side: right',
      ),
      checkProject,
    );
    expectFindings(
      guide(
        `
      - do:
          - { unbolt: front-wheel, side: right }
          #                              ^^^^^ error[no-side-left]: but the section is for the left alone
      - side: right
        #     ^^^^^ error[no-side-left]: but the section is for the left alone
        do: [{ unbolt: front-wheel }, { bolt-up: front-wheel, side: left }]
`,
        '',
        '    side: left',
      ),
      checkProject,
    );
    expectFindings(
      guide(`
      - side: left
        do:
          - { unbolt: front-wheel, side: right }
          #                              ^^^^^ error[no-side-left]: but the step is for the left alone
`),
      checkProject,
    );
  });
});

describe('a step whose operation was told to be wrong', () => {
  it('is lost; one whose operation is only unknown is not', () => {
    const steps = stepsOf(`
      - do: [{ torque: cover, to: maker }]
      - do: [{ switch: front-wheel }]
      - do: [{ unbolt: front-wheel, side: left }]
        side: right
      - text:
      - text: Read this.
      - do: [{ unbolt: front-wheel }]
`);
    expect(steps.map((step) => [step.operations.length, step.lost])).toEqual([
      [0, true],
      [0, true],
      [0, true],
      [0, true],
      [0, false],
      [1, false],
    ]);
  });
});

describe('a step without text', () => {
  it('is called by its operations with aid, figure and side', () => {
    const steps = stepsOf(`
      - do: [{ support: front, with: axle-stands }, { lower: front-wheel, by: 90 mm }]
      - do:
          - torque: front-wheel.nut
            to: 120 N·m
            then: 60°
            side: left
          - torque: front-wheel.nut
            stages: [40 N·m, 110 N·m]
          - torque: front-wheel.nut
            to: [{ is: 95 N·m }]
          - torque: front-wheel
      - side: left
        do: [{ unbolt: front-wheel }, { snug: front-wheel.nut, new: [nut], side: left }]
      - { text: Take it off., do: [{ remove: cover }] }
`);
    expect(steps.map((step) => step.title)).toEqual([
      'support front with axle-stands; lower front-wheel by 90 mm',
      'torque front-wheel.nut to 120 N·m then 60°, left; torque front-wheel.nut to 110 N·m; torque front-wheel.nut; torque front-wheel to 130 N·m',
      'unbolt front-wheel; snug front-wheel.nut with new nut, left',
      'Take it off.',
    ]);
  });
});

describe('what a guide follows', () => {
  const following = (uri: string, follows: string) => `
# file: ${uri}
kitproof: install/1
title: T
follows: ${follows}
sections: []
`;
  it('circular-reference: itself, directly or by way of others', () => {
    const message = 'error[circular-reference]: This guide follows itself';
    expectFindings(
      following('a.install.yaml', `a.install.yaml\n#        ^^^^^^^^^^^^^^ ${message}.`) +
        following(
          'b.install.yaml',
          `c.install.yaml\n#        ^^^^^^^^^^^^^^ ${message}, by way of "c.install.yaml".`,
        ) +
        following(
          'c.install.yaml',
          `b.install.yaml\n#        ^^^^^^^^^^^^^^ ${message}, by way of "b.install.yaml".`,
        ) +
        following('d.install.yaml', 'c.install.yaml'),
      checkProject,
    );
  });
});
