/** What no variant reaches, and conditions that say nothing. */

import { describe, expect, it } from 'vitest';
import { expectChecked } from '../support/marked';

const VEHICLE = `
# file: moorhen.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
traits: { wheelbase: [short, middle, long], lockers: [none, fitted], load: { from: 0 kg, to: 900 kg } }
parts:
  guard: { kind: bracket, mass: 2 kg, joints: { bolt: { torque: 22 N·m } } }
lines:
  locker-plug: { kind: plug, when: { lockers: fitted } }
`;
const guide = (steps: string, head = '', sections = '') => `${VEHICLE}
# file: g.install.yaml
kitproof: install/1
title: G
vehicle: moorhen.vehicle.yaml
${head}sections:
  - title: S
    steps:
${steps}${sections}`;

describe('what no variant reaches', () => {
  it('is told at the outermost condition that makes it so, once', async () => {
    await expectChecked(
      guide(
        `      - when: { lockers: fitted }
      #         ^^^^^^^^^^^^^^^ warning[never-done]: The guide covers no such vehicle, so this step is never done.
        do: [{ check: guard, when: { lockers: fitted } }]
      - when: { wheelbase: long }
        do: [{ check: guard, when: { wheelbase: [short, middle] } }]
        #                            ^^^^^^^^^^^^^^^^^^^^^^^^^^ warning[never-done]: What stands around this leaves no such vehicle, so this operation is never done.
      - when: { wheelbase: long, load: { below: 100 kg } }
        do: [{ check: guard, when: { load: { at-least: 100 kg } } }]
        #                            ^^^^^^^^^^^^^^^^^^^^^^^^^^ warning[never-done]: What stands around
`,
        'covers: { lockers: none }\n',
        `  - title: T
    when: [{ lockers: fitted, wheelbase: long }, { lockers: fitted, load: { below: 10 kg } }]
    #     ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning[never-done]: so this section is never done.
    steps:
      - when: { lockers: fitted }
        do: [{ check: guard }]
`,
      ),
    );
  });

  it('is the whole guide, and then it is not counted as checked', async () => {
    const { coverage } = await expectChecked(
      guide(
        '      - do: [{ check: guard }]\n',
        `covers: { lockers: none }
when: { lockers: fitted }
#       ^^^^^^^^^^^^^^^ warning[never-done]: so the guide is never used.
`,
      ),
    );
    expect(coverage).toMatchObject({ steps: 1, checkedSteps: 0 });
  });

  it('is what the vehicles that come there do not have', async () => {
    await expectChecked(
      guide(`      - when: { lockers: none }
        do: [{ disconnect: [locker-plug] }, { check: [guard, locker-plug] }]
        #                   ^^^^^^^^^^^ warning[never-done]: No vehicle that this is done for has locker-plug
      - { when: { lockers: none }, do: [{ unclip: locker-plug }, { clip: locker-plug }] }
      #         ^^^^^^^^^^^^^^^^^ warning[never-done]: No vehicle that this is done for has locker-plug, so it is never done.
      - do: [{ disconnect: locker-plug }]
      - { when: { wheelbase: long }, do: [{ connect: locker-plug }] }
      - { when: { not: { wheelbase: long } }, do: [{ connect: locker-plug }] }
`),
    );
  });

  it('is what waits for a step that is done elsewhere', async () => {
    await expectChecked(
      guide(`      - { id: plug, when: { lockers: fitted }, do: [{ check: locker-plug }] }
      - when: { lockers: none }
        do: [{ check: guard, when: { done: plug } }]
        #                            ^^^^^^^^^^ warning[never-done]
      - { id: look, optional: true, do: [{ check: guard }] }
      - { when: { done: look }, do: [{ check: guard }] }
      - { when: { not: { done: look } }, do: [{ check: guard }] }
`),
    );
  });

  it('is what nothing can be, and a joint that is not on these', async () => {
    await expectChecked(
      guide(`      - when: { load: { at-least: 70 kg, below: 60 kg } }
      #         ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning[never-done]: No vehicle can be so, so this step is never done.
        do: [{ check: guard }]
      - when: []
      #       ^^ warning[never-done]: No vehicle can be so
        do: [{ check: guard }]
      - when: { wheelbase: short }
        do: [{ check: guard }, { torque: guard.clip }]
        #                                ^^^^^^^^^^ warning[never-done]: No vehicle that this is done for has guard.clip
`).replace(
        'bolt: { torque: 22 N·m } }',
        'bolt: { torque: 22 N·m }, clip: { torque: 3 N·m, when: { wheelbase: long } } }',
      ),
    );
  });

  it('is a duty that is never owed', async () => {
    await expectChecked(
      guide(
        '      - do: [{ check: guard }]\n',
        `covers: { wheelbase: [short, long] }
owes:
  - { check: guard.bolt, after: 80 km, when: { wheelbase: middle } }
  #                                            ^^^^^^^^^^^^^^^^^ warning[never-done]: so this is never owed.
  - { check: guard, after: 80 km, when: { wheelbase: long } }
`,
      ),
    );
  });

  it('is nothing where it is not known what is covered, or asked', async () => {
    await expectChecked(
      guide(
        `      - { when: { lockers: fitted }, do: [{ check: guard }] }
      - { when: { lockers: [fited] }, do: [{ check: guard, when: { lockers: none } }] }
      #                     ^^^^^ error[unknown-trait-value]
`,
        `covers: { lockers: [nine] }
#                   ^^^^ error[unknown-trait-value]
`,
      ),
    );
  });

  it('may be waived', async () => {
    const { coverage } = await expectChecked(
      guide(
        `      - when: { lockers: fitted }
        waive: { rule: never-done, because: The next revision covers them., by: A. Fitter, until: 2026-12-31 }
        do: [{ check: guard }]
`,
        'covers: { lockers: none }\n',
      ),
    );
    expect(coverage).toMatchObject({ waived: 1, checkedSteps: 0 });
  });
});

