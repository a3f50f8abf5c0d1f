import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Covers, type Cube, coverSet, describeSet } from '../../server/src/variants/cubes';
import { Diagrams } from '../../server/src/variants/diagram';
import { irredundantCover } from '../../server/src/variants/irredundant';
import { allAssignments, diagramOf, manager, product, type Table, tables } from './brute';

const holds = (cube: Cube, assignment: readonly number[]): boolean =>
  cube.every((term) => term.values.includes(assignment[term.variable]!));

const covered = (cubes: readonly Cube[], assignment: readonly number[]): boolean =>
  cubes.some((cube) => holds(cube, assignment));

/** What a cover must be, checked on every assignment within care. */
function checkCover(set: Table, care: Table, cubes: readonly Cube[]): void {
  const all = allAssignments(set.arities).filter((_, row) => care.values[row] === 1);
  const inSet = new Set(
    allAssignments(set.arities).flatMap((assignment, row) =>
      set.values[row] === 1 ? [assignment.join()] : [],
    ),
  );
  const wanted = (assignment: readonly number[]): boolean => inSet.has(assignment.join());
  // Exact.
  for (const assignment of all) expect(covered(cubes, assignment)).toBe(wanted(assignment));
  // Irredundant.
  cubes.forEach((_, index) => {
    const others = cubes.filter((_, other) => other !== index);
    expect(all.some((assignment) => wanted(assignment) && !covered(others, assignment))).toBe(true);
  });
  // Prime: neither dropping a term nor allowing one more value that occurs stays within the set.
  const fits = (cube: Cube): boolean =>
    all.every((assignment) => !holds(cube, assignment) || wanted(assignment));
  for (const cube of cubes) {
    for (const term of cube) {
      expect(fits(cube.filter((other) => other !== term))).toBe(false);
      for (let value = 0; value < set.arities[term.variable]!; value++) {
        const occurs = all.some((assignment) => assignment[term.variable] === value);
        if (!occurs) expect(term.values).not.toContain(value);
        if (!occurs || term.values.includes(value)) continue;
        const wider = cube.map((other) =>
          other === term ? { ...term, values: [...term.values, value] } : other,
        );
        expect(fits(wider)).toBe(false);
      }
    }
  }
}

const someSetAndCare = tables(2, 1).map(([set, care]) => ({ set: set!, care: care! }));

