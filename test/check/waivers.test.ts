import { describe, expect, it } from 'vitest';
import { expectChecked } from '../support/marked';

const VEHICLE = `
# file: m.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted] }
parts:
  guard: { kind: bracket, sided: true, mass: 2 kg, joints: { bolt: { torque: 22 N·m } } }
  shield: { like: guard }
lines:
  locker-plug: { kind: plug, when: { lockers: fitted } }
`;
const guide = (steps: string, head = '', sections = '') => `
# file: g.install.yaml
kitproof: install/1
title: G
vehicle: m.vehicle.yaml
${head}sections:
  - title: S
    id: s
    steps:
${steps}${sections}`;
const WHY = 'because: Tightened at the next station., by: A. Fitter, until: 2026-12-31';

describe('a waiver', () => {
  it.each([
    ['operation', `      - do: [{ loosen: guard.bolt, waive: { rule: left-loose, ${WHY} } }]\n`, ''],
    ['step', `      - waive: [{ rule: left-loose, ${WHY} }]\n        do: [{ loosen: guard.bolt }]\n`, ''],
    ['guide', '      - do: [{ loosen: guard.bolt }]\n', `waive: { rule: left-loose, ${WHY} }\n`],
  ])('on an %s hides what its rule finds there, and is counted', async (_where, steps, head) => {
    const { coverage, waived } = await expectChecked(VEHICLE + guide(steps, head));
    expect(coverage.waived).toBe(1);
    expect(waived).toMatchObject([
      {
        finding: { rule: 'left-loose', item: 'guard.bolt', sides: ['left', 'right'] },
        waiver: { because: 'Tightened at the next station.', by: 'A. Fitter', until: '2026-12-31' },
      },
    ]);
  });

  it('on a section covers all of it, and no more', async () => {
    const { coverage } = await expectChecked(
      `${VEHICLE}${guide(
        '      - do: [{ check: guard }]\n',
        '',
        `  - title: T
    waive: { rule: left-loose, ${WHY} }
    steps:
      - do: [{ loosen: guard.bolt, side: left }]
      - do: [{ loosen: guard.bolt, side: right }]
      - do: [{ disconnect: locker-plug }]
      #        ^^^^^^^^^^^^^^^^^^^^^^^ warning[left-disconnected]
  - title: U
    steps:
      - do: [{ loosen: nose-guard.bolt }]
      #        ^^^^^^^^^^^^^^^^^^^^^^^ error[left-loose]
`,
      )}`,
    );
    expect(coverage.waived).toBe(2);
  });

  it('is needless around another that is enough', async () => {
    await expectChecked(
      `${VEHICLE}${guide(
        `      - do: [{ loosen: guard.bolt, waive: { rule: left-loose, ${WHY} } }]\n`,
        `waive: { rule: left-loose, ${WHY} }
#              ^^^^^^^^^^ warning[unused-waiver]: Nothing here breaks "left-loose"
`,
      )}`,
    );
  });

  it('holds on its last day, and is told when it has run out', async () => {
    const steps = `      - do:
          - loosen: guard.bolt
            waive: { rule: left-loose, because: So it is., by: A. Fitter, until: 2026-03-20 }
`;
    await expectChecked(VEHICLE + guide(steps), { today: '2026-03-20' });
    await expectChecked(
      VEHICLE +
        guide(`      - do:
          - loosen: guard.bolt
          # ^^^^^^^^^^^^^^^^^^ error[left-loose]
            waive: { rule: left-loose, because: So it is., by: A. Fitter, until: 2026-03-20 }
            #                                                                    ^^^^^^^^^^ warning[waiver-expired]: This waiver ran out on 2026-03-20; what it accepted counts again.
`),
      { today: '2026-03-21' },
    );
    await expectChecked(
      VEHICLE +
        guide(`      - do:
          - check: guard
            waive: { rule: left-loose, because: So it is., by: A. Fitter, until: 2026-03-20 }
            #                                                                    ^^^^^^^^^^ warning[waiver-expired]: ran out on 2026-03-20, and nothing here breaks its rule any more.
`),
      { today: '2026-03-21' },
    );
  });

  it('of nothing is told: a rule that is not there, is off, or is not broken', async () => {
    await expectChecked(
      VEHICLE +
        guide(`      - do: [{ check: guard }]
        waive:
          - { rule: left-lose, ${WHY} }
          #         ^^^^^^^^^ warning[unknown-waiver]: There is no rule "left-lose", so this waives nothing; did you mean "left-loose"?
          - { rule: wheel-nuts-in-star-order, ${WHY} }
          #         ^^^^^^^^^^^^^^^^^^^^^^^^ warning[unused-waiver]: The rule "wheel-nuts-in-star-order" is off here
          - { rule: left-loose, ${WHY} }
          #         ^^^^^^^^^^ warning[unused-waiver]: Nothing here breaks "left-loose"
          - { rule: some-thing-else, ${WHY} }
          #         ^^^^^^^^^^^^^^^ warning[unknown-waiver]: so this waives nothing.
`),
    );
  });

  it('on what is given waives nothing: that is not judged', async () => {
    await expectChecked(
      VEHICLE +
        guide(
          '      - do: [{ torque: guard.bolt }]\n',
          `given:
  - loosen: guard.bolt
    waive: { rule: left-loose, ${WHY} }
    #              ^^^^^^^^^^ warning[unused-waiver]
`,
        ),
    );
  });

  it('does not cover a mistake in the writing', async () => {
    await expectChecked(
      VEHICLE +
        guide(`      - do: [{ check: gaurd-plate }, { loosen: gaurd.bolt }, { torque: guard.bolt }]
        #                                      ^^^^^^^^^^ error[unknown-name]
        waive: { rule: unknown-name, ${WHY} }
        #              ^^^^^^^^^^^^ warning[unknown-waiver]: "unknown-name" is a mistake in the writing
`),
    );
  });

  it('covers a step without operations', async () => {
    const { coverage } = await expectChecked(
      VEHICLE + guide(`      - text: Think.\n        waive: { rule: unchecked-step, ${WHY} }\n`),
    );
    expect(coverage).toMatchObject({ waived: 1, checkedSteps: 0 });
  });

  it('is none without a reason, a name and a day', async () => {
    await expectChecked(
      VEHICLE +
        guide(`      - waive: { rule: left-loose, by: A. Fitter, until: 2026-12-31 }
      #          ^^^^ error[missing-key]: "because" is missing
        do: [{ loosen: guard.bolt, side: left }]
        #      ^^^^^^^^^^^^^^^^^^ error[left-loose]
      - waive: { rule: left-loose, because: So it is., until: 2026-12-31 }
      #          ^^^^ error[missing-key]: "by" is missing
        do: [{ loosen: guard.bolt, side: right }]
        #      ^^^^^^^^^^^^^^^^^^ error[left-loose]
      - waive: { rule: left-disconnected, because: So it is., by: A. Fitter }
      #          ^^^^ error[missing-key]: "until" is missing
        do: [{ disconnect: locker-plug }]
        #      ^^^^^^^^^^^^^^^^^^^^^^^ warning[left-disconnected]
  - title: T
    steps:
      - waive: { rule: left-off, because: " ", by: A. Fitter, until: 2026-12-31 }
      #                                   ^^^ warning[blank-waiver]: This waiver gives no reason.
        do: [{ unbolt: shield, side: left }]
      - waive: { rule: left-off, because: So it is., by: "", until: 2026-12-31 }
      #                                                  ^^ warning[blank-waiver]: This waiver says nobody accepts it.
        do: [{ unbolt: shield, side: right }]
`),
    );
  });
});

