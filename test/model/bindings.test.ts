/** A guide that takes sections from others: what they name here, and where what is wrong with them is told. */

import { describe, expect, it } from 'vitest';
import { expectChecked } from '../support/marked';

const VEHICLE = `
# file: wren.vehicle.yaml
kitproof: vehicle/1
name: Wren
traits: { doors: [barn, gate] }
parts:
  tail-guard: { kind: bracket, sided: true, mass: 2 kg, joints: { bolt: { torque: 22 N·m } } }
lines:
  tow-feed: { kind: cable, ends: [unit, battery] }
`;
const COMMON = `
# file: common.install.yaml
kitproof: install/1
title: Common
vehicle: other.vehicle.yaml
sections:
  - title: Guard off
    id: off
    steps:
      - do: [{ unbolt: guard }]
  - title: Guard on
    id: on
    steps:
      - do: [{ bolt-up: guard }, { torque: guard.bolt }]
  - title: Feed
    id: feed
    steps:
      - do: [{ disconnect: feed }]
      - do: [{ connect: feed }]
  - title: Left and right
    id: sides
    steps:
      - { side: left, do: [{ check: tail-guard }] }
      - { side: right, do: [{ check: tail-guard }] }
# file: other.vehicle.yaml
kitproof: vehicle/1
name: Big Wren
parts:
  guard: { kind: bracket, sided: true, mass: 2 kg, joints: { bolt: { torque: 22 N·m } } }
  tail-guard: { like: guard }
lines:
  feed: { kind: cable, ends: [unit, battery] }
`;
const guide = (steps: string, head = '') => `${VEHICLE}${COMMON}
# file: g.install.yaml
kitproof: install/1
title: G
vehicle: wren.vehicle.yaml
${head}sections:
  - title: S
    steps:
${steps}`;

describe('with:', () => {
  it('is silent where it names what the section names, and what there is', async () => {
    await expectChecked(
      guide(`      - do: [{ use: { guide: common.install.yaml, section: off }, with: { guard: tail-guard } }]
      - do: [{ use: { guide: common.install.yaml, section: on }, with: { guard: tail-guard } }]
      - do: [{ use: { guide: common.install.yaml, section: feed }, with: { feed: tow-feed } }]
`),
    );
  });

  it('tells a name that the section does not have, and what then goes unbound, where it is written', async () => {
    await expectChecked(
      guide(`      - do: [{ use: { guide: common.install.yaml, section: off }, with: { gaurd: tail-guard } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning[unbound-name]: In "Guard off": "guard" is known to the section's own vehicle or kit alone: say under with: what it is here.
      #                                                                   ^^^^^ warning[unused-binding]: "Guard off" names no "gaurd", so this binds nothing; did you mean "guard"?
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[left-off]: In "Guard off": guard comes off
`),
    );
  });

  it('tells a name that is misspelt here, once, and goes on as if it were not', async () => {
    await expectChecked(
      guide(`      - do: [{ use: { guide: common.install.yaml, section: off }, with: { guard: tail-gaurd } }]
      #                                                                          ^^^^^^^^^^ error[unknown-name]: Neither vehicle nor kit has "tail-gaurd"; did you mean "tail-guard"?
      - do: [{ use: { guide: common.install.yaml, section: on }, with: { guard: tail-guard } }]
`),
    );
  });

  it('tells a joint that its part does not have', async () => {
    await expectChecked(
      guide(`      - do: [{ use: { guide: common.install.yaml, section: on }, with: { guard: tow-feed } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[wrong-target]: In "Guard on": "bolt-up" acts on a part with its joints, not on "tow-feed".
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[unknown-joint]: In "Guard on": "tow-feed" has no "bolt"
`),
    );
  });
});

describe('a section', () => {
  it('that is not there is told with those that are, and none can be given', async () => {
    await expectChecked(
      guide(
        `      - do: [{ use: { guide: common.install.yaml, section: strip } }]
      #                                                    ^^^^^ error[unknown-name]: There is no section "strip": there is off, on, feed and sides.
      - do: [{ use: { guide: common.install.yaml, section: fed } }]
      #                                                    ^^^ error[unknown-name]: There is no section "fed"
`,
        `given:
  - use: { guide: common.install.yaml, section: off }
  # ^^^ error[given-use]: A section cannot be given
`,
      ),
    );
  });
});

