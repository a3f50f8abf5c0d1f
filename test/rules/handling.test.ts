/** How many people a heavy part takes is said where it is let go or put up. */

import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { exampleFiles } from '../oracle/example';
import { map } from '../oracle/raw';
import { checkFiles } from '../support/engine';

async function said(mass: string, people: number): Promise<string[]> {
  const job = parse(
    `vehicle: { parts: { guard: { kind: bracket, mass: ${mass}, joins: [frame], joints: { bolt: { torque: 20 N·m } } } } }
kit: { parts: { bar: { kind: bull-bar, mass: ${mass}, joins: [frame], joints: { bolt: { torque: 20 N·m } } } } }
do: [{ people: ${people}, do: [{ remove: guard.bolt }, { remove: guard }] }, { people: ${people}, do: [{ fit: bar }, { torque: bar.bolt }] }]`,
  );
  return (await checkFiles(exampleFiles(map(job)).files)).findings
    .filter(({ rule }) => rule.startsWith('heavy-part'))
    .map(({ rule, message }) => `${rule}: ${message.replace(/^.*: /, '')}`);
}

it.each([
  ['15 kg', 1, []],
  ['18 kg', 1, ['heavy-part-held: it takes 2 people or an aid.']],
  [
    '42 kg',
    1,
    ['heavy-part-held: it takes 2 people or an aid.', 'heavy-part-lifted: it takes 2 people or an aid.'],
  ],
  ['50 kg', 2, []],
  [
    '60 kg',
    2,
    ['heavy-part-held: it takes 3 people or an aid.', 'heavy-part-lifted: it takes 3 people or an aid.'],
  ],
  ['80 kg', 3, ['heavy-part-held: it takes an aid.', 'heavy-part-lifted: it takes an aid.']],
])('%s with %d', async (mass, people, expected) => {
  expect(await said(mass, people)).toEqual(expected);
});