describe('a waiver and a section that another guide uses', () => {
  const other = (waive: string, head = '') => `
# file: other.install.yaml
kitproof: install/1
title: Other
vehicle: m.vehicle.yaml
${head}sections:
  - title: Off
    steps:
      - ${waive}do: [{ unbolt: guard }]
`;

  it('what the section waives where it stands stays waived, and counts in both guides', async () => {
    const { coverage, waived } = await expectChecked(
      VEHICLE +
        guide('      - do: [{ use: { guide: other.install.yaml, section: Off } }]\n') +
        other(`{ waive: { rule: left-off, ${WHY} }, `).replace('}]\n', '}] }\n'),
    );
    expect(coverage.waived).toBe(2);
    expect(waived.map(({ finding, waiver }) => [finding.place.uri, waiver.place.uri])).toEqual([
      ['/project/g.install.yaml', '/project/other.install.yaml'],
      ['/project/other.install.yaml', '/project/other.install.yaml'],
    ]);
  });

  it('what that guide waives as a whole is its own, and a use may waive for itself', async () => {
    const whole = other('', `waive: { rule: left-off, ${WHY} }\n`);
    await expectChecked(
      VEHICLE +
        guide(`      - do: [{ use: { guide: other.install.yaml, section: Off } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[left-off]: In "Off": guard
`) +
        whole,
    );
    const { coverage } = await expectChecked(
      VEHICLE +
        guide(`      - do: [{ use: { guide: other.install.yaml, section: Off }, waive: { rule: left-off, ${WHY} } }]
`) +
        whole,
    );
    expect(coverage.waived).toBe(2);
  });

  it('one of the section that ran out is told in its own guide, and its finding counts in both', async () => {
    await expectChecked(
      VEHICLE +
        guide(`      - do: [{ use: { guide: other.install.yaml, section: Off } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[left-off]: In "Off": guard
`) +
        `
# file: other.install.yaml
kitproof: install/1
title: Other
vehicle: m.vehicle.yaml
sections:
  - title: Off
    waive: { rule: left-off, because: So it is., by: A. Fitter, until: 2026-01-30 }
    #                                                                  ^^^^^^^^^^ warning[waiver-expired]: what it accepted counts again
    steps:
      - do: [{ unbolt: guard }]
      #        ^^^^^^^^^^^^^ error[left-off]
`,
    );
  });
});
