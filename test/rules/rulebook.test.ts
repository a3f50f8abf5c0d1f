/** What a house may say of rules in `kitproof.yaml`, and what it may put in the place of a standard one. */

import { describe, expect, it } from 'vitest';
import { checkFiles } from '../support/engine';

const GUIDE = `kitproof: install/1
title: G
vehicle: m.vehicle.yaml
sections:
  - title: S
    steps:
      - do: [{ loosen: bracket.bolt }, { drill: bracket }]
`;
const VEHICLE = `kitproof: vehicle/1
name: M
parts: { bracket: { kind: bracket, mass: 1 kg, joins: [frame], joints: { bolt: { torque: 22 N·m } } } }
`;
const rule = (lines: string) => `kitproof: rules/1
pack: house
rules:
  - id: left-loose
${lines}
    watch: { verb: [drill] }
    never: true
    says: "{item} is drilled."
    reason: So it is.
`;

async function found(settings: string, pack: string | null = null): Promise<string[]> {
  const { findings } = await checkFiles({
    'g.install.yaml': GUIDE,
    'm.vehicle.yaml': VEHICLE,
    'kitproof.yaml': `kitproof: config/1\n${settings}${pack === null ? '' : 'packs: [house.rules.yaml]\n'}`,
    ...(pack === null ? {} : { 'house.rules.yaml': pack }),
  });
  return findings
    .filter(({ rule: id }) => ['left-loose', 'duplicate-rule', 'unknown-rule', 'drilled'].includes(id))
    .map(({ rule: id, severity, harm, message }) => [id, severity, harm ?? '', message].join(' | '));
}

const LOOSE = 'bracket.bolt never gets its final torque.';

describe('a rule of the standard packs', () => {
  it.each([
    ['', [`left-loose | error | injury | ${LOOSE}`]],
    ['rules: { left-loose: off }\n', []],
    ['rules: { left-loose: on }\n', [`left-loose | error | injury | ${LOOSE}`]],
    ['rules: { left-loose: info }\n', [`left-loose | info | injury | ${LOOSE}`]],
    ['rules: { left-loose: { harm: rework } }\n', [`left-loose | info | rework | ${LOOSE}`]],
    [
      'rules: { left-loose: { harm: rework, severity: error } }\n',
      [`left-loose | error | rework | ${LOOSE}`],
    ],
    ['rules: { left-loose: { on: false, severity: error } }\n', []],
  ])('%j', async (settings, expected) => {
    expect(await found(settings)).toEqual(expected);
  });

  it('an id that no pack has is told, with the nearest', async () => {
    expect(await found('rules: { left-lose: off }\n')).toContain(
      'unknown-rule | warning |  | No pack has a rule "left-lose"; did you mean "left-loose"?',
    );
  });
});

describe('a rule of the house of the same id', () => {
  it('counts only where it says that it overrides; it is then as core as the other, and asked in its place', async () => {
    expect(await found('', rule('    overrides: true\n    harm: damage'))).toEqual([
      'left-loose | warning | damage | bracket is drilled.',
    ]);
    expect(
      await found('rules: { left-loose: error }\n', rule('    overrides: true\n    harm: damage')),
    ).toEqual(['left-loose | error | damage | bracket is drilled.']);
    expect(await found('', rule('    overrides: true\n    core: false\n    harm: damage'))).toEqual([]);
  });

  it('without it is told, and the standard one stays', async () => {
    expect(
      (await found('', rule('    core: true\n    harm: damage'))).map((one) => one.split(' | ')[0]),
    ).toEqual(['left-loose', 'duplicate-rule']);
  });

  it('may change the words and the settings of a built-in rule', async () => {
    const words = `kitproof: rules/1
pack: house
rules:
  - id: left-loose
    built-in: left-loose
    overrides: true
    harm: damage
    says: "{item}: torque it."
    reason: So it is.
`;
    expect(await found('', words)).toEqual(['left-loose | warning | damage | bracket.bolt: torque it.']);
  });
});
