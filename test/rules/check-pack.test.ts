/** Mistakes that a writer of house rules makes: each gets one plain finding at its place. */

import { describe, expect, it, test } from 'vitest';
import { makeRulebook } from '../../server/src/rules/rulebook';
import { openDocument } from '../../server/src/schema/document';
import { judge } from '../../server/src/workspace/engine';
import { standardPacks } from '../../server/src/workspace/packs';
import { expectFindings, type FixtureFile } from '../support/fixture';

const standard = standardPacks().map(({ uri, reading, text }) =>
  openDocument(uri, reading, { source: text }),
);

const check = (files: readonly FixtureFile[]) => {
  const own = files.map(({ name, text }) => openDocument(name, text));
  const library = { packs: [...standard, ...own], document: () => null, resolve: () => '' };
  return own.flatMap((pack) => [...pack.findings, ...judge(pack, library, makeRulebook(library.packs))]);
};
const faults = (name: string, rules: string) =>
  test(name, () =>
    expectFindings(`# file: house.rules.yaml\nkitproof: rules/1\npack: house\nrules:\n${rules}`, check),
  );

const REST = `    harm: rework
    says: "{item}."
    reason: So it is.`;

it('the standard packs are in order', () => {
  const library = { packs: standard, document: () => null, resolve: () => '' };
  expect(standard.flatMap((pack) => judge(pack, library, makeRulebook(library.packs)))).toEqual([]);
});

describe('what a rule asks', () => {
  faults(
    'nothing, two things, or nothing after all',
    `
  - id: asks-nothing
  #     ^^^^^^^^^^^^ error[no-family]: This rule asks nothing; one of never, needs
    watch: { verb: [torque] }
${REST}
  - id: asks-twice
    watch: { verb: [torque] }
    needs: { state: [snug] }
    #^^^^ error[several-families]: "never" and "needs" stand in one rule
    never: true
${REST}
  - id: asks-not
    watch: { verb: [torque] }
    never: false
    #      ^^^^^ error[no-family]: With "never: false" this rule asks nothing.
${REST}
`,
  );
  faults(
    'nothing watched; everything watched is said',
    `
  - id: watches-nothing
  #     ^^^^^^^^^^^^^^^ error[no-watch]: write watch: with a verb, or watch: {} for every operation
    never: true
${REST}
  - id: watches-all
    watch: {}
    later: { verb: [record], of: { words: [chassis-number] }, earlier: true }
${REST}
`,
  );
  faults(
    'a since without a verb, or of what it cannot know; a missing state',
    `
  - id: since-what
    watch: { verb: [lower] }
    first: { verb: [check], since: {} }
    #                              ^^ error[missing-key]: "verb" is missing
${REST}
  - id: since-more
    watch: { verb: [lower] }
    first: { verb: [check], since: { verb: [raise], of: same } }
    #                                                   ^^^^ error[bad-relation]: Of a "since" there is any, vehicle, item, kind or words
${REST}
  - id: no-state
    watch: { verb: [lower] }
    needs: { of: vehicle }
    #        ^^ error[missing-key]: "state" is missing
${REST}
`,
  );
  faults(
    'settings where none are read, and what excuses',
    `
  - id: settings
    watch: { verb: [lower] }
    never: true
    with: { over: 5 }
    #^^^ error[no-effect]: "with" holds the settings of built-in rules
    unless: [{ people: 2, caution: true }, { of: axle }, { caution: false }, { state: [held], of: axle }]
    #          ^^^^^^ error[bad-excuse]: An excuse is one of state (with of), people or caution: true; give each
    #                                        ^^ error[bad-excuse]: An excuse is one of
    #                                                      ^^^^^^^ error[bad-excuse]: An excuse is one of
${REST}
`,
  );
});

