import { describe, expect, it } from 'vitest';
import { expectFindings, parseFixture } from '../support/fixture';
import { bind, checkProject, jointOf, partOf } from './support';

const fixture = (head: string, steps: string, vehicle = '') => `
# file: v.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
parts:
  front-wheel: { kind: wheel, joints: { nut: {} } }
  rear-wheel: { kind: wheel, joints: { nut: {} } }
  hub: { behind: front-wheel, joints: { nut: { behind: [] }, cap: { hand-tight: true }, bolt: { under: rear-wheel } } }
lines:
  park-cable: { kind: cable, paths: { over-member: 50 mm, under-member: 220 mm } }
  loom: { kind: plug }
${vehicle}
# file: guide.install.yaml
kitproof: install/1
title: T
vehicle: v.vehicle.yaml
${head}
sections:
  - title: S
    steps:
${steps}
`;
const check = (head: string, steps: string) => expectFindings(fixture(head, steps), checkProject);
const modelOf = (head: string, steps: string) => bind(parseFixture(fixture(head, steps)).files).model;

describe('verbs that take any words', () => {
  it('tell a joint that its part does not have, and a name that is nearly one', () => {
    check(
      '',
      `
      - do:
          - check: front-wheel.nutt
          #        ^^^^^^^^^^^^^^^^ error[unknown-joint]: did you mean "nut"?
          - measure: front-wheel.runout
          #          ^^^^^^^^^^^^^^^^^^ error[unknown-joint]: "front-wheel" has no "runout": it has nut.
          - record: front-whel
          #         ^^^^^^^^^^ error[unknown-name]: did you mean "front-wheel"?
          - adjust: park-cabel
          #         ^^^^^^^^^^ error[unknown-name]: did you mean "park-cable"?
          - check: rear-whel.nut
          #        ^^^^^^^^^^^^^ error[unknown-name]: did you mean "rear-wheel"?
`,
    );
  });

  it('leave all other words alone', () => {
    const model = modelOf(
      '',
      `
      - do: [{ check: toe }, { record: exposed-threads }, { check: front wheels }, { set: headlamp-aim }, { wait: 20 min }, { check: battery.terminals }, { check: v1.2 }]
`,
    );
    expect(model.findings).toEqual([]);
    const types = model.steps[0]!.operations.map((operation) => operation.targets[0]!.type);
    expect(types).toEqual(Array.from({ length: 7 }, () => 'words'));
  });
});

describe('owes', () => {
  it('makes a duty of each thing that is to be checked', () => {
    const model = modelOf(
      'owes: [{ check: [front-wheel.nut, rear-wheel.nut, toe], after: 80 km }]',
      '      []',
    );
    expect(model.owes.map(({ target }) => [target.type, target.written])).toEqual([
      ['joint', 'front-wheel.nut'],
      ['joint', 'rear-wheel.nut'],
      ['words', 'toe'],
    ]);
  });

  it('tells slips', () => {
    check(
      `owes:
  - check: [rear-wheel.nutt, front-whel.nut]
  #         ^^^^^^^^^^^^^^^ error[unknown-joint]: did you mean "nut"?
  #                          ^^^^^^^^^^^^^^ error[unknown-name]: did you mean "front-wheel"?
    after: 80 km`,
      '      []',
    );
  });
});

describe('paths of lines', () => {
  it('unknown-path, and the run goes on with the one that was meant', () => {
    const steps = `
      - do:
          - route: park-cable
            path: undr-member
            #     ^^^^^^^^^^^ error[unknown-path]: "park-cable" has no path "undr-member": it has over-member and under-member; did you mean "under-member"?
          - route: park-cable
            to: nowhere
            #   ^^^^^^^ error[unknown-path]: it has over-member and under-member.
          - route: park-cable
            path: over-member
            via: the gap above the tank
          - route: loom
            path: anywhere
`;
    check('', steps);
    const [step] = modelOf('', steps).steps;
    expect(step!.operations.map((operation) => operation.words.get('path'))).toEqual([
      'under-member',
      'nowhere',
      'over-member',
      'anywhere',
    ]);
    expect(step!.checked).toBe(false);
  });
});

describe('joints', () => {
  it('say themselves what covers them, and that a hand does them up', () => {
    const model = modelOf('', '      []');
    expect(['nut', 'cap', 'bolt'].map((name) => jointOf(model, `hub.${name}`))).toMatchObject([
      { ownCover: true, coveredBy: [], handTight: false },
      { ownCover: false, coveredBy: [], handTight: true },
      { ownCover: true, coveredBy: [{ how: 'under', part: partOf(model, 'rear-wheel') }], handTight: false },
    ]);
  });
});

describe('found, where it stands round an operation', () => {
  it('is known on guide, section, step and operation', () => {
    const files = parseFixture(`
# file: guide.install.yaml
kitproof: install/1
title: T
when: { found: rusty }
sections:
  - title: S
    when: { not: { found: cracked } }
    steps:
      - do: [{ measure: hub, expect: { below: 10 mm }, else: worn }]
      - when: { found: worn }
        do: [{ unbolt: hub }, { unbolt: arm, when: { found: bent } }]
`).files;
    const { model } = bind(files);
    const { text } = files[0]!;
    expect(
      model.steps.map((step) =>
        step.operations.map((operation) =>
          operation.foundNames.map(
            ({ name, place, onStep }) => `${text.slice(place.span.start, place.span.end)} ${name} ${onStep}`,
          ),
        ),
      ),
    ).toEqual([
      [['rusty rusty true', 'cracked cracked true']],
      [
        ['rusty rusty true', 'cracked cracked true', 'worn worn true'],
        ['rusty rusty true', 'cracked cracked true', 'worn worn true', 'bent bent false'],
      ],
    ]);
  });
});
