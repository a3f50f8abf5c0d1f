import type { Diagram, Diagrams } from './diagram';
import { irredundantCover, shareOf, withoutRedundant } from './irredundant';
import { primesOf } from './primes';

/** The variable (its number in the manager) has one of the values; only values that occur within `care` are listed. */
export interface Term {
  readonly variable: number;
  readonly values: readonly number[];
}

/** Holds where all of its terms hold. Terms stand in declared order. */
export type Cube = readonly Term[];

/** A set in cubes: it holds, within `care`, where any cube holds. */
export interface Cover {
  /** Whether the set is all of `care`, none of it, or neither. Only for 'some' are there cubes. */
  readonly extent: 'none' | 'some' | 'all';
  readonly cubes: readonly Cube[];
  /** False where the set is too ragged to be written out (over 512 cubes): each cube is true, but there is more. */
  readonly complete: boolean;
}

const MOST_CUBES = 512;
/** A set with more nodes goes to the cover that lists no primes. */
const MOST_NODES = 2_000;
/** How many cubes the exact search adds to the essential ones at most, and how many trials it has. */
const EXACT_CUBES = 4;
const EXACT_TRIALS = 4_000;
/** With more candidates, the best next cube is no longer sought among all of them. */
const MOST_COMPARED = 120;

/**
 * The shortest way to say where `set` holds within `care`: an irredundant cover by prime implicants, what lies outside
 * `care` being of no matter. Fewest cubes, then fewest terms, then the earlier variables, exactly where few cubes are
 * needed (the essential ones and up to four more), else by a greedy choice. Depends on nothing but its arguments' meaning,
 * and for sets too ragged to list their primes on the manager's order of variables.
 *
 * @param order for each variable of the manager its place in the declared order; by default the manager's own.
 */
export function coverSet(
  diagrams: Diagrams,
  set: Diagram,
  care: Diagram = 1,
  order: readonly number[] = diagrams.arities.map((_, variable) => variable),
): Cover {
  const on = diagrams.and(set, care);
  if (on === 0) return { extent: 'none', cubes: [], complete: true };
  if (on === care) return { extent: 'all', cubes: [], complete: true };
  const allowed = diagrams.or(on, diagrams.not(care));
  const reader = new CubeReader(diagrams, care, order);
  const primes = diagrams.size(allowed) > MOST_NODES ? undefined : primesOf(diagrams, allowed);
  if (primes !== undefined) {
    const useful = primes.filter((prime) => diagrams.intersects(prime, on));
    const candidates = useful
      .map((prime) => ({ set: prime, cube: reader.read(prime) }))
      .sort((a, b) => reader.compare(a.cube, b.cube));
    return { extent: 'some', cubes: new Choice(diagrams, reader, on, candidates).cubes(), complete: true };
  }
  const widening = order.map((_, variable) => variable).sort((a, b) => order[b]! - order[a]!);
  const found = irredundantCover(diagrams, on, allowed, widening, MOST_CUBES);
  const cubes = found.cubes.map((cube) => reader.read(cube)).sort((a, b) => reader.compare(a, b));
  return { extent: 'some', cubes, complete: found.complete };
}

/** The cubes of `coverSet`; an empty list means all of `care` (or none: ask `isEmpty` first where that can be). */
export function describeSet(
  diagrams: Diagrams,
  set: Diagram,
  care: Diagram = 1,
  order?: readonly number[],
): readonly Cube[] {
  return coverSet(diagrams, set, care, order).cubes;
}

/** `coverSet` for one manager and order, each set worked out once. */
export class Covers {
  private readonly known = new Map<Diagram, Map<Diagram, Cover>>();

  constructor(
    private readonly diagrams: Diagrams,
    private readonly order: readonly number[],
  ) {}

