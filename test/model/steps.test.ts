import { describe, expect, it } from 'vitest';
import { expectFindings, parseFixture } from '../support/fixture';
import { bind, checkProject, partOf } from './support';

const model = (fixture: string) => bind(parseFixture(fixture).files).model;
const guide = (head: string, body: string, title = 'g') => `
# file: ${title}.install.yaml
kitproof: install/1
title: ${title}
${head}
sections:
${body}`;

describe('sides and passes', () => {
  const bound = model(
    guide(
      '',
      `
  - title: S
    steps:
      - do: [{ unbolt: wheel }]
      - { side: each, do: [{ unbolt: wheel }, { fit: wheel, side: left }] }
      - { side: left, do: [{ unbolt: wheel, side: both }] }
  - title: L
    side: right
    steps:
      - { side: each, do: [{ fit: wheel, article: left }] }
`,
    ),
  );
  it('narrow from outside inwards', () => {
    expect(bound.findings).toEqual([]);
    expect(bound.steps.map((step) => step.passes)).toEqual([
      [['left', 'right']],
      [['left'], ['right']],
      [['left']],
      [['right']],
    ]);
    expect(
      bound.steps.flatMap((step) => step.operations.map(({ sides, sideSaid }) => [sides.join(), sideSaid])),
    ).toEqual([
      ['left,right', false],
      ['left,right', true],
      ['left', true],
      ['left', true],
      ['right', true],
    ]);
    expect(bound.steps[3]!.operations[0]!.article).toBe('left');
  });
});

describe('conditions of steps', () => {
  const bound = model(
    guide(
      'when: { a: x }',
      `
  - title: S
    when: { b: x }
    steps:
      - { id: opt, optional: true, when: { c: x }, do: [{ unbolt: guard }] }
      - { id: must, do: [{ measure: play, expect: { below: 10 mm }, else: worn }] }
      - { when: { done: opt, not: { found: worn } }, do: [{ unbolt: guard, when: { d: [x, y] } }] }
`,
    ),
  );
  const { world } = bound;
  const is = (name: string, value = 'x') => world.literal(name, [value])!;
  const all = (...sets: number[]) => sets.reduce((a, b) => world.diagrams.and(a, b));

  it('add up, and branches are variables', () => {
    expect(bound.findings).toEqual([]);
    expect(world.variables.map(({ name, kind }) => [name, kind]).slice(-2)).toEqual([
      ['done:opt', 'optional-step'],
      ['found:worn', 'found'],
    ]);
    const base = all(is('a'), is('b'));
    const opt = all(base, is('c'), is('done:opt', 'yes'));
    expect(bound.steps[0]!.guard).toBe(opt);
    expect(bound.steps[1]!.guard).toBe(base);
    expect(bound.steps[2]!.guard).toBe(all(opt, is('found:worn', 'no')));
    expect(bound.steps[2]!.operations[0]!.guard).toBe(
      all(bound.steps[2]!.guard, world.literal('d', ['x', 'y'])!),
    );
    expect(bound.steps[2]!.operations[0]!.foundNames).toMatchObject([{ name: 'worn', onStep: true }]);
  });
});