describe('covers', () => {
  it.each([
    ['covers: { lockers: [] }', '#         ^^^^^^^^^^^'],
    ['covers: { lockers: any, load: [] }', '#                       ^^^^^^^^'],
  ])('that leaves nothing is told, and then nothing counts as checked: %s', async (covers, carets) => {
    const mark = `${carets} error[covers-nothing]: This leaves no vehicle that the guide covers, so nothing in it was checked.`;
    const { coverage } = await expectChecked(
      guide('      - do: [{ loosen: guard.bolt }]\n', `${covers}\n${mark}\n`),
    );
    expect(coverage).toMatchObject({ steps: 1, checkedSteps: 0 });
  });

  it('names traits and values that there are', async () => {
    await expectChecked(
      guide(
        '      - do: [{ check: guard }]\n',
        `covers:
  wheelbsae: short
# ^^^^^^^^^ error[unknown-trait]: did you mean "wheelbase"?
  lockers: [none, fited]
  #               ^^^^^ error[unknown-trait-value]: lockers is never "fited"
  load: heavy
  #     ^^^^^ error[unknown-trait-value]
`,
      ),
    );
  });
});

describe('a condition that says nothing', () => {
  it('is told where every vehicle that comes there is so', async () => {
    await expectChecked(
      guide(
        `      - { when: { lockers: none }, do: [{ check: guard }] }
      #         ^^^^^^^^^^^^^^^^^ info[always-so]: Every vehicle that comes here is so: the condition says nothing.
      - { when: { lockers: none, wheelbase: long }, do: [{ check: guard, when: { wheelbase: long } }] }
      #           ^^^^^^^^^^^^^ info[always-so]
      #                                                                        ^^^^^^^^^^^^^^^^^^^ info[always-so]
      - { when: { wheelbase: any, load: { below: 100 kg } }, do: [{ check: guard }] }
      #           ^^^^^^^^^^^^^^ info[always-so]
      - { when: [{ wheelbase: long }, { wheelbase: [short, middle] }], do: [{ check: guard }] }
      #         ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ info[always-so]
`,
        'covers: { lockers: none }\n',
      ),
    );
  });

  it('is an alternative that is never the case', async () => {
    await expectChecked(
      guide(
        `      - { when: [{ wheelbase: long }, { lockers: fitted }], do: [{ check: guard }] }
      #                                 ^^^^^^^ info[always-so]: this alternative is never the case
`,
        'covers: { lockers: none }\n',
      ),
    );
  });

  it('is no matter of a step that is optional, or branches on what was found', async () => {
    await expectChecked(
      guide(`      - { id: look, do: [{ measure: play, expect: { below: 2 mm }, else: worn }] }
      - { when: { found: worn }, do: [{ check: guard }] }
      - { when: { not: { found: worn } }, do: [{ check: guard }] }
      - { id: more, optional: true, do: [{ check: guard }] }
      - { when: { done: more, found: worn }, do: [{ check: guard }] }
`),
    );
  });

  it('is told of in a vehicle and in a kit', async () => {
    await expectChecked(`
# file: moorhen.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
traits: { wheelbase: [short, long], lockers: [none, fitted] }
parts:
  guard: { when: { wheelbase: [short, long] } }
  #              ^^^^^^^^^^^^^^^^^^^^^^^^^^^^ info[always-so]: Every vehicle is so
  shield: { when: { wheelbase: short, not: { wheelbase: short } } }
  #               ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning[never-there]: No vehicle is so, so this is never there.
# file: k.kit.yaml
kitproof: kit/1
name: K
for: Moorhen
options: { ball: [fixed, removable] }
parts:
  neck: { when: { ball: [fixed, removable] } }
  #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^ info[always-so]
  cap: { when: { ball: fixed, lockers: none } }
`);
  });
});

