import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Diagrams, TERMINAL_BOUND } from '../../server/src/variants/diagram';
import { allAssignments, diagramOf, manager, product, readBack, type Table, tables } from './brute';

/** The variables that change something, found by changing each. */
function bruteSupport(table: Table): number[] {
  const all = allAssignments(table.arities);
  const rowOf = new Map(all.map((assignment, row) => [assignment.join(), row]));
  return table.arities.flatMap((arity, variable) =>
    all.some((assignment, row) =>
      Array.from({ length: arity }, (_, value) => value).some((value) => {
        const other = [...assignment];
        other[variable] = value;
        return table.values[rowOf.get(other.join())!] !== table.values[row];
      }),
    )
      ? [variable]
      : [],
  );
}

describe('diagrams against all assignments written out', () => {
  it('evaluates to what was put in, and gives one id to one function', () => {
    fc.assert(
      fc.property(tables(1, 3), ([table]) => {
        const diagrams = manager(table!);
        const f = diagramOf(diagrams, table!);
        expect(readBack(diagrams, f)).toEqual(table!.values);
        // Built the other way round it is the same diagram.
        const reversed = allAssignments(table!.arities).reverse();
        let g = table!.values[0]!;
        for (const assignment of reversed) {
          const here = assignment.reduce(
            (set, value, variable) => diagrams.and(diagrams.literal(variable, [value]), set),
            1,
          );
          const row = allAssignments(table!.arities).findIndex((a) => a.join() === assignment.join());
          g = diagrams.ite(here, table!.values[row]!, g);
        }
        expect(g).toBe(f);
      }),
      { numRuns: 100 },
    );
  });

  it('combines sets and picks by a set', () => {
    fc.assert(
      fc.property(tables(2, 1), ([a, b]) => {
        const diagrams = manager(a!);
        const x = diagramOf(diagrams, a!);
        const y = diagramOf(diagrams, b!);
        const expected = (operation: (p: number, q: number) => number | boolean): number[] =>
          a!.values.map((value, row) => Number(operation(value, b!.values[row]!)));
        expect(readBack(diagrams, diagrams.and(x, y))).toEqual(expected((p, q) => p & q));
        expect(readBack(diagrams, diagrams.or(x, y))).toEqual(expected((p, q) => p | q));
        expect(readBack(diagrams, diagrams.minus(x, y))).toEqual(expected((p, q) => p > q));
        expect(readBack(diagrams, diagrams.not(x))).toEqual(expected((p) => 1 - p));
        expect(diagrams.implies(x, y)).toBe(a!.values.every((value, row) => value <= b!.values[row]!));
        expect(diagrams.intersects(x, y)).toBe(a!.values.some((value, row) => value & b!.values[row]!));
        expect(diagrams.isEmpty(x)).toBe(a!.values.every((value) => value === 0));
        expect(diagrams.count(x)).toBe(a!.values.filter((value) => value === 1).length);
        expect(diagrams.not(diagrams.not(x))).toBe(x);
      }),
      { numRuns: 200 },
    );
  });

  it('chooses between states, maps them, and finds where each holds', () => {
    fc.assert(
      fc.property(
        tables(3, 9),
        fc.array(fc.integer({ min: 0, max: 65535 }), { minLength: 10, maxLength: 10 }),
        ([c, f, g], fresh) => {
          const diagrams = manager(f!);
          const condition = c!.values.map((value) => value % 2);
          const set = diagramOf(diagrams, { arities: c!.arities, values: condition });
          const x = diagramOf(diagrams, f!);
          const y = diagramOf(diagrams, g!);
          expect(readBack(diagrams, diagrams.ite(set, x, y))).toEqual(
            condition.map((value, row) => (value ? f! : g!).values[row]!),
          );
          expect(
            readBack(
              diagrams,
              diagrams.map(x, (terminal) => fresh[terminal]!),
            ),
          ).toEqual(f!.values.map((value) => fresh[value]!));
          for (const value of [0, 1, 5]) {
            expect(readBack(diagrams, diagrams.equals(x, value))).toEqual(
              f!.values.map((other) => Number(other === value)),
            );
          }
          const inside = [...new Set(f!.values.filter((_, row) => condition[row]))].sort((p, q) => p - q);
          expect(diagrams.terminals(x, set)).toEqual(inside);
          expect(diagrams.constantWithin(x, set)).toBe(inside.length === 1 ? inside[0] : -1);
          if (inside.length > 0) expect(inside).toContain(diagrams.someValue(x, set));
        },
      ),
      { numRuns: 200 },
    );
  });

  it('knows on what a diagram depends', () => {
    fc.assert(
      fc.property(tables(2, 2), ([f, g]) => {
        const diagrams = manager(f!);
        const x = diagramOf(diagrams, f!);
        const y = diagramOf(diagrams, g!);
        const support = bruteSupport(f!);
        expect(diagrams.support(x)).toEqual(support);
        expect(diagrams.supportSize(x)).toBe(product(support.map((variable) => f!.arities[variable]!)));
        const both = new Set([...support, ...bruteSupport(g!)]);
        expect(diagrams.jointSupportSize(x, y)).toBe(
          product([...both].map((variable) => f!.arities[variable]!)),
        );
      }),
      { numRuns: 200 },
    );
  });
});

