import { describe, it } from 'vitest';
import { openDocument } from '../../server/src/schema/document';
import { expectFindings } from '../support/fixture';

const check = (steps: string) =>
  expectFindings(
    `
# file: guide.install.yaml
kitproof: install/1
title: T
sections:
  - title: S
    waive: [{ rule: left-loose, because: The next guide goes on., by: A. Fitter, until: 2031-04-30 }]
    steps:
${steps}
`,
    (files) => files.flatMap(({ name, text }) => openDocument(name, text).findings),
  );

describe('words of the trade', () => {
  it('lead to the verb that does it', () => {
    check(`
      - do:
          - { tighten: nut, to: 85 N·m }
          #   ^^^^^^^ error[unknown-verb]: "tighten" is not a verb that is known; "torque" was probably meant.
          - { install: arm }
          #   ^^^^^^^ error[unknown-verb]: "fit" was probably meant.
          - { lift: front, with: trolley-jack }
          #   ^^^^ error[unknown-verb]: "raise" was probably meant.
          - { plug: lead }
          #   ^^^^ error[unknown-verb]: "connect" was probably meant.
          - { replace: bush }
          #   ^^^^^^^ error[unknown-verb]: "renew" was probably meant.
          - { slacken: nut }
          #   ^^^^^^^ error[unknown-verb]: "loosen" was probably meant.
          - { hang: caliper, with: wire }
          #   ^^^^ error[unknown-verb]: "hold" was probably meant.
          - { torqe: nut }
          #   ^^^^^ error[unknown-verb]: "torque" was probably meant.
`);
  });
});

describe('a text with a comma in a map in braces', () => {
  it('is to be put in quotes, once', () => {
    check(`
      - { text: Slacken it, then turn it, then tighten it., do: [] }
      #                     ^^^^^^^^^^^^ error[unknown-key]: put the whole text in quotes
      - { text: "Slacken it, then tighten it.", do: [] }
      - { text: Slacken it., colour: red }
      #                      ^^^^^^ error[unknown-key]: "colour" is not a key that may stand here.
`);
  });
});

describe('sentences', () => {
  it('end in one full stop', () => {
    check(
      `
      - text:
        #^^^ error[wrong-type]: "text" has no value yet; it wants a text, such as Take both wheels off.
`.replace('#^^^', '#^^^'),
    );
  });

  it('name one unit where any would do', () => {
    check(`
      - when: { lift: { above: 1.5 } }
        #                      ^^^ error[bad-quantity]: The unit is missing, as in 1.5 mm.
`);
  });
});
