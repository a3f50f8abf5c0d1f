import { describe, expect, it } from 'vitest';
import { parseFixture } from '../support/fixture';
import { bind, jointOf, lineOf, partOf } from './support';

const bound = (steps: string, head = '', more = '') =>
  bind(
    parseFixture(
      `${more}\n# file: g.install.yaml\nkitproof: install/1\ntitle: T\n${head}\nsections:\n  - title: S\n    steps:\n${steps}`,
    ).files,
  ).model;

describe('a guide without a vehicle file', () => {
  it('declares names by use and guesses kinds from the last words', () => {
    const model = bound(`
      - do:
          - unbolt: [front-wheel, left-rear-road-wheel]
          - remove: front-shock-absorber.lower-bolt
          - disconnect: front-brake-hose
          - remove: thing
          - support: front-axle
          - free: tie-rod.taper
          - drill: bracket.hole
          - coat: bracket.edge
`);
    expect(model.findings).toEqual([]);
    expect(model.withoutVehicle).toBe(true);
    expect(model.steps[0]!.checked).toBe(true);
    expect(partOf(model, 'front-wheel')).toMatchObject({
      kind: 'wheel',
      origin: 'implied',
      declared: null,
      sided: true,
    });
    expect(partOf(model, 'left-rear-road-wheel').kind).toBe('wheel');
    expect(partOf(model, 'front-shock-absorber').kind).toBe('shock');
    expect(jointOf(model, 'front-shock-absorber.lower-bolt')).toMatchObject({
      bushed: true,
      declared: null,
      bolts: 1,
    });
    expect(lineOf(model, 'front-brake-hose')).toMatchObject({
      kind: 'brake-hose',
      lineType: 'hydraulic',
      ends: [''],
    });
    expect(partOf(model, 'thing')).toMatchObject({ kind: null, kinds: [], sided: false });
    expect([...partOf(model, 'tie-rod').ends.keys()]).toEqual(['taper']);
    expect([...partOf(model, 'bracket').holes.keys()]).toEqual(['hole']);
    expect([...partOf(model, 'bracket').faces.keys()]).toEqual(['edge']);
    expect(partOf(model, 'front-axle').limitedBy).toEqual([[partOf(model, 'front-shock-absorber')]]);
  });

  it('is sided where any operation on it stands under a side', () => {
    const model = bound(`
      - do: [{ remove: link.bolt }, { remove: arm.bolt }]
      - side: left
        do: [{ start: link.bolt }]
      - do: [{ unbolt: bar, side: each }]
`);
    expect(['link', 'arm', 'bar'].map((name) => partOf(model, name).sided)).toEqual([true, false, true]);
    expect(partOf(model, 'link').instances).toHaveLength(2);
  });

  it('knows what starts off the vehicle: what is first fitted, started, routed or connected', () => {
    const model = bound(
      `
      - do: [{ fit: spacer }, { remove: arm }, { fit: arm }, { route: loom }, { start: clamp.bolt }, { check: guard }, { fit: guard }, { fit: cover }, { connect: front-plug }]
`,
      'given: { cover: off }',
    );
    expect(
      ['spacer', 'arm', 'loom', 'clamp', 'guard', 'cover', 'front-plug'].map(
        (name) => model.things.get(name)!.startsOff,
      ),
    ).toEqual([true, false, true, true, false, true, true]);
  });

  it('gives a part that is only ever tightened as a whole one joint', () => {
    const model = bound(`      - do: [{ unbolt: skid-plate }, { torque: skid-plate, to: maker }]\n`);
    expect(model.findings).toEqual([]);
    expect([...partOf(model, 'skid-plate').joints.keys()]).toEqual(['bolts']);
    expect(model.steps[0]!.operations[1]!.figure).toEqual([{ set: 1, value: 'maker' }]);
  });

  it('keeps to the joint that is named, be it in a check or in what is owed', () => {
    const model = bound(
      `      - do: [{ bolt-up: front-wheel }, { torque: front-wheel, to: maker }, { bolt-up: skid-plate }, { check: skid-plate.bolt }]\n`,
      'owes: [{ check: front-wheel.nut, after: 80 km }]',
    );
    expect([...partOf(model, 'front-wheel').joints.keys()]).toEqual(['nut']);
    expect([...partOf(model, 'skid-plate').joints.keys()]).toEqual(['bolt']);
    expect(model.owes[0]!.target.type).toBe('joint');
  });

  it('takes the word of verbs that agree on part or line, else that of the kind', () => {
    const model = bound(
      `      - do: [{ unclip: widget }, { remove: front-plug }, { unclip: rear-plug }, { remove: rear-plug }, { hold: wheel-lead }, { support: side-bracket }]\n`,
    );
    const types = ['widget', 'front-plug', 'rear-plug'].map((name) => model.things.get(name)!.type);
    expect(types).toEqual(['line', 'part', 'line']);
    expect(model.findings).toEqual([]);
  });

  it('takes traits from the conditions, with others beside them', () => {
    const model = bound(
      `
      - when: { engine: diesel }
        do: [{ unbolt: guard }]
      - when: { lift: { above: 50 mm } }
        do: [{ unbolt: guard }]
      - when: { cab: single }
        do: [{ unbolt: guard }]
`,
      'covers: { cab: [single, double] }',
    );
    expect(model.findings).toEqual([]);
    const values = new Map(model.world.variables.map((variable) => [variable.name, variable.values]));
    expect(values.get('engine')).toEqual(['diesel', 'other']);
    expect(values.get('cab')).toEqual(['single', 'double']);
    expect(values.get('lift')).toHaveLength(2);
    expect(model.steps.map((step) => step.guard === 0 || step.guard === 1)).toEqual([false, false, false]);
    expect(model.universe).toBe(1);
  });

  it('knows parts that a kit replaces from the kit', () => {
    const model = bound(
      `      - do: [{ remove: front-coil }, { fit: lift-coil }, { torque: lift-shock.eye }]\n`,
      'kit: k.kit.yaml',
      `
# file: k.kit.yaml
kitproof: kit/1
name: K
parts: { lift-coil: { replaces: front-coil, sided: true }, lift-shock: { kind: shock, replaces: front-shock } }`,
    );
    expect(model.findings).toEqual([]);
    expect(partOf(model, 'lift-coil').replaces).toEqual([partOf(model, 'front-coil')]);
    expect(partOf(model, 'front-coil')).toMatchObject({
      origin: 'implied',
      kind: 'coil-spring',
      sided: true,
    });
    expect(jointOf(model, 'lift-shock.eye').takesOver).toBeNull();
  });
});