describe('words', () => {
  faults(
    'verbs, kinds, states, qualifiers and properties that nobody knows',
    `
  - id: words
    watch:
      verb: [torqe]
      #      ^^^^^ error[unknown-value]: "torque" was probably meant
      kind: [shokc, damper, gizmo]
      #      ^^^^^ error[unknown-part-kind]: No pack has a kind "shokc"; did you mean "shock"?
      #             ^^^^^^ error[unknown-part-kind]: "damper" is another word for the kind "shock"
      #                     ^^^^^ error[unknown-part-kind]: No pack has a kind "gizmo"; the words there are
    needs: { of: { kind: [whel] }, state: [tihgt] }
    #                     ^^^^ error[unknown-part-kind]: did you mean "wheel"?
    #                                      ^^^^^ error[unknown-state]: "tihgt" is no state that a rule may ask for; did you mean "tight"?
${REST}
  - id: qualifiers
    watch: { verb: [torque], qualifier: { patern: [star], pattern: [strar], side: [left] } }
    #                                     ^^^^^^ error[unknown-qualifier]: "patern" is no qualifier of torque; did you mean "pattern"?
    #                                                               ^^^^^ error[unknown-value]: "pattern" is never "strar"; did you mean "star"?
    #                                                                       ^^^^ error[unknown-qualifier]: "side" is no qualifier of torque.
    never: true
${REST}
  - id: properties
    watch: { verb: [torque], joint: { nutt: slotted, bushed: true } }
    #                                 ^^^^ error[unknown-property]: A rule cannot ask for "nutt" of a joint; did you mean "nut"?
    never: true
${REST}
  - id: values
    watch: { verb: [torque], joint: { nut: [selflocking, none], structural: yess, thread: M9 } }
    #                                       ^^^^^^^^^^^ error[unknown-value]: "nut" is never "selflocking"; did you mean "self-locking"?
    #                                                                       ^^^^ error[unknown-value]: "structural" is never "yess"; it is one of true, false.
    never: true
${REST}
  - id: aids
    watch: { verb: [hold], qualifier: { with: [cap, bungs, workshop-rag] } }
    #                                          ^^^ error[unknown-value]: "cap" is another word for the aid "bung"; a rule goes by the aid.
    never: true
${REST}
`,
  );
  faults(
    'a system nearly by its name; the values of switches are free',
    `
  - id: systems
    watch: { verb: [switch], item: [parking-brake] }
    needs: { of: { item: [igniton] }, state: [accessory] }
    #                     ^^^^^^^ warning[unknown-name]: did you mean "ignition"?
${REST}
  - id: switches
    watch: { verb: [move] }
    needs: { of: { item: [parking-brake] }, state: [service-two] }
${REST}
`,
  );
  faults(
    'misspelt keys, of the rule and within it',
    `
  - id: keys
    watch: { verbs: [torque] }
    #        ^^^^^ error[unknown-key]: "verb" was probably meant
    nevr: true
    #^^^ error[unknown-key]: "never" was probably meant
${REST}
  - id: missing
    # at the id:
    watch: { verb: [torque] }
    never: true
    says: "{item}."
    reason: So it is.
`
      .replace('  - id: missing\n', '  - id: missing\n  # ^^ error[missing-key]: "harm" is missing\n')
      .replace('    # at the id:\n', ''),
  );
  faults(
    'a sentence with what the rule does not know',
    `
  - id: sentence
    harm: rework
    watch: { verb: [torque] }
    never: true
    says: "{itm} and {related} at {part}: {verb} {colour} {"
    #      ^^^^^ error[unknown-fact]: This rule has nothing to put in for "{itm}"
    #                ^^^^^^^^^ error[unknown-fact]: "{related}"; it may be item, part, verb.
    #                                            ^^^^^^^^ error[unknown-fact]: "{colour}"
    #                                                     ^ error[unknown-fact]: This brace is never closed
    reason: So it is.
  - id: relates
    harm: rework
    watch: { verb: [torque] }
    first: { verb: [clean], of: part }
    says: "{item} is done before {related}."
    reason: So it is.
`,
  );
});

describe('ids', () => {
  faults(
    'not in kebab case, twice, and those of standard rules',
    `
  - id: Gloves On
  #     ^^^^^^^^^ error[bad-id]: such as gloves-on
    watch: { verb: [drill] }
    never: true
${REST}
  - id: twice
    watch: { verb: [drill] }
    never: true
${REST}
  - id: twice
  #     ^^^^^ error[duplicate-rule]: This pack has a rule "twice" already; this one never counts.
    watch: { verb: [drill] }
    never: true
${REST}
  - id: left-loose
  #     ^^^^^^^^^^ error[duplicate-rule]: Another pack has a rule "left-loose" already, so this one never counts; say overrides: true
    watch: { verb: [loosen] }
    later: { verb: [torque] }
${REST}
  - id: left-lose
  #     ^^^^^^^^^ error[overrides-nothing]: No pack before this one has a rule "left-lose" to override; did you mean "left-loose"?
    overrides: true
    watch: { verb: [loosen] }
    later: { verb: [torque] }
${REST}
  - id: left-off
    overrides: true
    watch: { verb: [remove] }
    later: { verb: [fit] }
${REST}
`,
  );
  faults(
    'built-in rules',
    `
  - id: left-lose
    built-in: left-lose
    #         ^^^^^^^^^ error[unknown-built-in]: The program has no built-in rule "left-lose"; did you mean "left-loose"?
${REST}
  - id: my-own-loose
  #     ^^^^^^^^^^^^ error[wrong-id]: this one counts only with the id "left-loose"
    built-in: left-loose
    watch: { verb: [loosen] }
    #^^^^ error[no-effect]: "watch" has no effect on it
${REST}
  - id: left-tight-over-travel
    overrides: true
    built-in: left-tight-over-travel
    with: { over-mm: 50 mm, over: 5 }
    #                ^^^^^ error[unknown-setting]: "over-mm" wants a number without a unit
    #                       ^^^^ error[unknown-setting]: "left-tight-over-travel" has no setting "over"; it has over-mm.
    harm: rework
    says: "{item} turns over {hang}, over {figure}."
    #                                     ^^^^^^^^ error[unknown-fact]: "{figure}"
    reason: So it is.
`,
  );
});

