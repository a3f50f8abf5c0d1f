import { coverSet } from '../../server/src/variants/cubes';
import { type Diagram, Diagrams, SUPPORT_BOUND } from '../../server/src/variants/diagram';

/** A repeatable stream of numbers below `below`. */
function numbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

/**
 * A run over `steps` steps of three operations, of which 15 % stand under a condition on one or two of `traits` two-valued
 * traits; with no traits it is one variant alone. Gives the final states.
 */
export function runSteps(diagrams: Diagrams, steps: number, items = 200): Int32Array {
  const next = numbers(7);
  const traits = diagrams.arities.length;
  const states = new Int32Array(items).fill(2);
  for (let operation = 0; operation < steps * 3; operation++) {
    const item = next(items);
    const from = 2 + next(5);
    const to = 2 + next(5);
    const moved = diagrams.map(states[item]!, (state) =>
      state === from ? to : state + 1 > 6 ? 2 : state + 1,
    );
    let where: Diagram = 1;
    const conditional = next(100) < 15;
    const first = next(Math.max(1, traits));
    const second = next(3) === 0 ? (first + 1) % Math.max(1, traits) : first;
    if (conditional && traits > 0) {
      where = diagrams.and(diagrams.literal(first, [1]), diagrams.literal(second, [1]));
    }
    const after = diagrams.ite(where, moved, states[item]!);
    states[item] = diagrams.supportSize(after) > SUPPORT_BOUND ? 0 : after;
  }
  return states;
}

/** How often longer a warm run takes with `traits` two-valued traits than for one variant; `now` is a clock in milliseconds. */
export function ratioToOneVariant(now: () => number, traits: number, steps = 1000, rounds = 30): number {
  const best = (count: number): number => {
    const diagrams = new Diagrams(new Array<number>(count).fill(2));
    let least = Number.POSITIVE_INFINITY;
    for (let round = 0; round < rounds; round++) {
      const start = now();
      runSteps(diagrams, steps);
      least = Math.min(least, now() - start);
    }
    return least;
  };
  best(0);
  return best(traits) / best(0);
}

/** Milliseconds per set that it takes to describe where items of a run have a state, and how many cubes that gives. */
export function describeStates(now: () => number, traits = 20): { milliseconds: number; cubes: number } {
  const diagrams = new Diagrams(new Array<number>(traits).fill(2));
  const sets = [...runSteps(diagrams, 1000)]
    .map((state) => diagrams.equals(state, 3))
    .filter((set) => set > 1);
  const start = now();
  let cubes = 0;
  for (const set of sets) cubes += coverSet(diagrams, set).cubes.length;
  const count = Math.max(1, sets.length);
  return { milliseconds: (now() - start) / count, cubes: cubes / count };
}

/** Milliseconds and nodes of a run that conditions as hostile as can be: every operation on another trait, one item. */
export function hostileRun(
  now: () => number,
  traits = 20,
  operations = 3000,
): { milliseconds: number; nodes: number } {
  const diagrams = new Diagrams(new Array<number>(traits).fill(2));
  const next = numbers(11);
  const start = now();
  let state: Diagram = 2;
  for (let operation = 0; operation < operations; operation++) {
    const where = diagrams.literal(next(traits), [1]);
    const moved = diagrams.map(state, (value) => 2 + ((value * 7 + operation) % 60));
    state = diagrams.ite(where, moved, state);
    if (diagrams.supportSize(state) > SUPPORT_BOUND) state = 2;
  }
  return { milliseconds: now() - start, nodes: diagrams.nodeCount };
}
