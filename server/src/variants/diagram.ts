import { type Diagram, NodeStore, TERMINAL_BOUND } from './nodes';

export { type Diagram, TERMINAL_BOUND } from './nodes';

/** Where the arities in an item's support multiply to more than this, the item is to be given up as unknown (measured, see the bench). */
export const SUPPORT_BOUND = 1024;

const FIRST_CACHE_BITS = 10;
const LAST_CACHE_BITS = 16;

/**
 * The manager of multi-valued decision diagrams with many terminals, hash-consed: two diagrams of one manager mean the
 * same function exactly when their ids are equal. A *set* is a diagram whose terminals are 0 and 1. Variables are
 * numbered in the order they are asked, values of a variable from 0.
 *
 * Nodes are never freed; a document whose `nodeCount` grew past some 500,000 is rebuilt with a new manager.
 * No result depends on what the manager was asked before, only ids do, so never sort or print by id.
 * Arguments out of range are mistakes of the caller and are not checked, save in `literal`.
 */
export class Diagrams extends NodeStore {
  // Lossy caches of `ite` and `equals`, grown with the nodes.
  private cacheMask = 0;
  private iteKeys = new Int32Array(0);
  private iteResults = new Int32Array(0);
  private equalsKeys = new Int32Array(0);
  private equalsResults = new Int32Array(0);

  /** @param arities how many values each variable has, at least 1 each, in the order in which diagrams ask them. */
  constructor(arities: readonly number[]) {
    super(arities);
    this.resizeCaches(FIRST_CACHE_BITS);
  }

  /** The set where `variable` has one of `values`; values the variable does not have are left out. */
  literal(variable: number, values: readonly number[]): Diagram {
    const arity = this.arities[variable];
    if (arity === undefined) throw new RangeError(`no variable ${variable}`);
    const base = this.reserve(arity);
    this.stack.fill(0, base, base + arity);
    for (const value of values) if (value >= 0 && value < arity) this.stack[base + value] = 1;
    return this.finish(variable, base);
  }

  /** `whenTrue` inside the set `condition`, `whenFalse` outside it. Both may have any terminals. */
  ite(condition: Diagram, whenTrue: Diagram, whenFalse: Diagram): Diagram {
    if (condition === 1 || whenTrue === whenFalse) return whenTrue;
    if (condition === 0) return whenFalse;
    if (whenTrue === 1 && whenFalse === 0) return condition;
    const mixed =
      Math.imul(condition, 0x9e3779b1) ^ Math.imul(whenTrue, 0x85ebca6b) ^ Math.imul(whenFalse, 0xc2b2ae35);
    const hash = mixed ^ (mixed >>> 15);
    const slot = hash & this.cacheMask;
    const keys = this.iteKeys;
    if (keys[slot * 3] === condition && keys[slot * 3 + 1] === whenTrue && keys[slot * 3 + 2] === whenFalse) {
      return this.iteResults[slot]!;
    }
    const levelC = this.levelOf(condition);
    const levelT = this.levelOf(whenTrue);
    const levelF = this.levelOf(whenFalse);
    const variable = Math.min(levelC, levelT, levelF);
    const arity = this.arities[variable]!;
    const base = this.reserve(arity);
    for (let value = 0; value < arity; value++) {
      const result = this.ite(
        levelC === variable ? this.child(condition, value) : condition,
        levelT === variable ? this.child(whenTrue, value) : whenTrue,
        levelF === variable ? this.child(whenFalse, value) : whenFalse,
      );
      this.stack[base + value] = result;
    }
    const made = this.finish(variable, base);
    const place = hash & this.cacheMask; // the cache may have grown meanwhile
    this.iteKeys[place * 3] = condition;
    this.iteKeys[place * 3 + 1] = whenTrue;
    this.iteKeys[place * 3 + 2] = whenFalse;
    this.iteResults[place] = made;
    return made;
  }

  /** Of two sets, the variants in both. */
  and(a: Diagram, b: Diagram): Diagram {
    return a < b ? this.ite(a, b, 0) : this.ite(b, a, 0);
  }

  /** Of two sets, the variants in either. */
  or(a: Diagram, b: Diagram): Diagram {
    return a < b ? this.ite(a, 1, b) : this.ite(b, 1, a);
  }