describe('describing a set', () => {
  it('gives an exact, irredundant cover by primes within care', () => {
    fc.assert(
      fc.property(someSetAndCare, ({ set, care }) => {
        const diagrams = manager(set);
        const cover = coverSet(diagrams, diagramOf(diagrams, set), diagramOf(diagrams, care));
        const within = set.values.filter((_, row) => care.values[row] === 1);
        const extent = within.every((v) => v === 0) ? 'none' : within.every((v) => v === 1) ? 'all' : 'some';
        expect(cover.extent).toBe(extent);
        expect(cover.complete).toBe(true);
        if (extent === 'some') checkCover(set, care, cover.cubes);
        else expect(cover.cubes).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });

  it('finds no cover with fewer cubes by trying all of them', () => {
    const smallSets = fc
      .array(fc.integer({ min: 0, max: 1 }), { minLength: 12, maxLength: 12 })
      .map((values): Table => ({ arities: [2, 3, 2], values }));
    fc.assert(
      fc.property(smallSets, (set) => {
        const diagrams = manager(set);
        const cubes = describeSet(diagrams, diagramOf(diagrams, set));
        const all = allAssignments(set.arities);
        const wanted = all.flatMap((_, row) => (set.values[row] === 1 ? [row] : []));
        if (wanted.length === 0 || wanted.length === 12) return;
        // Every cube there is, as the bit mask of what it covers.
        const masks = new Set<number>();
        for (const a of [[0], [1], [0, 1]])
          for (const b of [[0], [1], [2], [0, 1], [0, 2], [1, 2], [0, 1, 2]])
            for (const c of [[0], [1], [0, 1]]) {
              const rows = all.flatMap((x, row) =>
                a.includes(x[0]!) && b.includes(x[1]!) && c.includes(x[2]!) ? [row] : [],
              );
              if (rows.every((row) => set.values[row] === 1)) {
                masks.add(rows.reduce((mask, row) => mask | (1 << row), 0));
              }
            }
        const goal = wanted.reduce((mask, row) => mask | (1 << row), 0);
        let fewest = 0;
        for (let reached = new Set([0]); !reached.has(goal); fewest++) {
          reached = new Set([...reached].flatMap((mask) => [...masks].map((more) => mask | more)));
        }
        expect(cubes.length).toBe(fewest);
      }),
      { numRuns: 150 },
    );
  });

  it('does not depend on the order inside the manager', () => {
    fc.assert(
      fc.property(someSetAndCare, fc.integer(), ({ set, care }, seed) => {
        const straight = manager(set);
        const plain = coverSet(straight, diagramOf(straight, set), diagramOf(straight, care));
        // The same functions with the variables turned round inside, and something else asked before.
        const count = set.arities.length;
        const order = set.arities.map((_, variable) => count - 1 - variable);
        const turned = new Diagrams([...set.arities].reverse());
        turned.literal(Math.abs(seed) % count, [0]);
        const inside = (table: Table) => {
          let f = 0;
          allAssignments(table.arities).forEach((assignment, row) => {
            if (table.values[row] === 0) return;
            let here = 1;
            assignment.forEach((value, variable) => {
              here = turned.and(here, turned.literal(order[variable]!, [value]));
            });
            f = turned.or(f, here);
          });
          return f;
        };
        const other = coverSet(turned, inside(set), inside(care), order);
        const named = other.cubes.map((cube) =>
          cube.map((term) => ({ ...term, variable: order[term.variable]! })),
        );
        expect({ ...other, cubes: named }).toEqual(plain);
      }),
      { numRuns: 200 },
    );
  });

  it('breaks ties by the declared order', () => {
    const diagrams = new Diagrams([2, 2, 2]);
    const [a, b, c] = [0, 1, 2].map((variable) => diagrams.literal(variable, [1])) as [
      number,
      number,
      number,
    ];
    // All but the two corners: a cycle of six primes, of which three cover; there are two such choices.
    const all = diagrams.or(diagrams.or(a, b), c);
    const set = diagrams.minus(all, diagrams.and(diagrams.and(a, b), c));
    expect(describeSet(diagrams, set)).toEqual([
      [
        { variable: 0, values: [0] },
        { variable: 1, values: [1] },
      ],
      [
        { variable: 0, values: [1] },
        { variable: 2, values: [0] },
      ],
      [
        { variable: 1, values: [0] },
        { variable: 2, values: [1] },
      ],
    ]);
  });

  it('never mentions a value that is not covered', () => {
    const diagrams = new Diagrams([3, 2]);
    const care = diagrams.literal(0, [0, 1]);
    expect(describeSet(diagrams, diagrams.literal(0, [0]), care)).toEqual([[{ variable: 0, values: [0] }]]);
    expect(coverSet(diagrams, care, care)).toEqual({ extent: 'all', cubes: [], complete: true });
  });

  it('works each set out once', () => {
    const diagrams = new Diagrams([3, 2]);
    const covers = new Covers(diagrams, [0, 1]);
    const set = diagrams.literal(0, [1]);
    expect(covers.cover(set)).toBe(covers.cover(set));
    // The same set within care is the same question.
    const care = diagrams.literal(1, [0]);
    expect(covers.cover(set, care)).toBe(covers.cover(diagrams.and(set, care), care));
  });
});

describe('the cover without a list of primes', () => {
  it('is exact, irredundant and prime too', () => {
    fc.assert(
      fc.property(tables(1, 1), ([set]) => {
        const diagrams = manager(set!);
        const f = diagramOf(diagrams, set!);
        const order = set!.arities.map((_, variable) => variable);
        const found = irredundantCover(diagrams, f, f, order, 1000);
        expect(found.complete).toBe(true);
        const cubes = found.cubes.map((cube) => {
          const read = describeSet(diagrams, cube);
          return cube === 1 ? [] : read[0]!;
        });
        const everywhere = { arities: set!.arities, values: set!.values.map(() => 1) };
        if (f !== 0) checkCover(set!, everywhere, cubes);
        else expect(cubes).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });
});

describe('hostile sets', () => {
  it('writes out a parity of ten, where every variant is a cube of its own', () => {
    const { diagrams, parity } = parityOf(10);
    const cover = coverSet(diagrams, parity);
    expect(cover.complete).toBe(true);
    expect(cover.cubes.length).toBe(512);
  });

  it('stops at a bound on a parity of twenty, and every cube it gives is true', () => {
    const { diagrams, parity } = parityOf(20);
    const cover = coverSet(diagrams, parity);
    expect(cover.complete).toBe(false);
    expect(cover.cubes.length).toBeLessThanOrEqual(512);
    for (const cube of cover.cubes) {
      const set = cube.reduce((f, term) => diagrams.and(f, diagrams.literal(term.variable, term.values)), 1);
      expect(diagrams.implies(set, parity)).toBe(true);
    }
  });

  it('bears a value list of forty and random sets of ten variables', () => {
    const many = new Diagrams([40, 40]);
    let stairs = 0;
    for (let k = 0; k < 40; k++) {
      const upTo = Array.from({ length: k + 1 }, (_, value) => value);
      stairs = many.or(stairs, many.and(many.literal(0, [k]), many.literal(1, upTo)));
    }
    const steps = coverSet(many, stairs);
    expect(steps.complete).toBe(true);
    expect(steps.cubes.length).toBe(40);
    let seed = 12345;
    const random = (): number => {
      seed = (Math.imul(seed, 1103515245) + 12345) >>> 0;
      return seed >>> 16;
    };
    const arities = new Array<number>(10).fill(2);
    for (let round = 0; round < 3; round++) {
      const values = Array.from({ length: product(arities) }, () => random() & 1);
      const diagrams = new Diagrams(arities);
      const set = diagramOf(diagrams, { arities, values });
      const cover = coverSet(diagrams, set);
      expect(cover.complete).toBe(true);
      const again = cover.cubes.reduce(
        (f, cube) =>
          diagrams.or(
            f,
            cube.reduce((g, term) => diagrams.and(g, diagrams.literal(term.variable, term.values)), 1),
          ),
        0,
      );
      expect(again).toBe(set);
    }
  });
});

function parityOf(count: number): { diagrams: Diagrams; parity: number } {
  const diagrams = new Diagrams(new Array(count).fill(2));
  let parity = 0;
  for (let variable = count - 1; variable >= 0; variable--) {
    const literal = diagrams.literal(variable, [1]);
    parity = diagrams.ite(literal, diagrams.not(parity), parity);
  }
  return { diagrams, parity };
}
