/** Procedures of the workshop: the right guide is silent, and each fault in it gives just what a mechanic would say. */

import { describe, expect, it } from 'vitest';
import { changed, coverageOf, type Expected, foundIn, GUIDE, proceduresOf } from './suite';

const sorted = (found: readonly Expected[]) =>
  [...found].sort((one, other) =>
    JSON.stringify([one.rule, one.at, one.item]).localeCompare(
      JSON.stringify([other.rule, other.at, other.item]),
    ),
  );

const procedures = proceduresOf(import.meta.dirname);

it('thirty procedures or more, each with its faults', () => {
  expect(procedures.length).toBeGreaterThanOrEqual(30);
  expect(procedures.filter(({ faults }) => faults.length === 0).map(({ name }) => name)).toEqual([]);
});

describe.each(procedures)('$name', (procedure) => {
  const right = procedure.files[GUIDE]!;

  it('is silent as it should be done', async () => {
    expect(await foundIn(procedure, right)).toEqual([]);
    const { steps, checkedSteps } = await coverageOf(procedure);
    expect(checkedSteps).toBe(steps);
  });

  it.each(procedure.faults)('$name', async ({ change, expect: expected }) => {
    const guide = change.reduce(changed, right);
    expect(sorted(await foundIn(procedure, guide))).toEqual(sorted(expected));
  });
});