  /** The variants outside a set. */
  not(a: Diagram): Diagram {
    return this.ite(a, 0, 1);
  }

  /** Of two sets, the variants in `a` and not in `b`. */
  minus(a: Diagram, b: Diagram): Diagram {
    return this.ite(b, 0, a);
  }

  /** The variants that are in a set for some value of `variable`: the set, with that variable forgotten. */
  forget(set: Diagram, variable: number): Diagram {
    const known = new Map<Diagram, Diagram>();
    const forgotten = (f: Diagram): Diagram => {
      const level = this.levelOf(f);
      if (level > variable) return f;
      const found = known.get(f);
      if (found !== undefined) return found;
      let made: Diagram = 0;
      if (level === variable) {
        for (let value = 0; value < this.arities[level]!; value++) made = this.or(made, this.child(f, value));
      } else {
        const children = Array.from({ length: this.arities[level]! }, (_, value) =>
          forgotten(this.child(f, value)),
        );
        made = this.node(level, children);
      }
      known.set(f, made);
      return made;
    };
    return forgotten(set);
  }

  /** Whether set `a` lies within set `b`. */
  implies(a: Diagram, b: Diagram): boolean {
    return this.minus(a, b) === 0;
  }

  /** Whether two sets share a variant. */
  intersects(a: Diagram, b: Diagram): boolean {
    return this.and(a, b) !== 0;
  }

  /** Whether a set holds no variant. */
  isEmpty(set: Diagram): boolean {
    return set === 0;
  }

  /** The set of variants where `f` has the terminal `value`. */
  equals(f: Diagram, value: number): Diagram {
    if (f < TERMINAL_BOUND) return f === value ? 1 : 0;
    const mixed = Math.imul(f, 0x9e3779b1) ^ Math.imul(value, 0x85ebca6b);
    const hash = mixed ^ (mixed >>> 15);
    const slot = hash & this.cacheMask;
    if (this.equalsKeys[slot * 2] === f && this.equalsKeys[slot * 2 + 1] === value) {
      return this.equalsResults[slot]!;
    }
    const variable = this.levelOf(f);
    const arity = this.arities[variable]!;
    const base = this.reserve(arity);
    for (let k = 0; k < arity; k++) {
      const result = this.equals(this.child(f, k), value);
      this.stack[base + k] = result;
    }
    const made = this.finish(variable, base);
    const place = hash & this.cacheMask;
    this.equalsKeys[place * 2] = f;
    this.equalsKeys[place * 2 + 1] = value;
    this.equalsResults[place] = made;
    return made;
  }

  /** `f` with each terminal replaced by `change` of it (0 to 65,535); `change` is asked at least once for each terminal. */
  map(f: Diagram, change: (terminal: number) => number): Diagram {
    if (f < TERMINAL_BOUND) return change(f);
    return this.mapped(f, change, ++this.generation);
  }

  /** The terminal that `f` has where variable `v` has the value `assignment[v]`; only the support is read. */
  evaluate(f: Diagram, assignment: ArrayLike<number>): number {
    let at = f;
    while (at >= TERMINAL_BOUND) at = this.child(at, assignment[this.levelOf(at)]!);
    return at;
  }

  /** The variables on which `f` really depends, ascending. */
  support(f: Diagram): number[] {
    if (f < TERMINAL_BOUND) return [];
    const known = this.supports.variables(this.supportOf[f - TERMINAL_BOUND]!);
    if (known !== undefined) return [...known];
    const found = new Set<number>();
    this.walk(f, (node) => found.add(this.levelOf(node)));
    return [...found].sort((a, b) => a - b);
  }

  /** The product of the arities in the support: how many variants `f` can tell apart. `Infinity` past 2^40. Constant time. */
  supportSize(f: Diagram): number {
    return f < TERMINAL_BOUND ? 1 : this.supports.size(this.supportOf[f - TERMINAL_BOUND]!);
  }

