/** Whether a rule asks about an event, and whether the state it wants holds (schemas/semantics.md §7). */

import type { Event } from '../simulate/event';
import type { Simulation } from '../simulate/simulation';
import type { Branch } from '../simulate/state';
import { takeForGranted } from './granting';
import { type Item, relatedItems, wantedItems } from './related';
import { came } from './remembering';
import type { Excuse, Need, Rule } from './rule';
import { exists, isIn } from './states';
import { isSeen, matches } from './watching';

/** Whether a rule asks about an event: it matches, what `after` wants came before it, and nothing excuses it. */
export function watched(sim: Simulation, branch: Branch, rule: Rule, event: Event): boolean {
  const { after } = rule.watch;
  return (
    isSeen(event) &&
    matches(rule.watch, event) &&
    (after === null || came(branch, rule, 'after', wantedItems(sim, after.of, event))) &&
    !rule.unless.some((it) => excuses(sim, branch, it, event))
  );
}

/** The verbs that a rule is to be shown for what it watches. */
export const watchedVerbs = (rule: Rule): readonly string[] =>
  rule.watch.verb.length > 0 ? rule.watch.verb : ['*'];

function excuses(sim: Simulation, branch: Branch, excuse: Excuse, event: Event): boolean {
  if ('people' in excuse) return event.step.people >= excuse.people;
  if ('caution' in excuse) return event.step.hasCaution;
  const items = relatedItems(sim, excuse.of, event).filter((item) => exists(branch, item));
  return items.length > 0 && holds(sim, branch, excuse, items);
}

/** What would have excused an operation counts as done once its absence was told: that it is undone later is no news. */
export function grantExcuses(sim: Simulation, branch: Branch, rule: Rule, event: Event): void {
  for (const excuse of rule.unless)
    if ('state' in excuse)
      for (const item of relatedItems(sim, excuse.of, event)) takeForGranted(branch, item);
}

/** The needed state, of all related items or of one. */
export function holds(sim: Simulation, branch: Branch, need: Need, items: readonly Item[]): boolean {
  const is = (item: Item) => need.state.some((word) => isIn(sim, branch, item, word));
  return need.every ? items.every(is) : items.some(is);
}