describe('a use', () => {
  const other = (section: string) => `
# file: other.install.yaml
kitproof: install/1
title: Other
vehicle: moorhen.vehicle.yaml
sections:
  - title: Plug
${section}
`;

  it('may leave out what a section has for others', async () => {
    await expectChecked(
      guide(
        '      - do: [{ use: { guide: other.install.yaml, section: Plug } }]\n',
        'covers: { lockers: none }\n',
      ) +
        other(`    steps:
      - { when: { lockers: fitted }, do: [{ check: locker-plug }] }
      - { when: { lockers: none }, do: [{ check: guard }] }`),
    );
  });

  it('of a section that has nothing for the vehicles that come there is told', async () => {
    await expectChecked(
      guide(
        `      - do: [{ use: { guide: other.install.yaml, section: Plug } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning[never-done]: In "Plug": nothing of it is done here.
`,
        'covers: { lockers: none }\n',
      ) +
        other(`    when: { lockers: fitted }
    steps:
      - { do: [{ check: locker-plug }] }
      - { when: { wheelbase: long }, do: [{ check: guard }] }`),
    );
    await expectChecked(
      guide(`      - do: [{ use: { guide: other.install.yaml, section: Plug }, side: left }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning[never-done]: In "Plug": nothing of it is done here.
`) +
        other(`    side: right
    steps:
      - { do: [{ check: guard }] }`),
    );
  });
});

describe('a branch on what was found', () => {
  it('is measured in every variant that takes it', async () => {
    const { findings } = await expectChecked(
      guide(`      - { when: { wheelbase: long }, do: [{ measure: play, expect: { below: 2 mm }, else: worn }] }
      - { when: { found: worn }, do: [{ check: guard }] }
      #                  ^^^^ info[found-without-measure]
      - { when: { found: worn, wheelbase: long }, do: [{ check: guard }] }
`),
    );
    expect(findings[0]!.variants).toEqual([{ wheelbase: ['short', 'middle'] }]);
    await expectChecked(
      guide(`      - { id: try, optional: true, do: [{ measure: play, expect: { below: 2 mm }, else: worn }] }
      - { when: { found: worn, done: try }, do: [{ check: guard }] }
      - { when: { wheelbase: long }, do: [{ check: guard, when: { found: worn } }] }
      #                                                                  ^^^^ info[found-without-measure]
`),
    );
  });
});
