import { describe, expect, it } from 'vitest';
import { expectFindings, parseFixture } from '../support/fixture';
import { bind, checkProject, partOf } from './support';

const check = (fixture: string) => expectFindings(fixture, checkProject);

const GUIDE = `
# file: guide.install.yaml
kitproof: install/1
title: T
vehicle: v.vehicle.yaml
kit: k.kit.yaml
sections: [{ title: S, steps: [{ do: { check: frame } }] }]
`;

describe('names in vehicle and kit files', () => {
  it('each slip is told once at its value, with the name that was meant', () => {
    check(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
parts:
  rear-axle: { kind: axle }
  rear-shock: { kind: shokc, joins: [fram, rear-axel], behind: gaurd }
  #                   ^^^^^ error[unknown-part-kind]: did you mean "shock"?
  #                                  ^^^^ error[unknown-name]: did you mean "frame"?
  #                                        ^^^^^^^^^ error[unknown-name]: did you mean "rear-axle"?
  #                                                            ^^^^^ error[unknown-name]: did you mean "guard"?
  guard: { joints: { bolt: { inside: rear-axel } } }
  #                                  ^^^^^^^^^ error[unknown-name]: did you mean "rear-axle"?
  bracket: { under: [gaurd], like: gaurd }
  #                  ^^^^^ error[unknown-name]: did you mean "guard"?
  #                                ^^^^^ error[unknown-name]: did you mean "guard"?
# file: k.kit.yaml
kitproof: kit/1
name: K
for: Morhen
#    ^^^^^^ error[unknown-name]: did you mean "Moorhen"?
parts:
  new-shock: { replaces: rear-shok, joins: [frane] }
  #                      ^^^^^^^^^ error[unknown-name]: did you mean "rear-shock"?
  #                                         ^^^^^ error[unknown-name]: did you mean "frame"?
hardware:
  nut: { for: [rear-shok.nut, guard.blot] }
  #            ^^^^^^^^^^^^^ error[unknown-name]: did you mean "rear-shock"?
  #                           ^^^^^^^^^^ error[unknown-joint]: did you mean "bolt"?
${GUIDE}`);
  });

  it('a kit that names no vehicle is held against those at hand', () => {
    check(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
parts: { rear-shock: { kind: shock } }
# file: k.kit.yaml
kitproof: kit/1
name: K
parts: { new-shock: { replaces: rear-shok } }
#                               ^^^^^^^^^ error[unknown-name]: did you mean "rear-shock"?
${GUIDE}`);
  });

  it('a word of a kind stands for the kind, in parts and in kinds', () => {
    const fixture = `
# file: v.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
kinds: { remote-shock: { kind: shock-absorber } }
parts:
  front-shock: { kind: damper }
  rear-shock: { kind: remote-shock }
  tow-shock: { kind: heavy-duty-damper }
  #                  ^^^^^^^^^^^^^^^^^ error[unknown-part-kind]: did you mean "shock"?
# file: k.kit.yaml
kitproof: kit/1
name: K
for: Moorhen
${GUIDE}`;
    check(fixture);
    const { model } = bind(parseFixture(fixture).files);
    expect(partOf(model, 'front-shock')).toMatchObject({ kind: 'shock', sided: true });
    expect(partOf(model, 'rear-shock').kinds).toEqual(['remote-shock', 'shock']);
  });
});

describe('what limits the drop of an axle that does not say it', () => {
  const limits = (parts: string, name: string, kit = '', steps = '[]') => {
    const { model } = bind(
      parseFixture(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
parts: { ${parts} }
# file: k.kit.yaml
kitproof: kit/1
name: K
for: Moorhen
parts: { ${kit} }
# file: guide.install.yaml
kitproof: install/1
title: T
vehicle: v.vehicle.yaml
kit: k.kit.yaml
sections: [{ title: S, steps: ${steps} }]
`).files,
    );
    return partOf(model, name).limitedBy.map((chain) =>
      chain.map((one) => (one.type === 'joint' ? one.full : one.name)).join('+'),
    );
  };
  const SHOCKS =
    'fs: { kind: shock, joins: [frame, front-axle] }, link: { kind: bracket, joins: [front-axle] }';

  it('is what joins it and limits the drop, and what replaces that', () => {
    expect(limits(`front-axle: { kind: axle }, ${SHOCKS}`, 'front-axle')).toEqual(['fs']);
    expect(
      limits(
        `front-axle: { kind: axle }, ${SHOCKS}`,
        'front-axle',
        'long: { kind: bracket, replaces: fs }, longer: { replaces: long }',
      ),
    ).toEqual(['fs', 'long', 'longer']);
  });

  it('is what it says where it says it, nothing too', () => {
    expect(limits(`front-axle: { kind: axle, limited-by: [link] }, ${SHOCKS}`, 'front-axle')).toEqual([
      'link',
    ]);
    expect(limits(`front-axle: { kind: axle, limited-by: [] }, ${SHOCKS}`, 'front-axle')).toEqual([]);
  });

  it('is what the guide implies beside that', () => {
    expect(
      limits(`front-axle: { kind: axle }, ${SHOCKS}`, 'front-axle', '', '[{ do: { unbolt: front-damper } }]'),
    ).toEqual(['fs', 'front-damper']);
  });
});

describe('joints of a kit part that replaces another', () => {
  const joints = (old: string, own: string) => {
    const { model } = bind(
      parseFixture(`
# file: v.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
kinds: { shock: { joints: { pin: {} } } }
parts: { old: { kind: shock, joints: ${old} } }
# file: k.kit.yaml
kitproof: kit/1
name: K
for: Moorhen
parts: { new: { replaces: old${own} } }
# file: guide.install.yaml
kitproof: install/1
title: T
vehicle: v.vehicle.yaml
kit: k.kit.yaml
sections: []
`).files,
    );
    return [...partOf(model, 'new').joints.keys()];
  };

  it('are its own alone where none has the name of an old one, else all of both', () => {
    expect(joints('{ bolt: {} }', '')).toEqual(['pin', 'bolt']);
    expect(joints('{ bolt: {} }', ', joints: { stud: {}, nut: {} }')).toEqual(['stud', 'nut']);
    expect(joints('{ bolt: {} }', ', joints: { stud: {}, bolt: {} }')).toEqual(['pin', 'bolt', 'stud']);
    expect(joints('{ bolt: {} }', ', kind: shock, joints: { stud: {} }')).toEqual(['stud']);
  });
});
