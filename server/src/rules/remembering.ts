/** What the rules of the rule language keep in mind while a guide runs (schemas/semantics.md §7). */

import { type Event, nameOf } from '../simulate/event';
import type { Simulation } from '../simulate/simulation';
import type { Branch, Item as StateItem } from '../simulate/state';
import { type Item, keyOf, keysMet, meets, wantedItems } from './related';
import type { Earlier, Rule } from './rule';
import { exists } from './states';
import { fits, isSeen, matchesItem } from './watching';

/** A mark of a rule on an item, not set at first. */
export const bit = (rule: Rule, what: string, key: string): StateItem => ({
  kind: what,
  of: key,
  at: rule.id,
  initial: false,
});
/** The key of the item that an event acts on. */
export const eventKey = (event: Event) => `${nameOf(event.subject)}${event.at.key}`;

/** What a rule remembers of each item: that something was done to it. */
export type Remembered = 'done' | 'after';

/** What one rule keeps in mind of what was done, until an operation undoes it. */
export class Memory {
  /** What anything was remembered of, in each run. */
  private readonly keys = new WeakMap<Simulation, Set<string>>();

  constructor(
    private readonly rule: Rule,
    private readonly what: Remembered,
    private readonly earlier: Earlier,
  ) {}

  /** Takes note of an event. */
  note(sim: Simulation, branch: Branch, event: Event): void {
    if (!isSeen(event)) return;
    const { of, since } = this.earlier;
    if (since.verb.includes(event.verb)) this.undo(sim, branch, event);
    if (fits(this.earlier, event)) for (const key of keysMet(of, event)) this.put(sim, branch, key);
  }

  /** Takes it for granted on an item. */
  assume(sim: Simulation, branch: Branch, item: Item): void {
    this.put(sim, branch, keyOf(item));
  }

  private put(sim: Simulation, branch: Branch, key: string): void {
    const known = this.keys.get(sim) ?? new Set<string>();
    this.keys.set(sim, known.add(key));
    branch.put(bit(this.rule, this.what, key), true);
  }

  private undo(sim: Simulation, branch: Branch, event: Event): void {
    const { of, since } = this.earlier;
    const clear = (key: string) => branch.put(bit(this.rule, this.what, key), false);
    if (since.of !== null) {
      // Of these there is one for the whole guide: it undoes all that was done.
      if (meets(sim, since.of, event, event)) this.keys.get(sim)?.forEach(clear);
      return;
    }
    clear(of === 'any' ? keysMet(of, event)[0]! : eventKey(event));
    if (matchesItem(this.rule.watch, event))
      for (const item of wantedItems(sim, of, event)) clear(keyOf(item));
  }
}

/** Whether it came, and was not undone, on one of the items. */
export const came = (branch: Branch, rule: Rule, what: Remembered, items: readonly Item[]): boolean =>
  items.some((item) => exists(branch, item) && branch.get(bit(rule, what, keyOf(item))) === true);
