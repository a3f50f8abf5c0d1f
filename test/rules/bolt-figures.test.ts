/** Figures of bolts held against published tables, through the whole engine: what a table prints is never found fault with. */

import { describe, expect, it } from 'vitest';
import { publishedFine } from '../calc/data/published-fine';
import { exampleFiles } from '../oracle/example';
import { checkFiles } from '../support/engine';

interface Row {
  readonly name: string;
  /** What the data say of the joint, as YAML in braces. */
  readonly joint: string;
  readonly to: string;
}

/** What is found of each of many joints, by the name of its part. */
async function found(rows: readonly Row[]): Promise<Map<string, string[]>> {
  const parts = rows.map(({ joint }, index) => [
    `plate-${index}`,
    { kind: 'bracket', mass: '1 kg', joins: ['frame'], joints: { bolt: `@${joint}@` } },
  ]);
  const text = JSON.stringify(Object.fromEntries(parts)).replaceAll(/"@(.*?)@"/g, (_, one) =>
    one.replaceAll('\\"', '"'),
  );
  const steps = rows.flatMap(({ to }, index) => [
    { loosen: `plate-${index}.bolt` },
    { torque: `plate-${index}.bolt`, to },
  ]);
  const { files } = exampleFiles({ vehicle: { parts: {} }, do: steps });
  const [vehicle] = [...Object.keys(files)].filter((name) => name.includes('vehicle'));
  const whole = { ...files, [vehicle!]: files[vehicle!]!.replace(/parts: \{\}/, `parts: ${text}`) };
  const { findings } = await checkFiles(whole);
  return new Map(
    rows.map(({ name }, index) => [
      name,
      findings.filter(({ item = '' }) => item.startsWith(`plate-${index}.`)).map(({ rule }) => rule),
    ]),
  );
}

const wrong = (all: Map<string, string[]>, expected: readonly string[]) =>
  [...all].filter(([, rules]) => JSON.stringify(rules) !== JSON.stringify(expected));

describe('torques of the published table of fine threads (VDI 2230:2001 by way of a bolt maker)', () => {
  const rows = publishedFine.flatMap(([thread, mu, , torque]) =>
    (['8.8', '10.9', '12.9'] as const).map((grade, column) => ({
      thread,
      mu,
      grade,
      torque: torque[column]!,
    })),
  );
  const joint = (thread: string, grade: string, more = '') =>
    `{ thread: ${thread}, class: "${grade}"${more} }`;

  it('are silent as they are printed, at every friction, also where the joint carries the structure', async () => {
    const asked = rows.map(({ thread, mu, grade, torque }) => ({
      name: `${thread} ${grade} ${mu}`,
      joint: joint(thread, grade, ', structural: true'),
      to: `${torque} N·m`,
    }));
    expect(asked.length).toBe(54);
    expect(wrong(await found(asked), [])).toEqual([]);
  });

  it('twice as high they stretch the bolt, a quarter as high they are far under', async () => {
    const middle = rows.filter(({ mu }) => mu === 0.12);
    const high = middle.map(({ thread, grade, torque }) => ({
      name: `${thread} ${grade}`,
      joint: joint(thread, grade),
      to: `${(torque * 2).toFixed(1)} N·m (${((torque * 2) / 1.3558).toFixed(1)} lbf·ft)`,
    }));
    expect(wrong(await found(high), ['bolt-past-proof'])).toEqual([]);
    const low = middle.map(({ thread, grade, torque }) => ({
      name: `${thread} ${grade}`,
      joint: joint(thread, grade, ', structural: true'),
      to: `${(torque / 4).toFixed(1)} N·m (${(torque / 4 / 1.3558).toFixed(1)} lbf·ft)`,
    }));
    expect(wrong(await found(low), ['torque-far-under'])).toEqual([]);
  });

  it('written as pounds with the number of inch-pounds, the unit is doubted', async () => {
    const inches = rows
      .filter(({ mu, thread }) => mu === 0.12 && thread.startsWith('M8'))
      .map(({ thread, grade, torque }) => ({
        name: `${thread} ${grade}`,
        joint: joint(thread, grade),
        to: `${Math.round(torque / 0.1129848)} lbf·ft`,
      }));
    expect(wrong(await found(inches), ['torque-unit-meant'])).toEqual([]);
  });
});

