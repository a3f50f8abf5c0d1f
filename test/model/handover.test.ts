/** Two guides of one job: what the second says must fit what the first does. */

import { describe, expect, it } from 'vitest';
import { expectChecked } from '../support/marked';

const FILES = `
# file: wren.vehicle.yaml
kitproof: vehicle/1
name: Wren
traits: { wheelbase: [short, long], load: { from: 0 kg, to: 900 kg } }
parts:
  guard: { kind: bracket, sided: true, mass: 2 kg, joints: { bolt: { torque: 22 N·m } } }
  shield: { like: guard }
lines:
  lamp-plug: { kind: plug, sided: true }
# file: badge.kit.yaml
kitproof: kit/1
name: Badges
for: Wren
parts:
  badge: { kind: bracket, mass: 1 kg, joints: { screw: { torque: 2 N·m } } }
  crest: { like: badge }
`;
const first = (head: string, steps = '      - do: [{ unbolt: guard }]\n') => `
# file: first.install.yaml
kitproof: install/1
title: First
vehicle: wren.vehicle.yaml
${head}sections:
  - title: S
    steps:
${steps}`;
const second = (head: string, steps: string) => `
# file: second.install.yaml
kitproof: install/1
title: Second
${head}sections:
  - title: S
    steps:
${steps}`;
const GUARD_ON = '      - do: [{ bolt-up: guard }, { torque: guard }]\n';
const HEAD = 'vehicle: wren.vehicle.yaml\nfollows: first.install.yaml\n';

describe('given: beside follows:', () => {
  it('may say what the guide before leaves, or what that has nothing to do with', async () => {
    await expectChecked(
      FILES +
        first('leaves: { guard: off }\n') +
        second(`${HEAD}given: { guard: off, shield: off }\n`, GUARD_ON),
    );
  });

  it('cannot say anything else of it', async () => {
    const { findings } = await expectChecked(
      FILES +
        first('leaves: { guard: off }\n') +
        second(
          `${HEAD}given:
  guard: fitted
# ^^^^^^^^^^^^^ error[given-not-left]: "first.install.yaml" leaves guard off, and here it is given as fitted.
`,
          `      - do: [{ unbolt: guard }]\n${GUARD_ON}`,
        ),
    );
    expect(findings[0]!.related).toMatchObject([
      { place: { uri: '/project/first.install.yaml' }, message: 'leaves guard off' },
    ]);
  });

  it('cannot say that a thing is open which the guide before worked on and closed', async () => {
    await expectChecked(
      FILES +
        first(
          '',
          `      - do: [{ unbolt: guard }, { disconnect: lamp-plug }]
      - do: [{ bolt-up: guard }, { torque: guard }, { connect: lamp-plug }]
`,
        ) +
        second(
          `${HEAD}given: { guard: off, lamp-plug: disconnected }
#        ^^^^^^^^^^ error[given-not-left]: "first.install.yaml" works on guard and does not leave it off
#                    ^^^^^^^^^^^^^^^^^^^^^^^ error[given-not-left]: works on lamp-plug and does not leave it disconnected
`,
          `${GUARD_ON}      - do: [{ connect: lamp-plug }]\n`,
        ),
    );
  });

  it('may say that it is closed, or scrapped, as that has it', async () => {
    await expectChecked(
      FILES +
        first(
          '',
          `      - do: [{ unbolt: guard }, { discard: guard }]
      - do: [{ disconnect: lamp-plug }]
      - do: [{ connect: lamp-plug }]
`,
        ).replace('error', '') +
        second(
          `${HEAD}given: { guard: discarded, lamp-plug: connected }\n`,
          '      - do: [{ check: lamp-plug }]\n',
        ),
    );
  });
});

describe('the vehicle', () => {
  it('of both is one', async () => {
    await expectChecked(
      `${FILES}${first('')
        .replace('wren.vehicle', 'moorhen.vehicle')
        .replace('unbolt: guard', 'check: guard')}${second(
        `vehicle: wren.vehicle.yaml
follows: first.install.yaml
#        ^^^^^^^^^^^^^^^^^^ error[follows-other-vehicle]: "first.install.yaml" is for the Moorhen, and this guide is for the Wren.
`,
        '      - do: [{ check: guard }]\n',
      )}
# file: moorhen.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
`,
    );
  });

  it('in the second is one that the first covers', async () => {
    const check = await expectChecked(
      `${FILES}${first('covers: { wheelbase: short }\nleaves: { guard: off }\n')}${second(
        `vehicle: wren.vehicle.yaml
follows: first.install.yaml
covers: { wheelbase: any }
#^^^^^ warning[follows-uncovered]: This guide covers vehicles that "first.install.yaml", which it follows, does not cover.
`,
        GUARD_ON,
      )}`,
    );
    expect(check.findings[0]!.variants).toEqual([{ wheelbase: ['long'] }]);
    await expectChecked(
      `${FILES}${first('covers: { wheelbase: short }\nleaves: { guard: off }\n')}${second(
        `${HEAD}covers: { wheelbase: short }\n`,
        GUARD_ON,
      )}`,
    );
    await expectChecked(
      `${FILES}${first('when: { load: { below: 300 kg } }\nleaves: { guard: off }\n')}${second(
        `vehicle: wren.vehicle.yaml
follows: first.install.yaml
#        ^^^^^^^^^^^^^^^^^^ warning[follows-uncovered]: This guide covers vehicles that "first.install.yaml"
`,
        GUARD_ON,
      )
        .replace('#        ^', '#^^^^^^ warning[follows-uncovered]\n#        ^')
        .replace(/^# {8}\^.*\n/m, '')}`,
    );
  });
});

describe('the kit', () => {
  const fits = first(
    'kit: badge.kit.yaml\nleaves: { crest: boxed }\n',
    '      - do: [{ bolt-up: badge }, { torque: badge }]\n',
  );
  it('of the first is named in the second, whose state it is', async () => {
    await expectChecked(
      FILES +
        fits +
        second(
          `vehicle: wren.vehicle.yaml
follows: first.install.yaml
#        ^^^^^^^^^^^^^^^^^^ warning[follows-other-kit]: "first.install.yaml" works on badge and crest, which neither vehicle nor kit of this guide has: name its kit here too.
`,
          '      - do: [{ check: guard }]\n',
        ),
    );
    await expectChecked(
      FILES +
        fits +
        second(`kit: badge.kit.yaml\n${HEAD}`, '      - do: [{ bolt-up: crest }, { torque: crest }]\n'),
    );
  });

  it('is no question without a vehicle file', async () => {
    await expectChecked(
      FILES +
        fits +
        second('follows: first.install.yaml\nleaves: { crest: boxed }\n', '      - do: [{ check: guard }]\n'),
    );
  });
});

describe('what is owed afterwards', () => {
  it('names what there is', async () => {
    await expectChecked(
      `${FILES}
# file: second.install.yaml
kitproof: install/1
title: Second
vehicle: wren.vehicle.yaml
owes:
  - { check: gaurd.bolt, after: 80 km }
  #          ^^^^^^^^^^ error[unknown-name]
  - { check: guard.blot, after: 80 km }
  #          ^^^^^^^^^^ error[unknown-joint]
  - { check: toe, before: road }
sections: []
`,
    );
  });
});

describe('what is left', () => {
  it('names what there is, in a state that it can have and has', async () => {
    await expectChecked(
      FILES +
        first(
          `leaves:
  gaurd: off
# ^^^^^ error[unknown-name]
  lamp-plug: off
  #          ^^^ error[unknown-state]
  shield: off
# ^^^^^^^^^^^ info[leaves-not-so]
`,
        ),
    );
  });
});
