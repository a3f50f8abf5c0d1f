/** A rule of the rule language as a watcher (schemas/semantics.md §7): one function for each family. */

import type { Duty } from '../model/model';
import { type Event, nameOf, partOf } from '../simulate/event';
import { awaited, part as partItems } from '../simulate/items';
import type { Simulation } from '../simulate/simulation';
import type { Branch, Item as StateItem } from '../simulate/state';
import { flag, type Watcher } from '../simulate/watcher';
import type { Diagram } from '../variants/diagram';
import { assume, settle, takeForGranted } from './granting';
import { type Item, keyOf, keysMet, meets, relatedItems, wantedItems } from './related';
import type { Excuse, Need, Pattern, RelatedTo, Rule } from './rule';
import { exists, isIn } from './states';
import { fits, isSeen, matches, qualify } from './watching';

const bit = (rule: Rule, what: string, key: string): StateItem => ({
  kind: what,
  of: key,
  at: rule.id,
  initial: false,
});
const eventKey = (event: Event) => `${nameOf(event.subject)}${event.at.key}`;

/** Makes a watcher of a rule; built-in ones are made elsewhere. */
export function watcherOf(rule: Rule): Watcher | null {
  switch (rule.family) {
    case 'needs':
      return state(rule, false);
    case 'never-while':
      return state(rule, true);
    case 'first':
      return first(rule);
    case 'later':
      return later(rule);
    case 'at-most-once':
      return once(rule);
    case 'next':
      return next(rule);
    default:
      return null;
  }
}

function watched(sim: Simulation, branch: Branch, rule: Rule, event: Event): boolean {
  return (
    isSeen(event) && matches(rule.watch, event) && !rule.unless.some((it) => excuses(sim, branch, it, event))
  );
}

function excuses(sim: Simulation, branch: Branch, excuse: Excuse, event: Event): boolean {
  if ('people' in excuse) return event.step.people >= excuse.people;
  if ('caution' in excuse) return event.step.hasCaution;
  const items = relatedItems(sim, excuse.of, event).filter((item) => exists(branch, item));
  return items.length > 0 && holds(sim, branch, excuse, items);
}

/** What would have excused an operation counts as done once its absence was told: that it is undone later is no news. */
function grantExcuses(sim: Simulation, branch: Branch, rule: Rule, event: Event): void {
  for (const excuse of rule.unless)
    if ('state' in excuse)
      for (const item of relatedItems(sim, excuse.of, event)) takeForGranted(branch, item);
}

/** The needed state, of all related items or of one. */
function holds(sim: Simulation, branch: Branch, need: Need, items: readonly Item[]): boolean {
  const is = (item: Item) => need.state.some((word) => isIn(sim, branch, item, word));
  return need.every ? items.every(is) : items.some(is);
}

function state(rule: Rule, never: boolean): Watcher {
  const need = rule.need!;
  return {
    rule: rule.id,
    verbs: rule.watch.verb.length > 0 ? rule.watch.verb : ['*'],
    before(sim, branch, event) {
      if (!watched(sim, branch, rule, event)) return undefined;
      const items = relatedItems(sim, need.of, event).filter((item) => exists(branch, item));
      if (items.length === 0) return undefined;
      const told = bit(rule, 'told', eventKey(event));
      if (holds(sim, branch, need, items) !== never) {
        branch.put(told, false);
        return undefined;
      }
      if (branch.get(told) === true) return undefined;
      flag(sim, branch, event, rule.id, nameOf(event.subject), {
        facts: { related: nameOf(items[0]!.subject) },
      });
      branch.put(told, true);
      if (!never)
        for (const item of need.every ? items : items.slice(0, 1))
          assume(sim, branch, item, need.state[0] ?? '');
      else if (need.settles)
        for (const item of items)
          for (const word of need.state) if (isIn(sim, branch, item, word)) settle(branch, item, word);
      grantExcuses(sim, branch, rule, event);
      return undefined;
    },
  };
}