describe('what is wrong in a used section', () => {
  it('stands at the use, with the way to the operation', async () => {
    const { findings } = await expectChecked(
      guide(`      - do: [{ use: { guide: common.install.yaml, section: off }, with: { guard: tail-guard } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[left-off]: In "Guard off": tail-guard comes off
`),
    );
    expect(findings[0]!.related.map(({ place, message }) => `${place.uri} ${message}`)).toEqual([
      '/project/common.install.yaml step 1.1.1/1.1: unbolt tail-guard',
    ]);
  });

  it('stands at the use of this guide though it is taken by way of others, or used twice', async () => {
    const { findings } = await expectChecked(
      `${guide(`      - do: [{ use: { guide: more.install.yaml, section: More }, with: { shield: tail-guard } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[left-off]: In "More": tail-guard comes off
      - do: [{ use: { guide: more.install.yaml, section: More }, with: { shield: tail-guard } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ info[undo-undone]: In "More": tail-guard
`)}
# file: more.install.yaml
kitproof: install/1
title: More
sections:
  - title: More
    steps:
      - do: [{ use: { guide: common.install.yaml, section: off }, with: { guard: shield } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[left-off]: In "Guard off": shield comes off
`,
    );
    expect(
      findings.filter(({ rule }) => rule === 'left-off')[0]!.related.map(({ message }) => message),
    ).toEqual(['uses "Guard off"', 'step 1.1.1/1.1.1/1.1: unbolt tail-guard']);
  });

  it('is a condition on what only its own vehicle differs in', async () => {
    await expectChecked(`${guide(`      - do: [{ use: { guide: more.install.yaml, section: More } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[unknown-trait]: In "More": "roof" is not a trait of the vehicle
`)}
# file: more.install.yaml
kitproof: install/1
title: More
vehicle: more.vehicle.yaml
sections:
  - title: More
    steps:
      - { when: { roof: high }, do: [{ check: tail-guard }] }
      - { when: { roof: high }, do: [{ check: tail-guard }, { check: lamps }] }
# file: more.vehicle.yaml
kitproof: vehicle/1
name: More
traits: { roof: [low, high] }
parts: { tail-guard: { sided: true } }
`);
  });
});

describe('sides', () => {
  it('of a section that is used for one side are left out without a word', async () => {
    const { coverage } = await expectChecked(
      guide(`      - do: [{ use: { guide: common.install.yaml, section: sides }, side: left }]
      - { side: right, do: [{ use: { guide: common.install.yaml, section: sides } }] }
`),
    );
    expect(coverage.unchecked).toEqual([]);
  });

  it('that leave nothing of a use are told there', async () => {
    await expectChecked(
      guide(`      - { side: right, do: [{ use: { guide: common.install.yaml, section: sides }, side: left }] }
      #                                                                                  ^^^^ error[no-side-left]: This is for the left, but the step is for the right alone
`),
    );
  });
});

describe('circles', () => {
  it.each([
    ['itself', ['a']],
    ['two', ['a', 'b']],
    ['five', ['a', 'b', 'c', 'd', 'e']],
  ])('of %s are told in each guide of them', async (_many, names) => {
    const files = names.map((name, index) => {
      const next = names[(index + 1) % names.length]!;
      return `# file: ${name}.install.yaml
kitproof: install/1
title: ${name}
sections:
  - title: S
    steps:
      - do: [{ check: the-lamps }]
      - do: [{ use: { guide: ${next}.install.yaml, section: S } }]
      #             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[circular-use]: The section "S" uses itself.
`;
    });
    await expectChecked(files.join(''));
  });

  it('behind a guide that is in none of them are left to those', async () => {
    await expectChecked(`
# file: a.install.yaml
kitproof: install/1
title: A
follows: b.install.yaml
sections:
  - title: S
    steps:
      - do: [{ check: the-lamps }]
# file: b.install.yaml
kitproof: install/1
title: B
follows: c.install.yaml
#        ^^^^^^^^^^^^^^ error[circular-reference]: This guide follows itself, by way of "c.install.yaml".
sections:
  - title: S
    steps:
      - do: [{ use: { guide: a.install.yaml, section: S } }]
# file: c.install.yaml
kitproof: install/1
title: C
follows: b.install.yaml
#        ^^^^^^^^^^^^^^ error[circular-reference]: This guide follows itself, by way of "b.install.yaml".
sections: []
`);
  });
});
