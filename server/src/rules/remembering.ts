/** What the rules of the rule language keep in mind while a guide runs (schemas/semantics.md §7). */

import { type Event, nameOf } from '../simulate/event';
import type { Simulation } from '../simulate/simulation';
import type { Branch, Item as StateItem } from '../simulate/state';
import { type Item, keyOf, keysMet, wantedItems } from './related';
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

/** Keeps in mind, after an event, what was done to its item, until an operation undoes it. */
export function remember(
  sim: Simulation,
  branch: Branch,
  rule: Rule,
  what: Remembered,
  earlier: Earlier,
  event: Event,
): void {
  if (!isSeen(event)) return;
  const { of, since } = earlier;
  if (since.includes(event.verb)) {
    branch.put(bit(rule, what, of === 'any' ? keysMet(of, event)[0]! : eventKey(event)), false);
    if (matchesItem(rule.watch, event))
      for (const item of wantedItems(sim, of, event)) branch.put(bit(rule, what, keyOf(item)), false);
  }
  if (fits(earlier, event)) for (const key of keysMet(of, event)) branch.put(bit(rule, what, key), true);
}

/** Whether it came, and was not undone, on one of the items. */
export const came = (branch: Branch, rule: Rule, what: Remembered, items: readonly Item[]): boolean =>
  items.some((item) => exists(branch, item) && branch.get(bit(rule, what, keyOf(item))) === true);