function first(rule: Rule): Watcher {
  const wanted = rule.first!;
  return {
    rule: rule.id,
    verbs: [...new Set([...rule.watch.verb, ...wanted.verb, ...wanted.since])],
    before(sim, branch, event) {
      if (!watched(sim, branch, rule, event)) return undefined;
      const items = wantedItems(sim, wanted.of, event).filter((item) => exists(branch, item));
      if (items.length === 0 || items.some((item) => branch.get(bit(rule, 'done', keyOf(item))) === true))
        return undefined;
      flag(sim, branch, event, rule.id, nameOf(event.subject), {
        side: isShared(wanted.of) ? '' : event.at.label,
        facts: { related: nameOf(items[0]!.subject) },
      });
      for (const item of items) {
        branch.put(bit(rule, 'done', keyOf(item)), true);
        // What should have been recorded counts as recorded.
        if (wanted.verb.includes('record')) assume(sim, branch, item, 'recorded');
      }
      return undefined;
    },
    after(sim, branch, event) {
      if (!isSeen(event)) return;
      if (wanted.since.includes(event.verb)) {
        branch.put(
          bit(rule, 'done', wanted.of === 'any' ? keysMet('any', event)[0]! : eventKey(event)),
          false,
        );
        if (matches({ ...rule.watch, verb: [] }, event))
          for (const item of wantedItems(sim, wanted.of, event))
            branch.put(bit(rule, 'done', keyOf(item)), false);
      }
      if (fits(wanted, event))
        for (const key of keysMet(wanted.of, event)) branch.put(bit(rule, 'done', key), true);
    },
  };
}

function later(rule: Rule): Watcher {
  const wanted = rule.later!;
  const { before } = wanted;
  const debtors = new WeakMap<Simulation, Map<string, Event>>();
  const known = (sim: Simulation) => {
    const found = debtors.get(sim) ?? new Map<string, Event>();
    debtors.set(sim, found);
    return found;
  };
  const owes = (key: string) => bit(rule, 'owes', key);
  // What is wanted once for the whole vehicle is owed once, since the first operation that called for it.
  const shared = isShared(wanted.of);
  const keyFor = (event: Event) => (shared ? '*' : eventKey(event));
  return {
    rule: rule.id,
    verbs: [...new Set([...rule.watch.verb, ...wanted.verb, ...(before?.verb ?? [])])],
    before(sim, branch, event) {
      if (!isSeen(event)) return undefined;
      if (fits(wanted, event))
        for (const [key, debtor] of known(sim))
          if (meets(sim, wanted.of, debtor, event) && branch.get(owes(key)) === true)
            branch.put(owes(key), false);
      if (before !== null && fits(before, event))
        for (const [key, debtor] of known(sim)) {
          if (!meets(sim, before.of, debtor, event)) continue;
          if (branch.get(owes(key)) !== true) continue;
          // What came after the first in the same debt is told with the first.
          flag(sim, branch, event, rule.id, nameOf(debtor.subject), { side: shared ? '' : debtor.at.label });
          branch.put(owes(key), false);
        }
      if (!watched(sim, branch, rule, event)) return undefined;
      const key = keyFor(event);
      if (wantedItems(sim, wanted.of, event).filter((item) => exists(branch, item)).length === 0)
        return undefined;
      if (!known(sim).has(key)) known(sim).set(key, event);
      branch.put(owes(key), true);
      return undefined;
    },
    ended(sim) {
      const { diagrams } = sim.state;
      for (const [key, debtor] of known(sim)) {
        const items = wantedItems(sim, wanted.of, debtor);
        let excused = 0;
        for (const duty of sim.model.owes) {
          const names = items.map(({ subject }) => nameOf(subject));
          if (isHandedOver(wanted, duty, names)) excused = diagrams.or(excused, duty.set);
        }
        const within = diagrams.minus(
          sim.model.universe,
          diagrams.or(excused, goneWith(sim, wanted.verb, debtor)),
        );
        for (const { run, set } of sim.state.madeBy(owes(key), within, (value) => value === true)) {
          const event = sim.events[run] ?? debtor;
          sim.report({
            rule: rule.id,
            operation: event.operation.path,
            item: nameOf(event.subject),
            side: shared ? '' : event.at.label,
            set,
            event,
            causes: [],
            facts: {},
          });
        }
      }
    },
  };
}

