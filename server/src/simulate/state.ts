/**
 * The state of every item after every operation, for all variants at once.
 *
 * An item's value is a decision diagram over the variants. What an operation does is written as plain code for one
 * variant that reads through `Branch.get` and writes through `Branch.put`; `State.explore` runs that code once for every
 * set of variants that the values read can tell apart, so the outcome is exact and shared work is done once.
 */

import { type Diagram, type Diagrams, SUPPORT_BOUND } from '../variants/diagram';
import { type Holds, Watchlist } from './watchlist';

export type Value = string | number | boolean;

/**
 * A thing that has a state: what of it is meant, the name of what it is of, and the instance. Items that agree in these
 * are the same; `initial` is its value before the guide starts.
 */
export interface Item {
  readonly kind: string;
  readonly of: string;
  /** Key of the instance, or nothing. */
  readonly at: string;
  readonly initial: Value;
}

/** An item in one word: `position:front-shock.lower-bolt@left`. */
export const keyOf = ({ kind, of, at }: Item): string => `${kind}:${of}${at}`;

/** One write: in `set`, the operation run as number `run` changed the item from `before` to `after`. */
interface Write {
  readonly run: number;
  readonly set: Diagram;
  readonly before: Diagram;
  readonly after: Diagram;
}

/** More sets than this for one operation are given up: the finding `too-many-variants` says so. */
const BRANCH_BOUND = 1024;

/** Thrown inside `explore` by reading an item that was given up. Never leaves it. */
class GivenUp extends Error {}

export class State {
  /** Items by kind, name and instance: their words are at hand and need not be joined. */
  private readonly index = new Map<string, Map<string, Map<string, number>>>();
  private readonly items: Item[] = [];
  private readonly vector: Diagram[] = [];
  private readonly writes: Write[][] = [];
  /** Who is to be told of changes, with the place by which it knows the item. */
  private readonly lists: ({ readonly list: Watchlist; readonly place: number }[] | undefined)[] = [];
  private readonly givenUp = new Set<number>();
  private readonly values: Value[] = [false, true];
  private readonly terminals = new Map<Value, number>([
    [false, 0],
    [true, 1],
  ]);
  /** Names of what could not be followed in all variants; nothing for a whole operation. */
  readonly lost = new Set<string>();

  constructor(readonly diagrams: Diagrams) {}

  /** Runs `body` for every set of variants within `within` that its reads can tell apart. `run` names the cause of its writes. */
  explore(within: Diagram, run: number, body: (branch: Branch) => void): void {
    const pending: Diagram[] = [];
    let next: Diagram | undefined = within;
    for (let count = 0; next !== undefined; count++, next = pending.pop()) {
      if (next === 0) continue;
      if (count > BRANCH_BOUND) {
        this.lost.add('');
        return;
      }
      const branch = new Branch(this, next, pending);
      try {
        body(branch);
      } catch (error) {
        if (!(error instanceof GivenUp)) throw error;
        continue;
      }
      branch.commit(run);
    }
  }

  /** The set of variants within `within` where the item has a value that `holds` of. */
  where(item: Item, within: Diagram, holds: (value: Value) => boolean): Diagram {
    const at = this.indexOf(item);
    return this.diagrams.and(
      within,
      this.diagrams.map(this.vector[at]!, (terminal) => (holds(this.values[terminal]!) ? 1 : 0)),
    );
  }

  /** The item's value in every variant, as sets by value. */
  valuesWithin(item: Item, within: Diagram): { value: Value; set: Diagram }[] {
    const f = this.vector[this.indexOf(item)]!;
    return this.diagrams.terminals(f, within).map((terminal) => ({
      value: this.values[terminal]!,
      set: this.diagrams.and(within, this.diagrams.equals(f, terminal)),
    }));
  }

  /** Which runs last made `holds` true of the item, by variants; `run` is -1 where it was so from the start. */
  madeBy(item: Item, within: Diagram, holds: (value: Value) => boolean): { run: number; set: Diagram }[] {
    const test = (terminal: number) => (holds(this.values[terminal]!) ? 1 : 0);
    const found: { run: number; set: Diagram }[] = [];
    const writes = this.writes[this.indexOf(item)]!;
    let rest = this.where(item, within, holds);
    for (let at = writes.length - 1; at >= 0 && rest !== 0; at--) {
      const { run, set, before, after } = writes[at]!;
      let made = this.diagrams.and(rest, set);
      if (made === 0) continue;
      made = this.diagrams.and(made, this.diagrams.map(after, test));
      made = this.diagrams.minus(made, this.diagrams.map(before, test));
      if (made === 0) continue;
      found.push({ run, set: made });
      rest = this.diagrams.minus(rest, made);
    }
    if (rest !== 0) found.push({ run: -1, set: rest });
    return found;
  }

  /** Which of some items have a value that `holds` of, in any variant: from now on, whenever it is asked. */
  watch(items: readonly Item[], holds: Holds): Watchlist {
    const indices = items.map((item) => this.indexOf(item));
    const list = new Watchlist(items.length, (place) =>
      this.diagrams
        .terminals(this.vector[indices[place]!]!, 1)
        .some((terminal) => holds(this.values[terminal]!)),
    );
    indices.forEach((at, place) => {
      this.lists[at] ??= [];
      this.lists[at].push({ list, place });
    });
    return list;
  }