  cover(set: Diagram, care: Diagram = 1): Cover {
    const on = this.diagrams.and(set, care);
    let covers = this.known.get(care);
    if (covers === undefined) {
      covers = new Map();
      this.known.set(care, covers);
    }
    let cover = covers.get(on);
    if (cover === undefined) {
      cover = coverSet(this.diagrams, on, care, this.order);
      covers.set(on, cover);
    }
    return cover;
  }
}

/** Reads the terms out of a cube's diagram, and puts cubes in order. */
class CubeReader {
  private readonly occurring = new Map<number, boolean[]>();

  constructor(
    private readonly diagrams: Diagrams,
    private readonly care: Diagram,
    private readonly order: readonly number[],
  ) {}

  read(cube: Diagram): Cube {
    const terms: Term[] = [];
    let at = cube;
    while (at !== 1) {
      const variable = this.diagrams.levelOf(at);
      const occurring = this.occurringValues(variable);
      const values: number[] = [];
      let next: Diagram = 0;
      for (let value = 0; value < occurring.length; value++) {
        const kid = this.diagrams.child(at, value);
        if (kid === 0) continue;
        next = kid;
        if (occurring[value]) values.push(value);
      }
      terms.push({ variable, values });
      at = next;
    }
    return terms.sort((a, b) => this.order[a.variable]! - this.order[b.variable]!);
  }

  compare(a: Cube, b: Cube): number {
    for (let place = 0; place < a.length && place < b.length; place++) {
      const x = a[place]!;
      const y = b[place]!;
      const byVariable = this.order[x.variable]! - this.order[y.variable]!;
      if (byVariable !== 0) return byVariable;
      const byValues = compareLists(x.values, y.values);
      if (byValues !== 0) return byValues;
    }
    return a.length - b.length;
  }

  inOrder(variables: readonly number[]): number[] {
    return [...variables].sort((a, b) => this.order[a]! - this.order[b]!);
  }

  private occurringValues(variable: number): readonly boolean[] {
    const known = this.occurring.get(variable);
    if (known !== undefined) return known;
    const found: boolean[] = [];
    for (let value = 0; value < this.diagrams.arities[variable]!; value++) {
      found.push(this.diagrams.intersects(this.care, this.diagrams.literal(variable, [value])));
    }
    this.occurring.set(variable, found);
    return found;
  }
}

function compareLists(a: readonly number[], b: readonly number[]): number {
  for (let place = 0; place < a.length && place < b.length; place++) {
    if (a[place] !== b[place]) return a[place]! - b[place]!;
  }
  return a.length - b.length;
}

interface Candidate {
  readonly set: Diagram;
  readonly cube: Cube;
}

/** Chooses among all primes, which come in order. */
class Choice {
  private trials = 0;
  private best: { chosen: Candidate[]; terms: number } | undefined;

  constructor(
    private readonly diagrams: Diagrams,
    private readonly reader: CubeReader,
    private readonly on: Diagram,
    private readonly candidates: readonly Candidate[],
  ) {}

  cubes(): Cube[] {
    const { diagrams } = this;
    const essential = this.essential();
    let rest = this.on;
    for (const candidate of essential) rest = diagrams.minus(rest, candidate.set);
    const others = this.candidates.filter(
      (candidate) => !essential.has(candidate) && diagrams.intersects(candidate.set, rest),
    );
    let added: readonly Candidate[] = [];
    if (rest !== 0) added = this.exact(rest, others) ?? this.greedy(rest, others);
    const chosen = [...essential, ...added].sort((a, b) => this.reader.compare(a.cube, b.cube));
    // The exact choice needs all it has; a greedy one may not.
    const needed = new Set(
      withoutRedundant(
        diagrams,
        this.on,
        chosen.map((candidate) => candidate.set),
      ),
    );
    return chosen.filter((candidate) => needed.has(candidate.set)).map((candidate) => candidate.cube);
  }

