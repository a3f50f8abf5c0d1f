import { SupportTable } from './supports';

/** A diagram's id within its manager. Ids below `TERMINAL_BOUND` are terminals: the value itself. 0 is false, 1 is true. */
export type Diagram = number;

/** Ids below this are terminals, so a state value is any integer from 0 to 65,535. */
export const TERMINAL_BOUND = 1 << 16;

/** Stands for "below every variable" in comparisons of levels. */
const BOTTOM = 0x7fffffff;

const grown = (array: Int32Array, length: number) => {
  const longer = new Int32Array(length);
  longer.set(array);
  return longer;
};

/** The nodes of a manager in typed arrays, each node once. What they mean together is `Diagrams`' affair. */
export class NodeStore {
  readonly arities: readonly number[];
  protected readonly supports: SupportTable;
  // One row per node, at id - TERMINAL_BOUND.
  protected level = new Int32Array(1 << 8);
  private first = new Int32Array(1 << 8);
  protected supportOf = new Int32Array(1 << 8);
  protected mark = new Int32Array(1 << 8);
  protected marked = new Int32Array(1 << 8);
  private rows = 0;
  private kids = new Int32Array(1 << 9);
  private kidCount = 0;
  // Unique table: id of a node or 0, open addressing.
  private unique = new Int32Array(1 << 9);
  // Children under construction; recursion uses it as a stack, so that nothing is allocated on the way.
  protected stack = new Int32Array(1 << 8);
  private top = 0;
  protected generation = 0;

  constructor(arities: readonly number[]) {
    this.arities = arities.map((arity) => Math.max(1, arity));
    this.supports = new SupportTable(this.arities);
  }

  /** How many inner nodes were ever made; memory is proportional to it. */
  get nodeCount(): number {
    return this.rows;
  }

  /** The diagram that asks `variable` first and goes on with `children`, none of which may ask it or an earlier one. */
  node(variable: number, children: readonly Diagram[]): Diagram {
    const base = this.reserve(this.arities[variable]!);
    for (let value = 0; value < this.arities[variable]!; value++) this.stack[base + value] = children[value]!;
    return this.finish(variable, base);
  }

  /** The variable that `f` asks first, or a number above every variable where it is a terminal. */
  levelOf(f: Diagram): number {
    return f < TERMINAL_BOUND ? BOTTOM : this.level[f - TERMINAL_BOUND]!;
  }

  /** Where `f` goes on when the variable it asks first has `value`; `f` must not be a terminal. */
  child(f: Diagram, value: number): Diagram {
    return this.kids[this.first[f - TERMINAL_BOUND]! + value]!;
  }

  /** `f` where `variable` has `value`; `variable` must not stand below the one that `f` asks first. */
  cofactor(f: Diagram, variable: number, value: number): Diagram {
    return this.levelOf(f) === variable ? this.child(f, value) : f;
  }

  /** Visits every inner node of `f` once. */
  protected walk(f: Diagram, visit: (node: Diagram) => void): void {
    const generation = ++this.generation;
    const open = [f];
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      if (at < TERMINAL_BOUND || this.mark[at - TERMINAL_BOUND] === generation) continue;
      this.mark[at - TERMINAL_BOUND] = generation;
      this.marked[at - TERMINAL_BOUND] = 0;
      visit(at);
      for (let value = this.arities[this.levelOf(at)]! - 1; value >= 0; value--)
        open.push(this.child(at, value));
    }
  }

  /** Room for `arity` children on the stack; every reservation ends in one `finish`. */
  protected reserve(arity: number): number {
    const base = this.top;
    this.top += arity;
    if (this.top > this.stack.length)
      this.stack = grown(this.stack, Math.max(this.top, this.stack.length * 2));
    return base;
  }

  /** Takes the children at `base` off the stack and gives the one node that has them. */
  protected finish(variable: number, base: number): Diagram {
    const arity = this.top - base;
    const stack = this.stack;
    this.top = base;
    const firstKid = stack[base]!;
    let same = true;
    for (let k = 1; k < arity && same; k++) same = stack[base + k] === firstKid;
    if (same) return firstKid;
    const mask = this.unique.length - 1;
    let slot = this.hashed(variable, stack, base, arity) & mask;
    for (let id = this.unique[slot]!; id !== 0; id = this.unique[slot]!) {
      const row = id - TERMINAL_BOUND;
      if (this.level[row] === variable) {
        const offset = this.first[row]!;
        let k = 0;
        while (k < arity && this.kids[offset + k] === stack[base + k]) k++;
        if (k === arity) return id;
      }
      slot = (slot + 1) & mask;
    }
    return this.added(variable, base, arity, slot);
  }

  private added(variable: number, base: number, arity: number, slot: number): Diagram {
    const row = this.rows++;
    if (row >= this.level.length) this.growRows();
    if (this.kidCount + arity > this.kids.length) {
      this.kids = grown(this.kids, Math.max(this.kids.length * 2, this.kidCount + arity));
    }
    this.level[row] = variable;
    this.first[row] = this.kidCount;
    let support = this.supports.single(variable);
    for (let k = 0; k < arity; k++) {
      const kid = this.stack[base + k]!;
      this.kids[this.kidCount++] = kid;
      if (kid >= TERMINAL_BOUND)
        support = this.supports.union(support, this.supportOf[kid - TERMINAL_BOUND]!);
    }
    this.supportOf[row] = support;
    const id = row + TERMINAL_BOUND;
    this.unique[slot] = id;
    if (this.rows * 2 > this.unique.length) this.rehash();
    return id;
  }

  /** Called when there is room for `length` nodes. */
  protected rowsGrown(_length: number): void {}

  private growRows(): void {
    const length = this.level.length * 2;
    this.level = grown(this.level, length);
    this.first = grown(this.first, length);
    this.supportOf = grown(this.supportOf, length);
    this.mark = grown(this.mark, length);
    this.marked = grown(this.marked, length);
    this.rowsGrown(length);
  }

  private rehash(): void {
    this.unique = new Int32Array(this.unique.length * 2);
    const mask = this.unique.length - 1;
    for (let row = 0; row < this.rows; row++) {
      const variable = this.level[row]!;
      let slot = this.hashed(variable, this.kids, this.first[row]!, this.arities[variable]!) & mask;
      while (this.unique[slot] !== 0) slot = (slot + 1) & mask;
      this.unique[slot] = row + TERMINAL_BOUND;
    }
  }

  private hashed(variable: number, children: Int32Array, offset: number, arity: number): number {
    let hash = Math.imul(variable + 1, 0x9e3779b1);
    for (let k = 0; k < arity; k++) {
      hash = Math.imul(hash ^ children[offset + k]!, 0x85ebca6b);
      hash ^= hash >>> 15;
    }
    return (hash ^ (hash >>> 13)) >>> 0;
  }
}