  /** Every run that wrote the item within a set, in order. */
  writersOf(item: Item, within: Diagram): number[] {
    const writes = this.writes[this.indexOf(item)]!;
    return writes.filter((write) => this.diagrams.intersects(write.set, within)).map((write) => write.run);
  }

  /** A copy of the vector, for telling later what changed. */
  snapshot(): readonly Diagram[] {
    return this.vector.slice();
  }

  /** Keys whose diagram differs from a snapshot's, with both values by variant. */
  changedSince(
    snapshot: readonly Diagram[],
    within: Diagram,
  ): { key: string; from: Value; to: Value; set: Diagram }[] {
    const changes: { key: string; from: Value; to: Value; set: Diagram }[] = [];
    for (let at = 0; at < this.items.length; at++) {
      const after = this.vector[at]!;
      const before = at < snapshot.length ? snapshot[at]! : this.first(at);
      if (before === after) continue;
      const key = keyOf(this.items[at]!);
      for (const from of this.diagrams.terminals(before, within)) {
        const origin = this.diagrams.and(within, this.diagrams.equals(before, from));
        for (const to of this.diagrams.terminals(after, origin)) {
          if (to === from) continue;
          const set = this.diagrams.and(origin, this.diagrams.equals(after, to));
          changes.push({ key, from: this.values[from]!, to: this.values[to]!, set });
        }
      }
    }
    return changes;
  }

  /** For branches: the item's value somewhere in `within`, and the part of `within` where it has that value. */
  read(at: number, within: Diagram): { value: Value; set: Diagram } {
    if (this.givenUp.has(at)) throw new GivenUp();
    const f = this.vector[at]!;
    const terminal = this.diagrams.someValue(f, within);
    return {
      value: this.values[terminal]!,
      set: this.diagrams.and(within, this.diagrams.equals(f, terminal)),
    };
  }

  /** For branches: writes the value within a set. */
  write(at: number, value: Value, set: Diagram, run: number): void {
    const before = this.vector[at]!;
    const after = this.diagrams.ite(set, this.terminal(value), before);
    if (after === before) return;
    if (this.diagrams.supportSize(after) > SUPPORT_BOUND) {
      this.givenUp.add(at);
      const { of, at: instance } = this.items[at]!;
      this.lost.add(instance.startsWith('@') ? of + instance : of);
      return;
    }
    this.vector[at] = after;
    this.writes[at]!.push({ run, set, before, after });
    const lists = this.lists[at];
    if (lists !== undefined) for (const { list, place } of lists) list.stir(place);
  }

  private first(at: number): Diagram {
    const writes = this.writes[at]!;
    return writes.length > 0 ? writes[0]!.before : this.vector[at]!;
  }

  /** For branches: the place of an item in the vector. */
  indexOf(item: Item): number {
    const byInstance = inner(inner(this.index, item.kind), item.of);
    const known = byInstance.get(item.at);
    if (known !== undefined) return known;
    const at = this.vector.length;
    byInstance.set(item.at, at);
    this.items.push(item);
    this.vector.push(this.terminal(item.initial));
    this.writes.push([]);
    return at;
  }

  private terminal(value: Value): number {
    const known = this.terminals.get(value);
    if (known !== undefined) return known;
    const made = this.values.length;
    this.values.push(value);
    this.terminals.set(value, made);
    return made;
  }
}

/** The map under a key, made where there is none. */
function inner<V>(map: Map<string, Map<string, V>>, key: string): Map<string, V> {
  let found = map.get(key);
  if (found === undefined) {
    found = new Map();
    map.set(key, found);
  }
  return found;
}

/** One set of variants in which everything read so far has one value. */
export class Branch {
  private written: Map<number, Value> | null = null;
  private afterwards: ((set: Diagram) => void)[] | null = null;

  constructor(
    private readonly state: State,
    private current: Diagram,
    private readonly pending: Diagram[],
  ) {}

  /** The variants of this branch so far; later reads may narrow it. Use it in `whenDone`, when it is final. */
  get set(): Diagram {
    return this.current;
  }

  /** The item's value in this branch. Narrows the branch; the other variants get a branch of their own. */
  get(item: Item): Value {
    const at = this.state.indexOf(item);
    const own = this.written?.get(at);
    if (own !== undefined) return own;
    const { value, set } = this.state.read(at, this.current);
    this.narrow(set);
    return value;
  }

  /** Whether this branch lies in a set; splits it where it lies across. */
  within(set: Diagram): boolean {
    const inside = this.state.diagrams.and(this.current, set);
    if (inside === 0) return false;
    this.narrow(inside);
    return true;
  }

  put(item: Item, value: Value): void {
    this.written ??= new Map();
    this.written.set(this.state.indexOf(item), value);
  }

  /** Called with the final set of the branch, before its writes are made. */
  whenDone(report: (set: Diagram) => void): void {
    this.afterwards ??= [];
    this.afterwards.push(report);
  }

  /** For `State`: makes the writes. */
  commit(run: number): void {
    if (this.afterwards !== null) for (const report of this.afterwards) report(this.current);
    if (this.written === null) return;
    for (const [at, value] of this.written) this.state.write(at, value, this.current, run);
  }

  private narrow(set: Diagram): void {
    if (set === this.current) return;
    this.pending.push(this.state.diagrams.minus(this.current, set));
    this.current = set;
  }
}