  /** Those that alone hold some variant. */
  private essential(): Set<Candidate> {
    const { diagrams, candidates } = this;
    const after: Diagram[] = new Array(candidates.length + 1).fill(0);
    for (let place = candidates.length - 1; place >= 0; place--) {
      after[place] = diagrams.or(after[place + 1]!, candidates[place]!.set);
    }
    const found = new Set<Candidate>();
    let before: Diagram = 0;
    candidates.forEach((candidate, place) => {
      const own = diagrams.and(candidate.set, this.on);
      if (!diagrams.implies(own, diagrams.or(before, after[place + 1]!))) found.add(candidate);
      before = diagrams.or(before, candidate.set);
    });
    return found;
  }

  private exact(rest: Diagram, others: readonly Candidate[]): Candidate[] | undefined {
    for (let count = 1; count <= EXACT_CUBES; count++) {
      this.search(rest, count, [], 0, others);
      if (this.best !== undefined) return this.best.chosen;
      if (this.trials > EXACT_TRIALS) return undefined;
    }
    return undefined;
  }

  /** Every cover must hold the first variant that is left, so only those that hold it are tried. */
  private search(
    rest: Diagram,
    left: number,
    chosen: Candidate[],
    terms: number,
    others: readonly Candidate[],
  ): void {
    const variant = this.firstVariant(rest);
    for (const candidate of others) {
      if (this.diagrams.evaluate(candidate.set, variant) === 0) continue;
      if (++this.trials > EXACT_TRIALS) return;
      const total = terms + candidate.cube.length;
      if (this.best !== undefined && total > this.best.terms) continue;
      const rested = this.diagrams.minus(rest, candidate.set);
      if (rested === 0) this.offer([...chosen, candidate], total);
      else if (left > 1) this.search(rested, left - 1, [...chosen, candidate], total, others);
    }
  }

  private offer(chosen: Candidate[], terms: number): void {
    chosen.sort((a, b) => this.reader.compare(a.cube, b.cube));
    if (this.best !== undefined && terms === this.best.terms) {
      for (let place = 0; place < chosen.length; place++) {
        const difference = this.reader.compare(chosen[place]!.cube, this.best.chosen[place]!.cube);
        if (difference > 0) return;
        if (difference < 0) break;
      }
    }
    this.best = { chosen, terms };
  }

  private greedy(rest: Diagram, others: readonly Candidate[]): Candidate[] {
    const { diagrams } = this;
    const chosen: Candidate[] = [];
    let left = rest;
    if (others.length > MOST_COMPARED) {
      const byTerms = [...others].sort((a, b) => a.cube.length - b.cube.length);
      for (const candidate of byTerms) {
        if (!diagrams.intersects(candidate.set, left)) continue;
        chosen.push(candidate);
        left = diagrams.minus(left, candidate.set);
      }
      return chosen;
    }
    while (left !== 0) {
      let best: Candidate | undefined;
      let bestShare = 0;
      for (const candidate of others) {
        const gain = shareOf(diagrams, diagrams.and(candidate.set, left)) / (1 + candidate.cube.length / 8);
        // Sums of floats differ in the last digits with the order in which they are made.
        const share = Number(gain.toPrecision(12));
        if (share > bestShare) {
          best = candidate;
          bestShare = share;
        }
      }
      if (best === undefined) break;
      chosen.push(best);
      left = diagrams.minus(left, best.set);
    }
    return chosen;
  }

  /** The first variant in declared order, so that the number of trials does not hang on the manager's own order. */
  private firstVariant(set: Diagram): number[] {
    const { diagrams } = this;
    const variant = diagrams.arities.map(() => 0);
    let left = set;
    for (const variable of this.reader.inOrder(diagrams.support(set))) {
      for (let value = 0; value < diagrams.arities[variable]!; value++) {
        const narrowed = diagrams.and(left, diagrams.literal(variable, [value]));
        if (narrowed === 0) continue;
        variant[variable] = value;
        left = narrowed;
        break;
      }
    }
    return variant;
  }
}
