/** Whether a rule asks about an event, and whether the state it wants holds (schemas/semantics.md §7). */

import type { Event } from '../simulate/event';
import type { Simulation } from '../simulate/simulation';
import type { Branch } from '../simulate/state';
import { ask } from '../simulate/watcher';
import { takeForGranted } from './granting';
import { type Item, relatedItems, wantedItems } from './related';
import { came } from './remembering';
import type { Excuse, Need, Rule } from './rule';
import { exists, isIn } from './states';
import { isSeen, matches, matchesItem } from './watching';

/** Whether a rule asks about an event: it matches, what `after` wants came before it, and nothing excuses it. */
export function watched(sim: Simulation, branch: Branch, rule: Rule, event: Event): boolean {
  const { watch, family, id } = rule;
  if (!isSeen(event)) return false;
  // What is never done so is asked of all that is done to such an item.
  if (sim.isCounted && family === 'never' && isOfSort(rule, event)) ask(sim, branch, event, id);
  if (!matches(watch, event)) return false;
  if (watch.after !== null && !came(branch, rule, 'after', wantedItems(sim, watch.after.of, event)))
    return false;
  if (sim.isCounted && family !== 'never' && isAboutAnything(sim, branch, rule, event))
    ask(sim, branch, event, id);
  return !rule.unless.some((it) => excuses(sim, branch, it, event));
}

const isOfSort = ({ watch }: Rule, event: Event): boolean =>
  (watch.verb.length === 0 || watch.verb.includes(event.verb)) && matchesItem(watch, event);

/** Whether there is something whose state, or an operation on which, a rule wants. */
function isAboutAnything(sim: Simulation, branch: Branch, rule: Rule, event: Event): boolean {
  const wanted = rule.first ?? rule.later ?? rule.next;
  const items =
    rule.need !== null
      ? relatedItems(sim, rule.need.of, event)
      : wanted !== null
        ? wantedItems(sim, wanted.of, event)
        : null;
  return items === null || items.some((item) => exists(branch, item));
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
