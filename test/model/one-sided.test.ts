/** Settings and new pieces that one side alone gets. */

import { describe, expect, it } from 'vitest';
import { expectChecked } from '../support/marked';

const guide = (steps: string, head = '') => `
# file: wren.vehicle.yaml
kitproof: vehicle/1
name: Wren
traits: { load: [light, heavy] }
parts:
  bellows: { kind: air-spring, sided: true, mass: 2 kg, pressure: 0.7-7 bar }
  bar-bush: { kind: bush, sided: true, mass: 0.1 kg }
  compressor: { kind: compressor, joins: [body], mass: 2 kg }
# file: g.install.yaml
kitproof: install/1
title: G
vehicle: wren.vehicle.yaml
${head}sections:
  - title: S
    steps:
${steps}`;

describe('what one side alone gets', () => {
  it('is found where the other gets nothing', async () => {
    await expectChecked(
      guide(`
      - do: [{ clean: [bellows, bar-bush] }]
      - do: [{ inflate: bellows, to: 2 bar, side: right }]
      #        ^^^^^^^^^^^^^^^^ info[one-side-alone]: bellows is inflated on the right alone.
      - side: left
        do: [{ renew: bar-bush }]
        #      ^^^^^^^^^^^^^^^ info[one-side-alone]: bar-bush is renewed on the left alone.
`),
    );
  });

  it('is found where both got theirs before, and then one another', async () => {
    await expectChecked(
      guide(`
      - do: [{ inflate: bellows, to: 1 bar }]
      - do: [{ inflate: bellows, to: 2 bar, side: left }]
      #        ^^^^^^^^^^^^^^^^ info[one-side-alone]
`),
    );
  });

  it('is found in the variants in which the other gets nothing', async () => {
    const { findings } = await expectChecked(
      guide(`
      - do: [{ clean: bellows }]
      - do: [{ inflate: bellows, to: 2 bar, side: left }]
      #        ^^^^^^^^^^^^^^^^ info[one-side-alone]
      - { when: { load: light }, do: [{ inflate: bellows, to: 1 bar, side: right }] }
`),
    );
    expect(findings[0]!.variants).toEqual([{ load: ['heavy'] }]);
  });

  it.each([
    ['both at once', '      - do: [{ inflate: bellows, to: 2 bar }]\n'],
    [
      'one by one, each its own',
      '      - do: [{ inflate: bellows, to: 2 bar, side: left }, { inflate: bellows, to: 3 bar, side: right }]\n',
    ],
    [
      'both later on',
      '      - do: [{ inflate: bellows, to: 1 bar, side: left }]\n      - do: [{ inflate: bellows, to: 2 bar }]\n',
    ],
    ['if needed', '      - do: [{ renew: bar-bush, side: left, if-needed: true }]\n'],
    [
      'found worn',
      '      - do: [{ check: bar-bush, side: left, expect: sound, else: worn }]\n      - { when: { found: worn }, do: [{ renew: bar-bush, side: left }] }\n',
    ],
    ['the other one left alone', '      - do: [{ inflate: bellows, to: 2 bar, side: left }]\n'],
    ['looked at', '      - do: [{ check: bellows, side: left }]\n'],
  ])('is silent: %s', async (_what, steps) => {
    await expectChecked(guide(steps));
  });

  it('is meant in a guide for one side', async () => {
    await expectChecked(guide('      - do: [{ inflate: bellows, to: 2 bar }]\n', 'side: left\n'));
  });

  it('is told once where the words say both', async () => {
    await expectChecked(
      guide(`
      - do: [{ clean: bellows }]
      - text: Fill both bellows.
        do: [{ inflate: bellows, to: 2 bar, side: right }]
        #      ^^^^^^^^^^^^^^^^ info[side-against-words]
`),
    );
  });
});
