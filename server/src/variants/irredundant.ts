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
 * An irredundant cover between two sets without listing all primes, after Minato and Morreale, carried over to many
 * values; each cube is then widened to a prime. Not always the shortest. Stops at `limit` cubes.
 *
 * @param on what must be covered, a part of `allowed`.
 * @param widening the variables in the order in which a cube tries to drop them.
 */
export function irredundantCover(
  diagrams: Diagrams,
  on: Diagram,
  allowed: Diagram,
  widening: readonly number[],
  limit: number,
): CubeSets {
  const search = new CoverSearch(diagrams, limit);
  search.cover(on, allowed);
  const wide = search.cubes.map((terms) => widened(diagrams, terms, allowed, widening));
  return {
    cubes: withoutRedundant(diagrams, on, [...new Set(wide)]),
    complete: !search.stopped,
  };
}

/** Which values each variable of a cube may have; a variable left out may have any. */
type Terms = Map<number, number[]>;

class CoverSearch {
  readonly cubes: Terms[] = [];
  stopped = false;
  private readonly path: { variable: number; values: number[] }[] = [];

  constructor(
    private readonly diagrams: Diagrams,
    private readonly limit: number,
  ) {}

  /** Emits cubes that cover `needed` within `allowed`, on the present path; gives the set that they cover below it. */
  cover(needed: Diagram, allowed: Diagram): Diagram {
    if (needed === 0 || this.stopped) return 0;
    if (allowed === 1) {
      this.emit();
      return 1;
    }
    const { diagrams } = this;
    const variable = Math.min(diagrams.levelOf(needed), diagrams.levelOf(allowed));
    const arity = diagrams.arities[variable]!;
    let anyValue: Diagram = 1;
    for (let value = 0; value < arity; value++) {
      anyValue = diagrams.and(anyValue, diagrams.cofactor(allowed, variable, value));
    }
    const covered: Diagram[] = [];
    let rest: Diagram = 0;
    for (let value = 0; value < arity; value++) {
      const need = diagrams.cofactor(needed, variable, value);
      this.path.push({ variable, values: [value] });
      covered.push(this.cover(diagrams.minus(need, anyValue), diagrams.cofactor(allowed, variable, value)));
      this.path.pop();
      rest = diagrams.or(rest, diagrams.minus(need, covered[value]!));
    }
    const common = this.cover(rest, anyValue);
    return diagrams.node(
      variable,
      covered.map((part) => diagrams.or(part, common)),
    );
  }

  private emit(): void {
    if (this.cubes.length >= this.limit) {
      this.stopped = true;
      return;
    }
    this.cubes.push(new Map(this.path.map(({ variable, values }) => [variable, values])));
  }
}

function widened(diagrams: Diagrams, terms: Terms, allowed: Diagram, widening: readonly number[]): Diagram {
  const within = (trial: Terms): boolean => diagrams.implies(cubeOf(diagrams, trial), allowed);
  const current: Terms = new Map(terms);
  for (const variable of widening) {
    const values = current.get(variable);
    if (values === undefined) continue;
    const without: Terms = new Map(current);
    without.delete(variable);
    if (within(without)) {
      current.delete(variable);
      continue;
    }
    for (let value = 0; value < diagrams.arities[variable]!; value++) {
      const now = current.get(variable)!;
      if (now.includes(value)) continue;
      const more = [...now, value].sort((a, b) => a - b);
      if (within(new Map(current).set(variable, more))) current.set(variable, more);
    }
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
