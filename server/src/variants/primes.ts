import { type Diagram, type Diagrams, TERMINAL_BOUND } from './diagram';

/** Beyond this much work (nodes met and cubes weighed) the primes are given up; the same for every history. */
const WORK_BOUND = 30_000;
/** With more different branches at one node, its subsets are too many to try. */
const MOST_BRANCHES = 7;
const MOST_PRIMES = 2_000;

/**
 * The prime implicants of a set: the cubes within it that no wider cube within it holds. A cube lets each variable have
 * one of some values; it comes as the diagram of its own set. In no particular order.
 * Undefined where they are too many to be listed.
 */
export function primesOf(diagrams: Diagrams, set: Diagram): readonly Diagram[] | undefined {
  const search = new PrimeSearch(diagrams);
  const primes = search.primes(set);
  return search.gaveUp ? undefined : primes;
}

class PrimeSearch {
  gaveUp = false;
  private work = 0;
  private readonly known = new Map<Diagram, readonly Diagram[]>();

  constructor(private readonly diagrams: Diagrams) {}

  primes(set: Diagram): readonly Diagram[] {
    if (set < TERMINAL_BOUND) return set === 0 ? [] : [1];
    const known = this.known.get(set);
    if (known !== undefined) return known;
    const { diagrams } = this;
    const variable = diagrams.levelOf(set);
    const arity = diagrams.arities[variable]!;
    // Values that lead to the same place are always allowed together.
    const branches: Diagram[] = [];
    const branchOf: number[] = [];
    for (let value = 0; value < arity; value++) {
      const kid = diagrams.child(set, value);
      const place = branches.indexOf(kid);
      branchOf.push(kid === 0 ? -1 : place < 0 ? branches.length : place);
      if (kid !== 0 && place < 0) branches.push(kid);
    }
    const found: Diagram[] = [];
    if (branches.length > MOST_BRANCHES) this.gaveUp = true;
    for (let chosen = 1; chosen < 1 << branches.length && !this.gaveUp; chosen++) {
      let common: Diagram = 1;
      for (let b = 0; b < branches.length; b++)
        if (chosen & (1 << b)) common = diagrams.and(common, branches[b]!);
      for (const prime of this.primes(common)) {
        if (this.isTired(found.length)) break;
        // Prime only where no further branch could be allowed as well.
        if (branches.some((branch, b) => !(chosen & (1 << b)) && diagrams.implies(prime, branch))) continue;
        found.push(
          diagrams.node(
            variable,
            branchOf.map((b) => (b >= 0 && chosen & (1 << b) ? prime : 0)),
          ),
        );
      }
      this.isTired(found.length);
    }
    this.known.set(set, found);
    return found;
  }

  private isTired(found: number): boolean {
    if (++this.work > WORK_BOUND || found > MOST_PRIMES) this.gaveUp = true;
    return this.gaveUp;
  }
}
