import { describe, expect, it } from 'vitest';
import { expectFindings, parseFixture } from '../support/fixture';
import { bind, checkProject, partOf } from './support';

const fixture = (steps: string, files = '', head = '') =>
  `${files}
# file: guide.install.yaml
kitproof: install/1
title: T
${head}
sections:
  - title: S
    steps:
${steps}
`.trimStart();
const modelOf = (steps: string, files = '', head = '') =>
  bind(parseFixture(fixture(steps, files, head)).files).model;

const FILES = `
# file: v.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
parts:
  frame: { holes: { tow-hole: { size: 13 mm } } }
  front-axle: { kind: axle, joins: [frame] }
  front-arm: { joins: [frame], holes: { eye: {} } }
# file: k.kit.yaml
kitproof: kit/1
name: K
for: Moorhen
parts: { frame: { holes: { step-hole: { count: 2, size: 9 mm } } }, step: { joins: [frame] } }
`;
const HEAD = 'vehicle: v.vehicle.yaml\nkit: k.kit.yaml';

describe('the metal of frame and body', () => {
  it('is there for who works it, and for nobody else', () => {
    const model = modelOf(`
      - do: [{ raise: frame, with: two-post-lift }, { clean: frame.hole-1 }, { mark: frame.hole-1 }, { drill: frame.hole-1 }, { coat: [body, body.sill] }, { check: frame.hole-1 }, { check: frame }]
`);
    expect(model.findings).toEqual([]);
    expect(model.steps[0]!.checked).toBe(true);
    const types = model.steps[0]!.operations.map((one) => one.targets.map((target) => target.type).join());
    expect(types).toEqual(['built-in', 'hole', 'hole', 'hole', 'part,face', 'hole', 'built-in']);
    const frame = partOf(model, 'frame');
    expect(frame).toMatchObject({ origin: 'implied', startsOff: false, kind: null, sided: false, joins: [] });
    expect(frame.attributes.reach).toBe('beneath');
    expect([...frame.joints.keys()]).toEqual([]);
    expect(frame.holes.get('hole-1')).toMatchObject({ size: null, count: 1 });
    expect(modelOf('      - do: [{ raise: frame }, { check: frame }]').things.has('frame')).toBe(false);
  });

  it('has the holes that vehicle and kit tell of, and stays a word for what joins it', () => {
    const model = modelOf('      - do: [{ drill: [frame.tow-hole, frame.step-hole] }]', FILES, HEAD);
    expect(model.findings).toEqual([]);
    const frame = partOf(model, 'frame');
    expect([...frame.holes.values()].map(({ name, size }) => [name, size])).toEqual([
      ['tow-hole', 13],
      ['step-hole', 9],
    ]);
    expect(frame.origin).toBe('vehicle');
    expect(partOf(model, 'step').joins).toEqual(['frame']);
    expect(partOf(model, 'front-axle').joins).toEqual(['frame']);
    expect(model.undecided).toEqual([]);
  });

  it('may be drilled in any part that tells of no holes', () => {
    expectFindings(
      fixture(
        `
      - do:
          - drill: front-axle.bracket-hole
          - drill: front-arm.eyes
          #        ^^^^^^^^^^^^^^ error[unknown-joint]: did you mean "eye"?
          - drill: frame.tow-hol
          #        ^^^^^^^^^^^^^ error[unknown-joint]: did you mean "tow-hole"?
          - unbolt: frame
          #         ^^^^^ error[wrong-target]
`,
        FILES,
        HEAD,
      ),
      checkProject,
    );
  });

  it('is all that a file may say of the frame', () => {
    expectFindings(
      fixture(
        '',
        `
# file: v.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
parts:
  frame: { kind: bracket, holes: { a: {} }, joints: { b: {} } }
  #        ^^^^ error[not-of-structure]: "frame" is the vehicle's own frame: its holes and faces can be told here, not "kind".
  #                                         ^^^^^^ error[not-of-structure]
  front: {}
  #^^^^ error[duplicate-name]
`,
      ).replace('    steps:\n', '    steps: []\n'),
      checkProject,
    );
  });
});

describe('a name written once that is nearly another, without a vehicle file', () => {
  it('is a warning with the other name', () => {
    expectFindings(
      fixture(`
      - do:
          - unbolt: front-shock
          - remove: [front-shock.lower-bolt, front-shock.lower-bolt]
          - start: front-shok.lower-bolt
          #        ^^^^^^^^^^^^^^^^^^^^^ warning[unknown-name]: "front-shok" is named only here; did you mean "front-shock"?
          - snug: front-shock.lower-blot
          #       ^^^^^^^^^^^^^^^^^^^^^^ warning[unknown-name]: did you mean "lower-bolt"?
`),
      checkProject,
    );
    const model = modelOf(
      '      - do: [{ unbolt: arm.bolt-x }, { loosen: front-shock.eye }, { torque: [front-shock.eye] }, { snug: front-shok.eye }]',
    );
    expect(model.findings.map((finding) => finding.fixes[0]?.edits[0]?.text)).toEqual(['front-shock.eye']);
  });

  it('never between fellows', () => {
    const names = [
      'front-arm',
      'rear-arm',
      'upper-arm',
      'lower-arm',
      'inlet-hose',
      'outlet-hose',
      'bolt-1',
      'bolt-2',
      'pin-a',
      'pin-b',
    ];
    for (const name of names) {
      const others = names.filter((other) => other !== name);
      const model = modelOf(`      - do: [{ unbolt: [${[...others, ...others, name].join(', ')}] }]`);
      expect(model.findings).toEqual([]);
    }
  });

  it('counts what a kit declares as the better name', () => {
    const model = modelOf(
      '      - do: [{ fit: lift-coill }]',
      '# file: k.kit.yaml\nkitproof: kit/1\nname: K\nparts: { lift-coil: {} }',
      'kit: k.kit.yaml',
    );
    expect(model.findings.map(({ rule, severity }) => [rule, severity])).toContainEqual([
      'unknown-name',
      'warning',
    ]);
  });
});