describe('what can never be', () => {
  faults(
    'operations that there are none of',
    `
  - id: torque-a-part
    watch: { verb: [torque], what: [part] }
    #                        ^^^^ error[never-asked]: No operation that this rule looks at acts on a part, so it never speaks.
    never: true
${REST}
  - id: torque-a-hose
    watch: { verb: [torque], kind: [brake-hose] }
    #                        ^^^^ error[never-asked]: acts on a brake-hose
    never: true
${REST}
  - id: disconnect-a-shock
    watch: { verb: [disconnect], kind: [shock] }
    #                            ^^^^ error[never-asked]: acts on a shock
    never: true
${REST}
  - id: nut-of-a-line
    watch: { verb: [disconnect], joint: { nut: slotted } }
    #                            ^^^^^ error[never-asked]: acts on a joint
    never: true
${REST}
  - id: loosen-the-battery
    watch: { verb: [loosen], item: [battery] }
    #                        ^^^^ error[never-asked]: acts on battery
    never: true
${REST}
`,
  );
  faults(
    'relations and states',
    `
  - id: never-undone
    watch: { verb: [loosen] }
    first: { verb: [check], of: { words: [stands] }, since: { verb: [raise, lower] } }
    #                                                               ^^^^^^^^^^^^^^ error[never-asked]: No raise or lower is done to what this rule looks at
${REST}
  - id: undone-by-anything
    watch: { verb: [loosen] }
    first: { verb: [check], of: { words: [stands] }, since: { verb: [raise, lower], of: any } }
${REST}
  - id: joints-of-a-line
    watch: { verb: [disconnect] }
    needs: { of: joints, state: [tight] }
    #            ^^^^^^ error[never-asked]: A line has no joints, so this asks nothing.
${REST}
  - id: any-state
    watch: { verb: [torque] }
    needs: { of: any, state: [tight] }
    #            ^^^ error[never-asked]: "any" stands where an operation is looked for; it has no state.
${REST}
  - id: both
    watch: { verb: [torque] }
    first: { verb: [clean], of: { item: [battery], kind: [hub], on: side } }
    #                                              ^^^^ error[bad-relation]: "item" and "kind" stand together, and only the first counts.
    #                                                           ^^ error[no-effect]: "on" goes with kind
${REST}
  - id: neither
    watch: { verb: [torque] }
    first: { verb: [clean], of: { on: side } }
    #                             ^^ error[bad-relation]: This means nothing; item, kind or words says what is meant.
${REST}
  - id: wheel-connected
    watch: { verb: [torque] }
    never-while: { of: { kind: [wheel] }, state: [disconnected] }
    #                                            ^^^^^^^^^^^^^^ error[never-asked]: A part is never "disconnected", so this is never so.
${REST}
  - id: hose-started
    watch: { verb: [connect] }
    needs: { state: [started, snug] }
    #               ^^^^^^^^^^^^^^^ error[never-asked]: A line is never "started" or "snug", so this is never so.
${REST}
`,
  );
});

describe('examples', () => {
  faults(
    'the same twice, and with mistakes of their own',
    `
  - id: same
    watch: { verb: [drill] }
    never: true
${REST}
    good: { do: [{ drill: frame }] }
    bad: { do: [{ drill: frame }] }
    #^^ error[same-examples]: The good and the bad example are the same job; one of them is wrong.
  - id: slips
    watch: { verb: [drill] }
    never: true
${REST}
    good: { do: [{ dril: frame }] }
    #              ^^^^ error[unknown-verb]: "drill" was probably meant
    bad: { doo: [{ drill: frame }] }
    #      ^^^ error[unknown-key]: "do" was probably meant
`,
  );
});
