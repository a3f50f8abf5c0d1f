import { describe, expect, it } from 'vitest';
import { expectFindings, parseFixture } from '../support/fixture';
import { bind, checkProject } from './support';

const VEHICLE = `
# file: moorhen.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted], lift: { from: 0 mm, to: 150 mm } }
parts:
  front-axle: { kind: live-axle, limited-by: [front-shock] }
  front-wheel: { kind: wheel, joins: [front-axle], joints: { nut: { bolts: 5 } } }
  front-shock:
    kind: shock
    joins: [frame, front-axle]
    joints: { top-nut: { nut: self-locking, stack: [bush] }, lower-bolt: {} }
    ends: { eye: { seat: press } }
  front-coil: { kind: coil-spring, sided: true, joins: [frame, front-axle] }
  front-arm: { kind: bracket, joints: { bolt: {} }, holes: { arm-hole: { size: 13 mm } }, faces: [clamp-face] }
lines:
  front-hose: { kind: brake-hose, spans: [frame, front-axle], ends: [pipe, caliper], circuit: front-brakes }
`;

const guide = (body: string, head = 'vehicle: moorhen.vehicle.yaml') => `${VEHICLE}
# file: guide.install.yaml
kitproof: install/1
title: T
${head}
sections:
  - title: S
    steps:
${body}`;

const steps = (body: string, head?: string) => expectFindings(guide(body, head), checkProject);