  /** As `supportSize`, for the supports of two diagrams together: a bound that can be asked before they are combined. */
  jointSupportSize(f: Diagram, g: Diagram): number {
    if (f < TERMINAL_BOUND) return this.supportSize(g);
    if (g < TERMINAL_BOUND) return this.supportSize(f);
    return this.supports.size(
      this.supports.union(this.supportOf[f - TERMINAL_BOUND]!, this.supportOf[g - TERMINAL_BOUND]!),
    );
  }

  /** A terminal that `f` has somewhere inside the set `within`, which must not be empty. */
  someValue(f: Diagram, within: Diagram): number {
    let at = f;
    let inside = within;
    while (at >= TERMINAL_BOUND) {
      const levelF = this.levelOf(at);
      const levelW = this.levelOf(inside);
      if (levelW > levelF) {
        at = this.child(at, 0);
        continue;
      }
      let value = 0;
      while (value < this.arities[levelW]! - 1 && this.child(inside, value) === 0) value++;
      inside = this.child(inside, value);
      if (levelF === levelW) at = this.child(at, value);
    }
    return at;
  }

  /** The one terminal that `f` has everywhere inside the set `within`, or -1 where there are several or `within` is empty. */
  constantWithin(f: Diagram, within: Diagram): number {
    if (within === 0) return -1;
    if (f < TERMINAL_BOUND) return f;
    const value = this.someValue(f, within);
    return this.implies(within, this.equals(f, value)) ? value : -1;
  }

  /** All terminals that `f` has inside the set `within`, ascending. */
  terminals(f: Diagram, within: Diagram): number[] {
    const found: number[] = [];
    let rest = within;
    while (rest !== 0) {
      const value = this.someValue(f, rest);
      found.push(value);
      rest = this.minus(rest, this.equals(f, value));
    }
    return found.sort((a, b) => a - b);
  }

  /** How many variants a set holds, over all variables of the manager; a float, so inexact past 2^53. */
  count(set: Diagram): number {
    const shares = new Map<Diagram, number>();
    const share = (f: Diagram): number => {
      if (f < TERMINAL_BOUND) return f === 0 ? 0 : 1;
      const known = shares.get(f);
      if (known !== undefined) return known;
      // Counted below this node, as if every variable under it were asked.
      const level = this.levelOf(f);
      let sum = 0;
      for (let value = 0; value < this.arities[level]!; value++) {
        const kid = this.child(f, value);
        sum += share(kid) * this.variantsBetween(level + 1, this.levelOf(kid));
      }
      shares.set(f, sum);
      return sum;
    };
    return share(set) * this.variantsBetween(0, this.levelOf(set));
  }

  /** How many inner nodes this diagram has. */
  size(f: Diagram): number {
    let nodes = 0;
    this.walk(f, () => nodes++);
    return nodes;
  }

  private variantsBetween(from: number, to: number): number {
    let product = 1;
    const end = Math.min(to, this.arities.length);
    for (let variable = from; variable < end; variable++) product *= this.arities[variable]!;
    return product;
  }

  private mapped(f: Diagram, change: (terminal: number) => number, generation: number): Diagram {
    if (f < TERMINAL_BOUND) return change(f);
    const row = f - TERMINAL_BOUND;
    // A nested `map` uses a later generation, so it can only make this one forget, never mislead it.
    if (this.mark[row] === generation) return this.marked[row]!;
    const variable = this.level[row]!;
    const arity = this.arities[variable]!;
    const base = this.reserve(arity);
    for (let value = 0; value < arity; value++) {
      const result = this.mapped(this.child(f, value), change, generation);
      this.stack[base + value] = result;
    }
    const made = this.finish(variable, base);
    this.mark[row] = generation;
    this.marked[row] = made;
    return made;
  }

  protected override rowsGrown(length: number): void {
    const bits = 31 - Math.clz32(length);
    if (bits > FIRST_CACHE_BITS && bits <= LAST_CACHE_BITS) this.resizeCaches(bits);
  }

  private resizeCaches(bits: number): void {
    const entries = 1 << bits;
    this.cacheMask = entries - 1;
    this.iteKeys = new Int32Array(entries * 3).fill(-1);
    this.iteResults = new Int32Array(entries);
    this.equalsKeys = new Int32Array(entries * 2).fill(-1);
    this.equalsResults = new Int32Array(entries);
  }
}