/** Whether a duty that is handed over is what a rule wants: it counts as a `check` at the end, or as a `measure`. */
function isHandedOver(wanted: Pattern, { target, qualifiers }: Duty, names: readonly string[]): boolean {
  if (!wanted.verb.includes('check') && !wanted.verb.includes('measure')) return false;
  return (wanted.of === 'any' || names.includes(target.written)) && qualify(wanted.qualifier, qualifiers);
}

/** Whether a related item is one for the whole vehicle, so that left and right ask for it together. */
const isShared = (of: RelatedTo) =>
  of === 'vehicle' || of === 'any' || (typeof of === 'object' && !('kind' in of));

/** Where a part that is to be fitted again is itself left off: that says all. */
function goneWith(sim: Simulation, verbs: readonly string[], { subject, at }: Event): Diagram {
  if (subject.type !== 'part' || !verbs.some((verb) => verb === 'fit' || verb === 'bolt-up')) return 0;
  const off = sim.state.where(
    partItems.state(subject.part, at),
    sim.model.universe,
    (value) => value === 'off',
  );
  return off === 0 ? 0 : sim.state.where(partItems.owed(subject.part, at), off, (value) => value === true);
}

function once(rule: Rule): Watcher {
  return {
    rule: rule.id,
    verbs: rule.watch.verb.length > 0 ? rule.watch.verb : ['*'],
    before(sim, branch, event) {
      if (!watched(sim, branch, rule, event)) return undefined;
      const done = bit(rule, 'done', eventKey(event));
      if (branch.get(done) === true) flag(sim, branch, event, rule.id, nameOf(event.subject));
      branch.put(done, true);
      return undefined;
    },
  };
}

/** The next operation on the same part must be as said; what was watched and nothing followed is found at the end. */
function next(rule: Rule): Watcher {
  const wanted = rule.next!;
  const holds = wanted.verb.some((verb) => verb === 'hold' || verb === 'support');
  const waiting = (name: string): StateItem => ({ kind: 'next', of: rule.id, at: name, initial: -1 });
  const parts = new WeakMap<Simulation, Map<string, StateItem>>();
  const nameOfPart = (event: Event) =>
    `${partOf(event.subject)?.name ?? nameOf(event.subject)}${event.at.key}`;
  const report = (sim: Simulation, run: number, set: number) => {
    const event = sim.events[run];
    if (event === undefined) return;
    sim.report({
      rule: rule.id,
      operation: event.operation.path,
      item: nameOf(event.subject),
      side: event.at.label,
      set,
      event,
      causes: [],
      facts: {},
    });
  };
  return {
    rule: rule.id,
    verbs: ['*'],
    before(sim, branch, event) {
      if (!isSeen(event)) return undefined;
      const item = waiting(nameOfPart(event));
      const run = branch.get(item);
      if (typeof run === 'number' && run >= 0) {
        const watchedEvent = sim.events[run];
        const right =
          watchedEvent !== undefined && fits(wanted, event) && meets(sim, wanted.of, watchedEvent, event);
        if (!right) branch.whenDone((set) => report(sim, run, set));
        branch.put(item, -1);
        if (holds && watchedEvent !== undefined)
          for (const it of wantedItems(sim, wanted.of, watchedEvent)) branch.put(awaited(keyOf(it)), false);
      }
      if (watched(sim, branch, rule, event)) {
        const known = parts.get(sim) ?? new Map<string, StateItem>();
        parts.set(sim, known);
        known.set(item.at, item);
        branch.put(item, event.run);
        if (holds) for (const it of wantedItems(sim, wanted.of, event)) branch.put(awaited(keyOf(it)), true);
      }
      return undefined;
    },
    ended(sim) {
      for (const item of parts.get(sim)?.values() ?? [])
        for (const { value, set } of sim.state.valuesWithin(item, sim.model.universe))
          if (typeof value === 'number' && value >= 0) report(sim, value, set);
    },
  };
}
