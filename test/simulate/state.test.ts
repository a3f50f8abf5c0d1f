import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Item, State } from '../../server/src/simulate/state';
import { Diagrams } from '../../server/src/variants/diagram';

/** Programs over a few items: each instruction is done in some variants, reads some items and writes one. */
const ARITIES = [2, 3, 2, 2];
const ITEMS: Item[] = ['a', 'b', 'c'].map((key) => ({ kind: 'x', of: key, at: '', initial: 0 }));

const instruction = fc.record({
  variable: fc.nat(3),
  values: fc.array(fc.nat(2), { minLength: 1, maxLength: 2 }),
  reads: fc.array(fc.nat(2), { maxLength: 3 }),
  writes: fc.nat(2),
  add: fc.nat(4),
});

type Instruction = typeof instruction extends fc.Arbitrary<infer T> ? T : never;

function* assignments(): Generator<number[]> {
  for (let a = 0; a < 2; a++)
    for (let b = 0; b < 3; b++) for (let c = 0; c < 2; c++) for (let d = 0; d < 2; d++) yield [a, b, c, d];
}

/** The oracle: one variant at a time, with plain variables. */
function runAlone(program: readonly Instruction[], variant: readonly number[]) {
  const values = [0, 0, 0];
  const lastWriter = [-1, -1, -1];
  program.forEach(({ variable, values: wanted, reads, writes, add }, run) => {
    if (!wanted.includes(variant[variable]!)) return;
    const sum = (reads.reduce((total, at) => total + values[at]!, add) % 5) + 0;
    if (values[writes] !== sum) lastWriter[writes] = run;
    values[writes] = sum;
  });
  return { values, lastWriter };
}

function runTogether(program: readonly Instruction[]) {
  const diagrams = new Diagrams(ARITIES);
  const state = new State(diagrams);
  program.forEach(({ variable, values, reads, writes, add }, run) => {
    state.explore(diagrams.literal(variable, values), run, (branch) => {
      const sum = reads.reduce((total, at) => total + Number(branch.get(ITEMS[at]!)), add) % 5;
      branch.put(ITEMS[writes]!, sum);
    });
  });
  return { diagrams, state };
}

describe('State', () => {
  it('gives every variant the values it has alone', () => {
    fc.assert(
      fc.property(fc.array(instruction, { maxLength: 14 }), (program) => {
        const { diagrams, state } = runTogether(program);
        for (const variant of assignments()) {
          const alone = runAlone(program, variant);
          ITEMS.forEach((item, at) => {
            const value = state
              .valuesWithin(item, 1)
              .find(({ set }) => diagrams.evaluate(set, variant) === 1)?.value;
            expect(value).toBe(alone.values[at]);
          });
        }
      }),
      { numRuns: 400 },
    );
  });

  it('tells for every variant which run made a value what it is', () => {
    fc.assert(
      fc.property(fc.array(instruction, { maxLength: 14 }), (program) => {
        const { diagrams, state } = runTogether(program);
        for (const variant of assignments()) {
          const alone = runAlone(program, variant);
          ITEMS.forEach((item, at) => {
            const value = alone.values[at]!;
            const made = state
              .madeBy(item, 1, (now) => now === value)
              .find(({ set }) => diagrams.evaluate(set, variant) === 1);
            expect(made?.run).toBe(alone.lastWriter[at]);
          });
        }
      }),
      { numRuns: 400 },
    );
  });

  it('undoes what changed between two points when asked', () => {
    const diagrams = new Diagrams([2]);
    const state = new State(diagrams);
    state.explore(1, 0, (branch) => branch.put(ITEMS[0]!, 3));
    const before = state.snapshot();
    state.explore(diagrams.literal(0, [1]), 1, (branch) => branch.put(ITEMS[0]!, 4));
    expect(state.changedSince(before, 1)).toEqual([
      { key: 'x:a', from: 3, to: 4, set: diagrams.literal(0, [1]) },
    ]);
  });

  it('gives up an item that depends on too much, and says so', () => {
    const wide = new Array<number>(14).fill(2);
    const diagrams = new Diagrams(wide);
    const state = new State(diagrams);
    const item: Item = { kind: 'x', of: 'wide', at: '', initial: 0 };
    wide.forEach((_, variable) => {
      state.explore(diagrams.literal(variable, [1]), variable, (branch) => {
        branch.put(item, (Number(branch.get(item)) + 1) % 7);
      });
    });
    expect(state.lost.has('wide')).toBe(true);
  });
});
