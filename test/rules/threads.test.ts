/** Nuts and lengths of thread that do not bear what the bolt does. */

import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { exampleFiles } from '../oracle/example';
import { map } from '../oracle/raw';
import { checkFiles } from '../support/engine';

async function found(joint: string, kit = ''): Promise<string[]> {
  const job = parse(
    `vehicle: { parts: { plate: { kind: bracket, mass: 1 kg, joins: [frame], joints: { bolt: { ${joint} } } } } }\n${kit}do: [{ loosen: plate.bolt }, { torque: plate.bolt, to: maker }]`,
  );
  return (await checkFiles(exampleFiles(map(job)).files)).findings.map(({ rule }) => rule);
}

// ISO 898-2: a nut of class 8 for bolts up to 8.8, 10 up to 10.9, 12 up to 12.9; 04 and 05 are thin.
it.each([
  ['8.8', '8', true],
  ['8.8', '10', true],
  ['10.9', '10', true],
  ['12.9', '12', true],
  ['10.9', '8', false],
  ['12.9', '10', false],
  ['8.8', '05', true],
  ['8.8', 'A2', true],
])('a bolt of %s with a nut of class %s', async (bolt, nut, fits) => {
  const joint = `thread: M10x1.5, class: "${bolt}", nut: plain, nut-class: "${nut}"`;
  // Of A2 nothing is known, which is told by itself.
  const rules = (await found(joint)).filter((rule) => rule !== 'unknown-class');
  expect(rules).toEqual(fits ? [] : ['nut-weaker']);
});

it('the class of kit hardware counts: of a bolt that is new nothing else is known', async () => {
  const box = (hardware: string) => `kit: { hardware: { new-bolt: { quantity: 0, ${hardware} } } }\n`;
  const joint = 'thread: M10x1.5, class: "8.8", nut: plain, nut-class: "8"';
  expect(await found(joint, box('for: plate.bolt.bolt, class: "10.9"'))).toEqual(['nut-weaker']);
  expect(await found(joint, box('for: plate.bolt.nut, class: "6"'))).toEqual(['nut-weaker']);
  expect(await found(joint, box('for: plate.bolt.bolt'))).toEqual([]);
});

// One diameter in steel, one and a half in cast iron, two in aluminium: common practice.
it.each([
  ['"8.8", into: steel, engagement: 10 mm', []],
  ['"8.8", into: steel, engagement: 8.4 mm', []],
  ['"8.8", into: steel, engagement: 7 mm', ['thread-too-short']],
  ['"12.9", into: steel, engagement: 9 mm', ['thread-too-short']],
  ['"8.8", into: cast-iron, engagement: 15 mm', []],
  ['"8.8", into: cast-iron, engagement: 10 mm', ['thread-too-short']],
  ['"8.8", into: aluminium, engagement: 20 mm', []],
  ['"8.8", into: aluminium, engagement: 1/2 in', ['thread-too-short']],
  ['"8.8", into: aluminium', []],
])('class %s', async (joint, rules) => {
  expect(await found(`thread: M10x1.5, class: ${joint}`)).toEqual(rules);
});

describe('what is in the box', () => {
  const box = (hardware: string) => `kit: { hardware: { ${hardware} } }\n`;
  const joint = 'thread: M12x1.75, nut: plain';
  const bolt = (thread: string) => `new-bolt: { thread: ${thread}, quantity: 0, for: plate.bolt.bolt }`;
  const nut = (thread: string) => `new-nut: { thread: ${thread}, quantity: 0, for: plate.bolt.nut }`;

  it.each([
    ['a nut of the bolt’s thread', nut('M12'), []],
    ['a nut of another pitch', nut('M12x1.25'), ['thread-differs']],
    ['a nut of another size', nut('M10x1.75'), ['thread-differs']],
    ['a bolt of the thread that is there', bolt('M12x1.75'), []],
    ['a bolt of another pitch', bolt('M12x1.5'), ['thread-differs']],
    ['bolt and nut of one thread, other than the old one', `${bolt('M12x1.25')}, ${nut('M12x1.25')}`, []],
    ['bolt and nut of two', `${bolt('M12x1.25')}, ${nut('M12x1.75')}`, ['thread-differs']],
    ['a thread that nobody knows', nut('odd'), ['unknown-thread']],
  ])('%s', async (_what, hardware, rules) => {
    expect(await found(joint, box(hardware))).toEqual(rules);
  });
});