describe('names in a guide', () => {
  it('unknown-name: the nearest is named, and the run goes on with it', () => {
    const fixture = guide(`
      - do:
          - unbolt: front-whel
          #         ^^^^^^^^^^ error[unknown-name]: Neither vehicle nor kit has "front-whel"; did you mean "front-wheel"?
          - torque: front-wheell.nut
          #         ^^^^^^^^^^^^^^^^ error[unknown-name]: did you mean "front-wheel"?
`);
    expectFindings(fixture, checkProject);
    const { model } = bind(parseFixture(fixture).files);
    expect(model.findings.map((finding) => finding.fixes[0]?.edits[0]?.text)).toEqual([
      'front-wheel',
      'front-wheel.nut',
    ]);
    const [step] = model.steps;
    expect(step!.checked).toBe(false);
    expect(step!.operations.map((operation) => operation.targets[0])).toMatchObject([
      { type: 'part', part: { name: 'front-wheel' } },
      { type: 'joint', joint: { full: 'front-wheel.nut' } },
    ]);
    expect(model.things.has('front-whel')).toBe(false);
  });

  it('a side does not belong into a name', () => {
    steps(`
      - do:
          - unbolt: left-front-wheel
          #         ^^^^^^^^^^^^^^^^ error[unknown-name]: "front-wheel" is there on both sides: write front-wheel with side: left, not "left-front-wheel".
          - torque: front-right-wheel.nut
          #         ^^^^^^^^^^^^^^^^^^^^^ error[unknown-name]: write front-wheel.nut with side: right
          - unbolt: left-front-arm
`);
  });

  it('a name that is near none is implied: no finding, but the step is not checked', () => {
    const { model } = bind(
      parseFixture(guide('      - do: [{ unbolt: skid-plate }]\n      - do: [{ unbolt: front-wheel }]\n'))
        .files,
    );
    expect(model.findings).toEqual([]);
    expect(model.steps.map((step) => step.checked)).toEqual([false, true]);
    expect(model.undecided).toEqual([{ rule: 'unknown-name', item: 'skid-plate', property: 'declaration' }]);
  });

  it('names that differ by a figure or by another word are not slips of each other', () => {
    steps(`
      - do: [{ unbolt: front-coil-2 }, { unbolt: rear-wheel }]
`);
  });

  it('unknown-joint: joints, ends, holes, faces and ends of lines', () => {
    steps(`
      - do:
          - remove: front-shock.lower-blot
          #         ^^^^^^^^^^^^^^^^^^^^^^ error[unknown-joint]: did you mean "lower-bolt"?
          - remove: front-wheel.centre-screw
          #         ^^^^^^^^^^^^^^^^^^^^^^^^ error[unknown-joint]: "front-wheel" has no "centre-screw": it has nut.
          - free: front-shock.eyes
          #       ^^^^^^^^^^^^^^^^ error[unknown-joint]: did you mean "eye"?
          - drill: front-arm.arm-holes
          #        ^^^^^^^^^^^^^^^^^^^ error[unknown-joint]: did you mean "arm-hole"?
          - coat: front-arm.clamp-fase
          #       ^^^^^^^^^^^^^^^^^^^^ error[unknown-joint]: did you mean "clamp-face"?
          - disconnect: front-hose.pipes
          #             ^^^^^^^^^^^^^^^^ error[unknown-joint]: did you mean "pipe"?
          - connect: front-hose
            end: calipper
            #    ^^^^^^^^ error[unknown-joint]: "front-hose" has no end "calipper"; did you mean "caliper"?
`);
  });

  it('wrong-target: what the verb acts on is said, and the operation is dropped', () => {
    const fixture = guide(`
      - do:
          - torque: front-coil
          #         ^^^^^^^^^^ error[wrong-target]: "torque" acts on a joint, and "front-coil" has no joints.
          - loosen: battery
          #         ^^^^^^^ error[wrong-target]: "loosen" acts on a joint, not on "battery".
          - connect: front-wheel
          #          ^^^^^^^^^^^ error[wrong-target]: a line
          - unbolt: front-hose
          #         ^^^^^^^^^^ error[wrong-target]: "unbolt" acts on a part with its joints
          - isolate: front-wheel
          #          ^^^^^^^^^^^ error[wrong-target]
          - raise: front-wheel.nut
          #        ^^^^^^^^^^^^^^^ error[wrong-target]
          - switch: winch
          #         ^^^^^ error[wrong-target]
          - free: front-wheel
          #       ^^^^^^^^^^^ error[wrong-target]: has no end that holds by itself
`);
    expectFindings(fixture, checkProject);
    const { model } = bind(parseFixture(fixture).files);
    expect(model.steps[0]).toMatchObject({ operations: [], checked: false });
  });

  it('a circuit is all its lines; built-ins are there; free words are words', () => {
    const { model } = bind(
      parseFixture(
        guide(
          '      - do: [{ bleed: front-brakes }, { isolate: battery }, { check: pedal feel }, { check: toe }, { check: front-wheel.nut }]\n',
        ),
      ).files,
    );
    expect(model.findings).toEqual([]);
    expect(model.steps[0]!.checked).toBe(true);
    expect(model.steps[0]!.operations.map((operation) => operation.targets[0]!.type)).toEqual([
      'line',
      'built-in',
      'words',
      'words',
      'joint',
    ]);
  });

  it('unknown-aid', () => {
    steps(`
      - do:
          - raise: vehicle
            with: two-post-lifft
            #     ^^^^^^^^^^^^^^ error[unknown-aid]: No rule pack knows the aid "two-post-lifft"; did you mean "two-post-lift"?
          - support: front-axle
            with: [axle-stand, sky-hook]
            #                  ^^^^^^^^ error[unknown-aid]
          - lower: vehicle
            onto: axle-stanps
            #     ^^^^^^^^^^^ error[unknown-aid]
          - unbolt: front-wheel
            with: impact wrench
`);
  });

  it('singular and plural of an aid are one', () => {
    const { model } = bind(
      parseFixture(
        guide(
          '      - do: [{ support: front-axle, with: axle-stand }, { support: front-axle, with: stand }]\n',
        ),
      ).files,
    );
    expect(model.findings).toEqual([]);
    expect(model.steps[0]!.operations.map((operation) => operation.aids[0]!.name)).toEqual([
      'axle-stands',
      'axle-stands',
    ]);
  });

  it('unknown-trait and unknown-trait-value, in conditions and in covers', () => {
    steps(
      `
      - when: { locker: fitted }
        #       ^^^^^^ error[unknown-trait]: did you mean "lockers"?
        do: [{ unbolt: front-wheel }]
      - when: { lockers: [fited] }
        #                 ^^^^^ error[unknown-trait-value]: lockers is never "fited": it is none and fitted.
        do: [{ unbolt: front-wheel }]
      - when: { lockers: { above: 3 mm } }
        #                ^^^^^^^^^^^^^^^ error[unknown-trait-value]: lockers is no figure
        do: [{ unbolt: front-wheel }]
      - when: { lift: { above: 3 kg } }
        #                      ^^^^ error[unknown-trait-value]: "3 kg" is no length to compare with.
        do: [{ unbolt: front-wheel }]
`,
      `vehicle: moorhen.vehicle.yaml
covers: { lockers: all, engine: petrol }
#                  ^^^ error[unknown-trait-value]
#                       ^^^^^^ error[unknown-trait]`,
    );
  });

  it('unknown-step: in done and in a text', () => {
    steps(`
      - id: lift
        optional: true
        text: As in {step:lift}, not {step:lifft}.
        #                                  ^^^^^ error[unknown-step]: No step has the id "lifft"; did you mean "lift"?
        do: [{ raise: vehicle }]
      - when: { done: lifts }
        #             ^^^^^ error[unknown-step]: did you mean "lift"?
        do: [{ unbolt: front-wheel }]
`);
  });

  it('unknown-found only where the name is near one that is measured; else the rule of the state speaks', () => {
    steps(`
      - do: [{ measure: upper-joint, expect: { below: 10 mm }, else: worn }]
      - when: { found: cracked }
        do: [{ unbolt: front-wheel }]
      - when: { found: worm }
        #              ^^^^ error[unknown-found]: Nothing in this guide finds "worm"; did you mean "worn"?
        do: [{ unbolt: front-wheel }]
`);
  });

  it('duplicate-step-id', () => {
    steps(`
      - { id: a, do: [{ unbolt: front-wheel }] }
      - { id: a, do: [{ unbolt: front-wheel }] }
      #       ^ error[duplicate-step-id]: Another step has the id "a" already.
`);
  });

  it('no-side-left: on an operation, and once on a step', () => {
    const fixture = guide(`
      - side: left
        do:
          - unbolt: front-wheel
            side: right
            #     ^^^^^ error[no-side-left]
      - side: right
        do: [{ unbolt: front-wheel }]
`);
    expectFindings(fixture, checkProject);
    expectFindings(
      guide(
        `
      - side: right
        #     ^^^^^ error[no-side-left]
        do: [{ unbolt: front-wheel }, { unbolt: front-wheel, side: left }]
`,
        'vehicle: moorhen.vehicle.yaml\nside: left',
      ),
      checkProject,
    );
  });

  it('unknown-in-text', () => {
    steps(`
      - text: "Take {part:front-coill} to {torque:front-wheel.nut}."
        #                 ^^^^^^^^^^^ error[unknown-in-text]: did you mean "front-coil"?
        do: [{ unbolt: front-wheel }]
        note: Tighten {torque:front-wheel.nuts}, {torque:front-coil} and {parts:front-coil}; {plain} is a word.
        #                     ^^^^^^^^^^^^^^^^ error[unknown-in-text]: did you mean "front-wheel.nut"?
        #                                                ^^^^^^^^^^ error[unknown-in-text]: has no joint whose torque could be printed
        #                                                                 ^^^^^^^^^^^^^^^^ error[unknown-in-text]: A text can print part, torque and step, not "parts"
        caution: { signal: notice, text: "The {part:front-hose.caliper} and {torque:front-shock.lower-bolt} stay." }
`);
  });

  it('unknown-place', () => {
    const files = parseFixture(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: V
parts: { tank: { places: { station: [front, middle, rear] }, joints: { strap: {} } } }
# file: guide.install.yaml
kitproof: install/1
title: T
vehicle: v.vehicle.yaml
sections:
  - title: S
    steps:
      - { station: middel, do: [{ loosen: tank.strap }, { loosen: tank.strap, station: [front, rear] }] }
`).files;
    const { model } = bind(files, ['station']);
    expect(model.findings.map(({ rule, message }) => [rule, message])).toEqual([
      ['unknown-place', 'station is never "middel": it is front, middle and rear.'],
    ]);
    expect(model.steps[0]!.operations[1]!.stations).toEqual(new Map([['station', ['front', 'rear']]]));
  });

  it('unknown-state in given and leaves', () => {
    steps(
      `
      - do: [{ unbolt: front-wheel }]
`,
      `vehicle: moorhen.vehicle.yaml
given: { front-wheel: of, front-shok: off, ignition: accessory }
#                     ^^ error[unknown-state]: "of" is no state of "front-wheel"
#                         ^^^^^^^^^^ error[unknown-name]: did you mean "front-shock"?
leaves: { front-wheel.nut: looser }
#                          ^^^^^^ error[unknown-state]: did you mean "loose"?`,
    );
  });
});