describe('use', () => {
  const OTHER = guide(
    '',
    `
  - title: Wheel off
    id: off
    when: { axle: any }
    #     ^^^^^^^^^^^^^ info[always-so]
    steps:
      - { id: off, optional: true, do: [{ loosen: wheel.nut }, { unbolt: wheel }] }
      - { when: { done: off }, people: 2, do: [{ hold: hose, with: wire }] }
  - title: Loop
    steps:
      - do: [{ use: Loop }]
`,
    'other',
  );

  it('puts the steps in place, with paths, names and branches of their own', () => {
    const bound = model(
      `${guide(
        '',
        `
  - title: S
    steps:
      - side: left
        do:
          - raise: vehicle
          - { use: { guide: other.install.yaml, section: off }, with: { wheel: front-wheel, wheel.nut: front-wheel.bolt } }
          - lower: vehicle
`,
      )}${OTHER}`,
    );
    expect(bound.findings).toEqual([]);
    expect(
      bound.steps.map(({ path, operations, people }) => [
        path,
        operations.map((operation) => operation.path),
        people,
      ]),
    ).toEqual([
      ['1.1', ['1.1.1'], 1],
      ['1.1.2/1.1', ['1.1.2/1.1.1', '1.1.2/1.1.2'], 1],
      ['1.1.2/1.2', ['1.1.2/1.2.1'], 2],
      ['1.1', ['1.1.3'], 1],
    ]);
    expect([...bound.things.keys()].sort()).toEqual(['front-wheel', 'hose']);
    expect([...partOf(bound, 'front-wheel').joints.keys()]).toEqual(['bolt']);
    expect(bound.steps[1]!.place.uri).toBe('other.install.yaml');
    expect(bound.steps[1]!.operations[0]!.sides).toEqual(['left']);
    const done = bound.world.literal('done:1.1.2/off', ['yes'])!;
    expect(bound.steps[1]!.guard).toBe(done);
    expect(bound.steps[2]!.guard).toBe(done);
  });

  it('repeats the whole step on each side', () => {
    const bound = model(
      `${guide(
        '',
        `
  - title: S
    steps:
      - { side: each, do: [{ loosen: cap.bolt }, { use: { guide: other.install.yaml, section: Wheel off } }] }
`,
      )}${OTHER}`,
    );
    expect(bound.steps.map(({ path, passes }) => `${path} ${passes.join()}`)).toEqual([
      '1.1 left',
      '1.1.2/1.1 left',
      '1.1.2/1.2 left',
      '1.1 right',
      '1.1.2/1.1 right',
      '1.1.2/1.2 right',
    ]);
  });

  it('reports circles, missing sections and names that the section asks for, where the guide stands', () => {
    expectFindings(
      `
# file: v.vehicle.yaml
kitproof: vehicle/1
name: V
parts: { front-wheel: { joints: { nut: {} } }, wheels: {}, hose: {} }
${guide(
  'vehicle: v.vehicle.yaml',
  `
  - title: Itself
    steps:
      - do: [{ use: Itself }]
      #             ^^^^^^ error[circular-use]: The section "Itself" uses itself.
      - do: [{ use: Itsself }]
      #             ^^^^^^^ error[unknown-name]: There is no section "Itsself"; did you mean "Itself"?
      - do: [{ use: { guide: other.install.yaml, section: off }, with: { wheel.nut: front-wheel.nut } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[unknown-name]: In "Wheel off": Neither vehicle nor kit has "wheel"; did you mean "wheels"?
`,
)}${OTHER}`.replace(
        '- do: [{ use: Loop }]',
        '- do: [{ use: Loop }]\n      #             ^^^^ error[circular-use]',
      ),
      checkProject,
    );
  });
});

describe('before and after', () => {
  it('given, leaves, follows and owes are bound', () => {
    const bound = model(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: V
traits: { t: [a, b] }
parts: { wheel: { kind: wheel, joints: { nut: {} } }, guard: {} }
lines: { cable: { paths: { over: 50 mm, under: 220 mm } } }
${guide(
  'vehicle: v.vehicle.yaml\nside: left\ngiven: { wheel: off, cable: under, vehicle: raised }\nleaves: { guard: off }\nfollows: before.install.yaml\nowes: [{ check: wheel.nut, after: 80 km, when: { t: a } }, { check: toe, before: road }]',
  `
  - title: S
    steps: [{ do: [{ fit: wheel }] }]
`,
)}${guide('leaves: { guard: off, gone: off }', '  []', 'before')}`);
    expect(bound.findings).toEqual([]);
    expect(bound.given.map(({ target, state, sides }) => [target.written, state, sides])).toEqual([
      ['wheel', 'off', ['left']],
      ['cable', 'under', ['left']],
      ['vehicle', 'raised', ['left']],
    ]);
    expect(bound.leaves.map(({ target, state }) => [target.written, state])).toEqual([['guard', 'off']]);
    expect(bound.follows!.entries.filter(({ target }) => target.written === 'guard')).toHaveLength(1);
    expect(bound.follows!.place.uri).toBe('g.install.yaml');
    expect(bound.owes.map(({ target, set }) => [target.type, set === 1])).toEqual([
      ['joint', false],
      ['words', true],
    ]);
  });

  it('given may be a list of operations', () => {
    const bound = model(
      guide(
        'given: [{ raise: vehicle, with: two-post-lift }, { unbolt: front-wheel }]',
        '  - { title: S, steps: [{ do: [{ bolt-up: front-wheel }] }] }',
      ),
    );
    expect(bound.findings).toEqual([]);
    expect(bound.givenOperations.map(({ path, verb }) => [path, verb])).toEqual([
      ['0.1', 'raise'],
      ['0.2', 'unbolt'],
    ]);
    expect(partOf(bound, 'front-wheel').startsOff).toBe(false);
  });

  it('waivers know what they stand on', () => {
    const bound = model(
      guide(
        'waive: { rule: a, because: x, by: z, until: 2031-04-30 }',
        `
  - title: S
    steps: [{ waive: [{ rule: b, because: y, by: z, until: 2031-04-30 }, { rule: c, because: x, by: z, until: 2031-05-31 }], do: [{ unbolt: wheel, waive: { rule: d, because: x, by: z, until: 2031-04-30 } }] }]
`,
      ),
    );
    expect(bound.waivers.map(({ path, rule, by, until }) => [path, rule, by, until])).toEqual([
      ['0', 'a', 'z', '2031-04-30'],
      ['1.1', 'b', 'z', '2031-04-30'],
      ['1.1', 'c', 'z', '2031-05-31'],
      ['1.1.1', 'd', 'z', '2031-04-30'],
    ]);
  });
});

describe('what could not be read', () => {
  it('leaves the step unchecked, and says so', () => {
    const bound = model(
      guide(
        '',
        `
  - title: S
    steps:
      - do: [{ unbolt: wheel }, { unbollt: wheel }]
      - do: [{ unbolt: wheel }]
      - text: Nothing to do.
`,
      ),
    );
    expect(bound.steps.map(({ checked, lost }) => [checked, lost])).toEqual([
      [false, true],
      [true, false],
      [false, false],
    ]);
    expect(bound.steps[0]!.operations).toHaveLength(1);
  });
});
