import { describe, expect, it } from 'vitest';
import { expectFindings, parseFixture } from '../support/fixture';
import { bind, checkProject } from './support';

const check = (fixture: string) => expectFindings(fixture, checkProject);

describe('a vehicle file by itself', () => {
  it('references that lead nowhere', () => {
    check(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: V
parts:
  front-axle: { kind: live-axl, limited-by: [front-shock, [front-shock.lower-blot, front-strap]] }
  #                   ^^^^^^^^ error[unknown-part-kind]: did you mean "live-axle"?
  #                                                        ^^^^^^^^^^^^^^^^^^^^^^ error[unknown-joint]: did you mean "lower-bolt"?
  #                                                                                ^^^^^^^^^^^ error[unknown-name]: There is no part "front-strap".
  front-shock: { kind: shock, joins: [frame, front-axel], joints: { lower-bolt: { under: front-gard } } }
  #                                          ^^^^^^^^^^ error[unknown-name]: did you mean "front-axle"?
  #                                                                                      ^^^^^^^^^^ error[unknown-name]: did you mean "front-guard"?
  front-guard: { like: rear-guard, inside: front-hose }
  #                    ^^^^^^^^^^ error[unknown-name]: There is no part "rear-guard".
  #                                        ^^^^^^^^^^ error[unknown-name]: "front-hose" is a line; here a part is wanted.
lines:
  front-hose: { spans: [body, front-axle], held-by: front-guards }
  #                                                 ^^^^^^^^^^^^ error[unknown-name]: did you mean "front-guard"?
`);
  });

  it('a hose among the parts, of which nothing would be asked', () => {
    check(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: V
parts:
  rear-hose: { kind: brake-hose, joins: [frame, body] }
  #                  ^^^^^^^^^^ warning[line-among-parts]: "rear-hose" belongs under "lines:"
  rear-bracket: { kind: bracket, joins: [frame] }
`);
  });

  it('circular references, each once', () => {
    check(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: V
kinds:
  a: { kind: b }
  #          ^ error[circular-reference]: "a" is a kind of itself, by way of "b".
  b: { kind: a }
parts:
  p: { like: q }
  q: { like: r }
  #          ^ error[circular-reference]: "q" is like itself, by way of "r".
  r: { like: q }
  self: { joins: [frame, self], limited-by: [self] }
  #                      ^^^^ error[circular-reference]: "self" joins itself.
  #                                          ^^^^ error[circular-reference]: "self" is limited by itself.
  box: { inside: lid }
  #              ^^^ error[circular-reference]: "box" is inside, under or behind itself, by way of "lid".
  lid: { behind: box }
  ring-1: { joins: [ring-2] }
  ring-2: { joins: [ring-1] }
`);
  });

  it('traits, in parts and joints', () => {
    check(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: V
traits: { lockers: [none, fitted] }
parts:
  a: { when: { locker: fitted } }
  #            ^^^^^^ error[unknown-trait]: did you mean "lockers"?
  b: { joints: { bolt: { when: { lockers: off } } } }
  #                                       ^^^ error[unknown-trait-value]: lockers is never "off": it is none and fitted.
`);
  });

  it('names that stand twice or are always taken', () => {
    check(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: V
parts:
  front: {}
# ^^^^^ error[duplicate-name]: "front" always stands for the vehicle's own front
  battery: {}
  hose: {}
lines:
  hose: {}
# ^^^^ error[duplicate-name]: A part is named "hose" already
`);
  });
});

describe('a kit by itself', () => {
  const VEHICLE = `
# file: v.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted] }
parts: { front-coil: { sided: true }, front-shock: { joints: { lower-bolt: {} } } }
`;

  it('is held against the vehicle it is for', () => {
    check(`${VEHICLE}
# file: k.kit.yaml
kitproof: kit/1
name: K
for: Moorhen
options: { rate: [standard, heavy] }
parts:
  lift-coil: { replaces: front-coill, when: { rate: hevy } }
  #                      ^^^^^^^^^^^ error[unknown-name]: did you mean "front-coil"?
  #                                                 ^^^^ error[unknown-option]: rate is never "hevy"
  front-shock: { when: { lockers: fitted } }
# ^^^^^^^^^^^ error[duplicate-name]: The vehicle has "front-shock" already
  new-shock: { replaces: front-shock, when: { rates: heavy } }
  #                                           ^^^^^ error[unknown-option]: did you mean "rate"?
hardware:
  bolts: { for: [front-shock.lower-bolts, new-shock.lower-bolt, front-shok] }
  #              ^^^^^^^^^^^^^^^^^^^^^^^ error[unknown-joint]: did you mean "lower-bolt"?
  #                                                             ^^^^^^^^^^ error[unknown-name]: did you mean "front-shock"?
`);
  });

  it('is not held against a vehicle that nobody knows', () => {
    check(`
# file: k.kit.yaml
kitproof: kit/1
name: K
for: Heron
options: { rate: [standard, heavy] }
parts:
  a: { replaces: front-coil, joins: [front-axle], when: { lockers: fitted, rate: light } }
  #                                                                              ^^^^^ error[unknown-option]
  b: { replaces: c }
  #              ^ error[circular-reference]: "b" replaces itself, by way of "c".
  c: { replaces: b }
`);
  });

  it('is told once, in the kit, however many guides use it', () => {
    const guide = (name: string) => `
# file: ${name}.install.yaml
kitproof: install/1
title: ${name}
vehicle: v.vehicle.yaml
kit: k.kit.yaml
sections: [{ title: S, steps: [{ do: [{ fit: lift-coil }] }] }]
`;
    check(
      `${VEHICLE}${guide('one')}${guide('two')}
# file: k.kit.yaml
kitproof: kit/1
name: K
for: Moorhn
#    ^^^^^^ error[unknown-name]: No vehicle file is named "Moorhn"; did you mean "Moorhen"?
parts: { lift-coil: { replaces: front-coill, kind: ore-of-gold, like: nothing } }
#                               ^^^^^^^^^^^ error[unknown-name]: did you mean "front-coil"?
#                                                  ^^^^^^^^^^^ error[unknown-part-kind]
#                                                                     ^^^^^^^ error[unknown-name]: There is no part "nothing".
`,
    );
  });
});

describe('a pack by itself', () => {
  it('kinds on kinds that nobody has', () => {
    check(`
# file: house.rules.yaml
kitproof: rules/1
pack: house
kinds:
  wheel: {}
  big-wheel: { kind: wheell }
  #                  ^^^^^^ error[unknown-part-kind]: did you mean "wheel"?
`);
  });
});

describe('merging', () => {
  const merged = (text: string, guide = '') =>
    bind(
      parseFixture(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: V
${text}
# file: g.install.yaml
kitproof: install/1
title: T
vehicle: v.vehicle.yaml
${guide}
sections: []
`).files,
    ).model;

  it('maps by key, lists and scalars replaced: pack, file, like, self', () => {
    const model = merged(`
kinds: { shock: { mass: 4 kg, joints: { eye: { hex: 18 mm, torque: 80 N·m, stack: [a, b] } } } }
parts:
  one: { kind: shock, mass: 5 kg, joins: [frame], joints: { eye: { torque: 90 N·m } } }
  two: { like: one, joins: [body], joints: { eye: { stack: [c] }, pin: {} } }
`);
    const two = model.things.get('two')!;
    if (two.type !== 'part') throw new Error();
    expect(two).toMatchObject({ kind: 'shock', mass: 5, joins: ['body'], sided: true });
    expect(two.attributes).toMatchObject({ limitsDrop: true, system: 'suspension' });
    expect(
      [...two.joints.values()].map(({ name, hex, torque, stack }) => [name, hex, torque?.nominal, stack]),
    ).toEqual([
      ['eye', '18 mm', 90, ['c']],
      ['pin', null, undefined, []],
    ]);
  });

  it('what a part says wins over its kind, false too', () => {
    const model = merged(
      `parts: { a: { kind: shock, sided: false, bushed: false, joints: { bolt: {}, ball: { bushed: true } } } }`,
    );
    const a = model.things.get('a')!;
    if (a.type !== 'part') throw new Error();
    expect(a.sided).toBe(false);
    expect([...a.joints.values()].map((joint) => joint.bushed)).toEqual([false, true]);
  });

  it('places and sides make instances, and the quantity of a box', () => {
    const model = merged(`parts: { a: { sided: true, places: { station: [front, middle, rear] } } }`);
    const a = model.things.get('a')!;
    expect(a.instances.map((instance) => instance.label)).toEqual([
      'front/left',
      'front/right',
      'middle/left',
      'middle/right',
      'rear/left',
      'rear/right',
    ]);
    expect(a.quantity).toBe(6);
  });

  it('pieces are used up as packs and nuts say', () => {
    const model = merged(`
parts:
  a: { joints: { s: { nut: slotted, stack: [copper-washer, bush] }, t: { stretch: true }, l: { nut: self-locking } } }
`);
    const a = model.things.get('a')!;
    if (a.type !== 'part') throw new Error();
    expect([...a.joints.values()].map((joint) => [...joint.singleUse])).toEqual([
      [
        ['copper-washer', 'out'],
        ['pin', 'out'],
      ],
      [['bolt', 'slackened']],
      [['nut', 'out']],
    ]);
  });

  it('a limiter, a covering and a line follow what replaces a part, by way of another too', () => {
    const { model } = bind(
      parseFixture(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: V
parts:
  axle: { kind: axle, limited-by: [[shock, strap], shock.eye] }
  shock: { joins: [frame, axle], joints: { eye: {} } }
  strap: {}
  guard: {}
  box: { under: guard }
lines: { hose: { spans: [frame, axle], held-by: guard } }
# file: k.kit.yaml
kitproof: kit/1
name: K
parts: { newer: { replaces: new }, new: { replaces: shock }, new-guard: { replaces: guard } }
# file: g.install.yaml
kitproof: install/1
title: T
vehicle: v.vehicle.yaml
kit: k.kit.yaml
sections: []
`).files,
    );
    const part = (name: string) => model.things.get(name)!;
    const axle = part('axle');
    if (axle.type !== 'part') throw new Error();
    const name = (limiter: { name: string; full?: string }) =>
      'full' in limiter ? limiter.full : limiter.name;
    expect(axle.limitedBy.map((chain) => chain.map(name))).toEqual([
      ['shock', 'strap'],
      ['new', 'strap'],
      ['newer', 'strap'],
      ['shock.eye'],
      ['new.eye'],
      ['newer.eye'],
    ]);
    expect(part('newer')).toMatchObject({ joins: ['frame', axle] });
    expect(part('box')).toMatchObject({
      coveredBy: [
        { how: 'under', part: part('guard') },
        { how: 'under', part: part('new-guard') },
      ],
    });
    expect(part('hose')).toMatchObject({ heldBy: part('guard'), heldByNew: [part('new-guard')] });
  });

  it('covers make the universe, cut where conditions draw lines', () => {
    const model = merged(
      `traits: { lift: { from: 0 mm, to: 150 mm }, lockers: [none, fitted] }\nparts: { a: { when: { lift: { at-least: 75 mm } } } }`,
      'covers: { lockers: [fitted], lift: any }',
    );
    expect(model.universe).toBe(model.world.literal('lockers', ['fitted']));
    expect(model.world.variables.find((variable) => variable.name === 'lift')!.values).toHaveLength(2);
    expect(model.things.get('a')!.presence).not.toBe(1);
  });
});