describe('files of a guide', () => {
  it('missing-file at each path', () => {
    expectFindings(
      `
# file: guide.install.yaml
kitproof: install/1
title: T
vehicle: gone.vehicle.yaml
#        ^^^^^^^^^^^^^^^^^ error[missing-file]: There is no vehicle file at "gone.vehicle.yaml".
kit: [a.kit.yaml, guide.install.yaml]
#     ^^^^^^^^^^ error[missing-file]
#                 ^^^^^^^^^^^^^^^^^^ error[missing-file]: "guide.install.yaml" is no kit file.
follows: before.install.yaml
#        ^^^^^^^^^^^^^^^^^^^ error[missing-file]
sections:
  - title: S
    steps:
      - do: [{ use: { guide: other.install.yaml, section: X } }]
      #                      ^^^^^^^^^^^^^^^^^^ error[missing-file]
`,
      checkProject,
    );
  });

  it('kit-not-for-vehicle and kit-lacks-part', () => {
    expectFindings(
      `${VEHICLE}
# file: wren.kit.yaml
kitproof: kit/1
name: K
for: [Wren]
parts: { lift-coil: {} }
# file: guide.install.yaml
kitproof: install/1
title: T
vehicle: moorhen.vehicle.yaml
kit: wren.kit.yaml
#    ^^^^^^^^^^^^^ error[kit-not-for-vehicle]: The kit is for Wren, and the guide's vehicle is Moorhen.
sections:
  - title: S
    steps:
      - do: [{ unbolt: skid-plate }, { bolt-up: skid-plate }, { fit: lift-coil }]
      - do: [{ fit: spacer-block }, { fit: spacer-block }]
      #             ^^^^^^^^^^^^ warning[kit-lacks-part]: Neither the kit nor the vehicle has "spacer-block", which is fitted here.
`,
      checkProject,
    );
  });

  it('duplicate-name where two kits meet in a guide', () => {
    expectFindings(
      `
# file: a.kit.yaml
kitproof: kit/1
name: A
parts: { lift-coil: {} }
# file: b.kit.yaml
kitproof: kit/1
name: B
parts: { lift-coil: {} }
# file: guide.install.yaml
kitproof: install/1
title: T
kit: [a.kit.yaml, b.kit.yaml]
#                 ^^^^^^^^^^ error[duplicate-name]: lift-coil is a name that another file of this guide has already.
sections: [{ title: S, steps: [{ do: [{ fit: lift-coil }] }] }]
`,
      checkProject,
    );
  });
});
