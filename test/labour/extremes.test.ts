import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { extremesOf, holdingAt, STATE_BOUND, type Term } from '../../server/src/labour/extremes';
import { Diagrams } from '../../server/src/variants/diagram';

/** A set as a list of cubes: variable to allowed values; evaluated plainly, and built as a diagram. */
type Cubes = readonly (readonly { variable: number; values: readonly number[] }[])[];

const ARITIES = [2, 3, 2, 2, 3];

function variantsOf(arities: readonly number[]): number[][] {
  return arities.reduce<number[][]>(
    (all, arity) =>
      all.flatMap((variant) => Array.from({ length: arity }, (_, value) => [...variant, value])),
    [[]],
  );
}

const holds = (cubes: Cubes, variant: readonly number[]) =>
  cubes.some((cube) => cube.every((term) => term.values.includes(variant[term.variable]!)));

function diagramOf(diagrams: Diagrams, cubes: Cubes): number {
  return cubes.reduce(
    (all, cube) =>
      diagrams.or(
        all,
        cube.reduce((set, term) => diagrams.and(set, diagrams.literal(term.variable, term.values)), 1),
      ),
    0,
  );
}

const cubesOf = fc.array(
  fc.array(
    fc.nat(ARITIES.length - 1).chain((variable) =>
      fc.record({
        variable: fc.constant(variable),
        values: fc.subarray([0, 1, 2].slice(0, ARITIES[variable])),
      }),
    ),
    { maxLength: 3 },
  ),
  { maxLength: 3 },
);

describe('the extremes of a sum over the variants', () => {
  it('are those of every variant tried alone', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ cubes: cubesOf, amount: fc.integer({ min: 0, max: 90 }) }), { maxLength: 8 }),
        cubesOf,
        (parts, universeCubes) => {
          const inside = variantsOf(ARITIES).filter((variant) => holds(universeCubes, variant));
          if (inside.length === 0) return;
          const sums = inside.map((variant) =>
            parts.reduce((sum, part) => sum + (holds(part.cubes, variant) ? part.amount : 0), 0),
          );
          const diagrams = new Diagrams(ARITIES);
          const terms = parts.map((part) => ({
            set: diagramOf(diagrams, part.cubes),
            amount: part.amount,
            variance: 1,
          }));
          const found = extremesOf(diagrams, terms, diagramOf(diagrams, universeCubes));
          expect(found.exact).toBe(true);
          expect(found.lowest).toBe(Math.min(...sums));
          expect(found.highest).toBe(Math.max(...sums));
          for (const [choice, wanted] of [
            [found.lowestAt, found.lowest],
            [found.highestAt, found.highest],
          ] as const) {
            const such = inside.filter((variant) =>
              choice.every(({ level, value }) => variant[level] === value),
            );
            const total = (variant: readonly number[]) =>
              parts.reduce((sum, part) => sum + (holds(part.cubes, variant) ? part.amount : 0), 0);
            expect(such.length).toBeGreaterThan(0);
            for (const variant of such) expect(total(variant)).toBe(wanted);
          }
          const sets = terms.map(({ set }) => set);
          for (const end of ['lowest', 'highest'] as const) {
            const there = holdingAt(diagrams, sets, diagramOf(diagrams, universeCubes), found, end);
            expect(parts.reduce((sum, part, index) => sum + (there[index] ? part.amount : 0), 0)).toBe(
              found[end],
            );
          }
        },
      ),
      { numRuns: 500 },
    );
  });

  it('stay exact and quick over sixty independent optional steps', () => {
    const diagrams = new Diagrams(new Array(60).fill(2));
    const terms = Array.from({ length: 60 }, (_, index) => ({
      set: diagrams.literal(index, [1]),
      amount: index,
      variance: 0,
    }));
    const found = extremesOf(diagrams, terms, 1);
    expect(found).toMatchObject({ lowest: 0, highest: (59 * 60) / 2, exact: true });
  });

  it('stay exact where each condition shares a variable with the next', () => {
    const count = 40;
    const diagrams = new Diagrams(new Array(count).fill(2));
    const terms = Array.from({ length: count - 1 }, (_, index) => ({
      set: diagrams.and(diagrams.literal(index, [1]), diagrams.literal(index + 1, [0])),
      amount: 1,
      variance: 0,
    }));
    // At most every second pair can be "on, then off".
    expect(extremesOf(diagrams, terms, 1)).toMatchObject({ lowest: 0, highest: count / 2, exact: true });
  });

  it('give bounds, and say so, where conditions are too entangled', () => {
    const count = 26;
    const diagrams = new Diagrams(new Array(count).fill(2));
    const terms: Term[] = [];
    for (let a = 0; a < count / 2; a++) {
      const both = diagrams.and(diagrams.literal(a, [1]), diagrams.literal(a + count / 2, [1]));
      terms.push({ set: both, amount: 1, variance: 0 });
      if (a > 0)
        terms.push({
          set: diagrams.and(diagrams.literal(a - 1, [1]), diagrams.literal(a, [1])),
          amount: 1,
          variance: 0,
        });
    }
    expect(2 ** (count / 2)).toBeGreaterThan(STATE_BOUND);
    const found = extremesOf(diagrams, terms, 1);
    expect(found.exact).toBe(false);
    expect(found.lowest).toBe(0);
    expect(found.highest).toBe(terms.length);
  });
});