describe('what nothing is asked of', () => {
  it.each([
    ['without a class', '{ thread: M8x1.25 }', '90 N·m'],
    ['with a class that nobody knows', '{ thread: M8x1.25, class: "6.9" }', '90 N·m'],
    ['with a thread that nobody knows', '{ thread: odd, class: "8.8" }', '90 N·m'],
    ['tightened into stretch', '{ thread: M8x1.25, class: "8.8", stretch: true }', '90 N·m'],
    ['turned on by an angle', '{ thread: M8x1.25, class: "8.8", then: 90° }', '90 N·m'],
    ['left to the maker', '{ thread: M8x1.25, class: "8.8" }', 'maker'],
    ['far under, and not structural', '{ thread: M12x1.75, class: "10.9" }', '20 N·m (15 lbf·ft)'],
  ])('a joint %s', async (name, joint, to) => {
    const all = await found([{ name, joint, to }]);
    const rules = all.get(name)!.filter((rule) => /bolt-|torque-(?:unit|far)/.test(rule));
    expect(rules).toEqual([]);
  });

  it('a figure that is not the data’s is told as that alone', async () => {
    const joint = '{ thread: M8x1.25, class: "8.8", torque: 25 N·m }';
    expect((await found([{ name: 'a', joint, to: '90 N·m' }])).get('a')).toEqual(['torque-differs']);
  });
});

describe('a joint that carries the structure', () => {
  const told = async (part: string, to: string) => {
    const { findings, coverage } = await checkFiles({
      'v.vehicle.yaml': `kitproof: vehicle/1\nname: Wren\nparts:\n  thing: { mass: 2 kg, joins: [frame], ${part} }\n`,
      'g.install.yaml': `kitproof: install/1\ntitle: G\nvehicle: v.vehicle.yaml\nsections:\n  - title: S\n    steps: [{ do: [{ loosen: thing.bolt }, { torque: thing.bolt, to: ${to} }] }]\n`,
    });
    const undecided = coverage.undecided.map(({ rule, property }) => `${rule} for want of ${property}`);
    return [...findings.map(({ rule }) => rule), ...undecided];
  };
  const bolt = (more: string) => `joints: { bolt: { thread: M12x1.75${more} } }`;

  it('does so by the kind of its part, where it says nothing else', async () => {
    const far = '30 N·m';
    expect(await told(`kind: tow-bar, ${bolt(', class: "10.9"')}`, far)).toEqual(['torque-far-under']);
    expect(await told(`kind: tow-bar, ${bolt(', class: "10.9", structural: false')}`, far)).toEqual([]);
    expect(await told(`kind: bracket, ${bolt(', class: "10.9"')}`, far)).toEqual([]);
    expect(await told(`kind: bracket, structural: true, ${bolt(', class: "10.9"')}`, far)).toEqual([
      'torque-far-under',
    ]);
    expect(await told(`kind: subframe, ${bolt(', class: "10.9"')}`, '95 N·m')).toEqual([]);
  });

  it('leaves open what its data do not tell: the class of its bolt, that of its nut', async () => {
    const wanting = ['torque-far-under for want of class'];
    expect(await told(`kind: bracket, ${bolt(', structural: true')}`, '95 N·m')).toEqual(wanting);
    const nut = bolt(', structural: true, class: "10.9", nut: plain');
    expect(await told(`kind: bracket, ${nut}`, '95 N·m')).toEqual(['nut-weaker for want of nut-class']);
    expect(await told(`kind: bracket, ${bolt('')}`, '95 N·m')).toEqual([]);
    expect(await told(`kind: tow-bar, ${bolt('')}`, '95 N·m')).toEqual([]);
    expect(await told(`kind: bracket, joints: { bolt: { structural: true } }`, '95 N·m')).toEqual([]);
  });
});