describe('diagrams with many variables', () => {
  const wide = (count: number): { diagrams: Diagrams; chain: number } => {
    const diagrams = new Diagrams(new Array(count).fill(2));
    let chain = 1;
    for (let variable = count - 1; variable >= 0; variable--) {
      chain = diagrams.and(diagrams.literal(variable, [1]), chain);
    }
    return { diagrams, chain };
  };

  it('keeps exact supports past 32 variables, and says infinite past 2^40', () => {
    const { diagrams, chain } = wide(70);
    expect(diagrams.support(chain)).toEqual(Array.from({ length: 70 }, (_, k) => k));
    expect(diagrams.supportSize(chain)).toBe(Number.POSITIVE_INFINITY);
    const pair = diagrams.and(diagrams.literal(3, [0]), diagrams.literal(67, [1]));
    expect(diagrams.support(pair)).toEqual([3, 67]);
    expect(diagrams.supportSize(pair)).toBe(4);
    expect(diagrams.jointSupportSize(pair, chain)).toBe(Number.POSITIVE_INFINITY);
    const narrowed = diagrams.ite(diagrams.literal(0, [1]), chain, 1);
    expect(diagrams.evaluate(narrowed, new Array(70).fill(0))).toBe(1);
  });

  it('bears a chain of two thousand variables', () => {
    const { diagrams, chain } = wide(2000);
    expect(diagrams.size(chain)).toBe(2000);
    expect(diagrams.size(diagrams.not(chain))).toBe(2000);
    expect(diagrams.constantWithin(chain, chain)).toBe(1);
  });

  it('holds every state value up to the bound and stays right while its tables grow', () => {
    const diagrams = new Diagrams([400, 400]);
    const seen = new Map<string, number>();
    let f = 0;
    for (let k = 0; k < 3000; k++) {
      const a = (k * 7919) % 400;
      const b = (k * 104729) % 400;
      const value = (k * 2654435761) % TERMINAL_BOUND;
      const here = diagrams.and(diagrams.literal(0, [a]), diagrams.literal(1, [b]));
      f = diagrams.ite(here, value, f);
      seen.set(`${a},${b}`, value);
    }
    for (const [at, value] of seen) {
      const [a, b] = at.split(',').map(Number);
      expect(diagrams.evaluate(f, [a!, b!])).toBe(value);
    }
  });

  it('stays right when its caches are far too small for what is asked', () => {
    const diagrams = new Diagrams([60, 60]);
    const rows = Array.from({ length: 60 }, (_, a) =>
      diagrams.node(
        1,
        Array.from({ length: 60 }, (_, b) => a * 60 + b),
      ),
    );
    const f = diagrams.node(0, rows);
    for (let round = 0; round < 2; round++) {
      for (let value = 0; value < 3600; value++) {
        const here = diagrams.equals(f, value);
        expect(diagrams.someValue(f, here)).toBe(value);
        expect(diagrams.count(here)).toBe(1);
      }
    }
    // Every pair of rows, chosen by every one of some sets.
    for (let k = 0; k < 3000; k++) {
      const [a, b, c] = [k % 60, (k * 7) % 60, (k * 31) % 60] as const;
      const chosen = diagrams.ite(diagrams.literal(1, [c]), rows[a]!, rows[b]!);
      expect(diagrams.evaluate(chosen, [0, c])).toBe(a * 60 + c);
      expect(diagrams.evaluate(chosen, [0, (c + 1) % 60])).toBe(b * 60 + ((c + 1) % 60));
    }
  });

  it('gives the same answers whatever the manager was asked before', () => {
    const fresh = new Diagrams([2, 3, 2]);
    const used = new Diagrams([2, 3, 2]);
    for (let k = 0; k < 200; k++) {
      used.ite(used.literal(k % 3, [k % 2]), used.literal((k + 1) % 3, [0]), k % 50);
    }
    const build = (d: Diagrams) =>
      d.ite(d.literal(1, [0, 2]), d.ite(d.literal(0, [1]), 7, 9), d.literal(2, [1]));
    expect(readBack(used, build(used))).toEqual(readBack(fresh, build(fresh)));
    expect(used.size(build(used))).toBe(fresh.size(build(fresh)));
    expect(used.someValue(build(used), 1)).toBe(fresh.someValue(build(fresh), 1));
  });

  it('lets a mapping ask for another mapping on the way', () => {
    const diagrams = new Diagrams([2, 2]);
    const f = diagrams.ite(diagrams.literal(0, [1]), diagrams.ite(diagrams.literal(1, [1]), 4, 5), 6);
    const g = diagrams.map(
      f,
      (terminal) =>
        diagrams.terminals(
          diagrams.map(f, (t) => t + 1),
          1,
        ).length + terminal,
    );
    expect(readBack(diagrams, g)).toEqual([9, 9, 8, 7]);
  });

  it('refuses a variable that it does not have', () => {
    expect(() => new Diagrams([2]).literal(1, [0])).toThrow(RangeError);
  });
});
