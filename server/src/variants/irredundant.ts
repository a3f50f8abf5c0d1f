import { type Diagram, type Diagrams, TERMINAL_BOUND } from './diagram';

/** The cubes of a cover, each as the diagram of its own set. */
export interface CubeSets {
  readonly cubes: readonly Diagram[];
  /** False where the list stopped at its bound and does not cover everything. */
  readonly complete: boolean;
}

/** Drops, from the last back, each cube whose part of `on` the others hold; what stays covers the same and needs all of it. */
export function withoutRedundant(diagrams: Diagrams, on: Diagram, cubes: readonly Diagram[]): Diagram[] {
  const before: Diagram[] = [0];
  for (const cube of cubes) before.push(diagrams.or(before[before.length - 1]!, cube));
  const kept: Diagram[] = [];
  let after: Diagram = 0;
  for (let index = cubes.length - 1; index >= 0; index--) {
    const cube = cubes[index]!;
    const others = diagrams.or(before[index]!, after);
    if (diagrams.implies(diagrams.and(cube, on), others)) continue;
    kept.push(cube);
    after = diagrams.or(after, cube);
  }
  return kept.reverse();
}

/**
 * An irredundant cover by primes, without listing all primes: takes the first variant that is left, widens it as far as
 * it goes, takes that away, and at the end drops what is no longer needed. Not always the shortest. Stops at `limit` cubes.
 *
 * @param on what must be covered, a part of `allowed`.
 * @param widening all variables, in the order in which a cube tries to do without them.
 */
export function irredundantCover(
  diagrams: Diagrams,
  on: Diagram,
  allowed: Diagram,
  widening: readonly number[],
  limit: number,
): CubeSets {
  const cubes: Diagram[] = [];
  let rest = on;
  while (rest !== 0 && cubes.length < limit) {
    const cube = widened(diagrams, firstPath(diagrams, rest), allowed, widening);
    cubes.push(cube);
    rest = diagrams.minus(rest, cube);
  }
  return { cubes: withoutRedundant(diagrams, on, cubes), complete: rest === 0 };
}

/** Which values each variable of a cube may have; a variable left out may have any. */
type Terms = ReadonlyMap<number, readonly number[]>;

/** The first way through a set, which is not empty: a cube within it. */
function firstPath(diagrams: Diagrams, set: Diagram): Terms {
  const terms = new Map<number, number[]>();
  let at = set;
  while (at !== 1) {
    let value = 0;
    while (diagrams.child(at, value) === 0) value++;
    terms.set(diagrams.levelOf(at), [value]);
    at = diagrams.child(at, value);
  }
  return terms;
}

function widened(diagrams: Diagrams, terms: Terms, allowed: Diagram, widening: readonly number[]): Diagram {
  const current = new Map(terms);
  const within = (): boolean => diagrams.implies(cubeOf(diagrams, current), allowed);
  for (const variable of widening) {
    let values = current.get(variable);
    if (values === undefined) continue;
    current.delete(variable);
    if (within()) continue;
    for (let value = 0; value < diagrams.arities[variable]!; value++) {
      if (values.includes(value)) continue;
      const more: number[] = [...values, value];
      current.set(variable, more);
      if (within()) values = more;
    }
    current.set(variable, values);
  }
  return cubeOf(diagrams, current);
}

function cubeOf(diagrams: Diagrams, terms: Terms): Diagram {
  let set: Diagram = 1;
  for (const [variable, values] of [...terms].sort((a, b) => b[0] - a[0])) {
    set = diagrams.and(diagrams.literal(variable, values), set);
  }
  return set;
}

/** The share of all variants that a set holds, 0 to 1. */
export function shareOf(diagrams: Diagrams, set: Diagram): number {
  const shares = new Map<Diagram, number>();
  const share = (f: Diagram): number => {
    if (f < TERMINAL_BOUND) return f === 0 ? 0 : 1;
    const known = shares.get(f);
    if (known !== undefined) return known;
    const arity = diagrams.arities[diagrams.levelOf(f)]!;
    let sum = 0;
    for (let value = 0; value < arity; value++) sum += share(diagrams.child(f, value));
    shares.set(f, sum / arity);
    return sum / arity;
  };
  return share(set);
}
