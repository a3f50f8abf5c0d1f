/** A rule of the rule language as a watcher (schemas/semantics.md §7): one function for each family. */

import type { Duty } from '../model/model';
import { type Event, nameOf, thingOf } from '../simulate/event';
import { awaited, part as partItems } from '../simulate/items';
import type { Simulation } from '../simulate/simulation';
import type { Branch, Item as StateItem } from '../simulate/state';
import { flag, type Sort, type Watcher } from '../simulate/watcher';
import type { Diagram } from '../variants/diagram';
import { grantExcuses, holds, watched, watchedVerbs } from './asking';
import { assume, settle } from './granting';
import { type Item, keyOf, meets, relatedItems, wantedItems } from './related';
import { bit, came, eventKey, Memory } from './remembering';
import type { Pattern, RelatedTo, Rule } from './rule';
import { exists, isIn } from './states';
import { fits, isSeen, matches, mayMatch, qualify } from './watching';

/** Makes a watcher of a rule; built-in ones are made elsewhere. */
export function watcherOf(rule: Rule): Watcher | null {
  const made = familyOf(rule);
  const { after } = rule.watch;
  if (made === null || after === null) return made;
  const memory = new Memory(rule, 'after', after);
  const noted = [...after.verb, ...after.since.verb];
  return {
    ...made,
    verbs: [...new Set([...made.verbs, ...noted])],
    concerns: (sort) => made.concerns?.(sort) !== false || noted.includes(sort.verb),
    after(sim, branch, event) {
      made.after?.(sim, branch, event);
      memory.note(sim, branch, event);
    },
  };
}

function familyOf(rule: Rule): Watcher | null {
  switch (rule.family) {
    case 'never':
      return never(rule);
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

/** What a rule is to be shown: what it watches, and all that is done by some verbs. */
const concerning =
  ({ watch }: Rule, verbs: readonly string[]) =>
  (sort: Sort): boolean =>
    mayMatch(watch, sort) || verbs.includes(sort.verb);

/** The watched operation is itself the finding. */
function never(rule: Rule): Watcher {
  return {
    rule: rule.id,
    verbs: watchedVerbs(rule),
    concerns: concerning(rule, []),
    before(sim, branch, event) {
      if (watched(sim, branch, rule, event)) flag(sim, branch, event, rule.id, nameOf(event.subject));
      return undefined;
    },
  };
}

/**
 * A state that must hold, or must not. What was told of an item and stays as it was is not told of it again until it was
 * otherwise; a needed state that can be taken for granted is, and so may be told anew as soon as it is lost.
 */
function state(rule: Rule, never: boolean): Watcher {
  const need = rule.need!;
  const tellings = new WeakMap<Simulation, Map<string, Event>>();
  const told = (key: string) => bit(rule, 'told', key);
  const itemsOf = (sim: Simulation, branch: Branch, event: Event) =>
    relatedItems(sim, need.of, event).filter((item) => exists(branch, item));
  const isBroken = (sim: Simulation, branch: Branch, items: readonly Item[]) =>
    items.length > 0 && holds(sim, branch, need, items) === never;
  return {
    rule: rule.id,
    verbs: watchedVerbs(rule),
    concerns: concerning(rule, []),
    before(sim, branch, event) {
      const before = tellings.get(sim);
      if (before === undefined && !matches(rule.watch, event)) return undefined;
      for (const [key, about] of before ?? [])
        if (branch.get(told(key)) === true && !isBroken(sim, branch, itemsOf(sim, branch, about)))
          branch.put(told(key), false);
      if (!watched(sim, branch, rule, event)) return undefined;
      const items = itemsOf(sim, branch, event);
      const key = eventKey(event);
      if (!isBroken(sim, branch, items) || branch.get(told(key)) === true) return undefined;
      flag(sim, branch, event, rule.id, nameOf(event.subject), { facts: relatedFact(items) });
      if (!never)
        for (const item of need.every ? items : items.slice(0, 1))
          assume(sim, branch, item, need.state[0] ?? '');
      else if (need.settles)
        for (const item of items)
          for (const word of need.state) if (isIn(sim, branch, item, word)) settle(branch, item, word);
      grantExcuses(sim, branch, rule, event);
      if (!isBroken(sim, branch, items)) return undefined;
      branch.put(told(key), true);
      const known = tellings.get(sim) ?? new Map<string, Event>();
      tellings.set(sim, known.set(key, event));
      sim.rouse(rule.id);
      return undefined;
    },
  };
}

function first(rule: Rule): Watcher {
  const wanted = rule.first!;
  const memory = new Memory(rule, 'done', wanted);
  const noted = [...wanted.verb, ...wanted.since.verb];
  return {
    rule: rule.id,
    verbs: [...new Set([...watchedVerbs(rule), ...noted])],
    concerns: concerning(rule, noted),
    before(sim, branch, event) {
      if (!watched(sim, branch, rule, event)) return undefined;
      const items = wantedItems(sim, wanted.of, event).filter((item) => exists(branch, item));
      if (items.length === 0 || came(branch, rule, 'done', items)) return undefined;
      flag(sim, branch, event, rule.id, nameOf(event.subject), {
        side: isShared(wanted.of) ? '' : event.at.label,
        facts: relatedFact(items),
      });
      memory.assume(sim, branch, items[0]!);
      // What should have been recorded counts as recorded.
      if (wanted.verb.includes('record')) for (const item of items) assume(sim, branch, item, 'recorded');
      return undefined;
    },
    after: (sim, branch, event) => memory.note(sim, branch, event),
  };
}

function later(rule: Rule): Watcher {
  const wanted = rule.later!;
  const { before } = wanted;
  const looked = [...wanted.verb, ...(before?.verb ?? [])];
  const memory = new Memory(rule, 'done', { ...wanted, since: { verb: [], of: null } });
  const debtors = new WeakMap<Simulation, Map<string, Event>>();
  const known = (sim: Simulation) => {
    const found = debtors.get(sim) ?? new Map<string, Event>();
    debtors.set(sim, found);
    return found;
  };
  /** The run of the operation that owes, -1 where nothing is owed. */
  const owes = (key: string): StateItem => ({ ...bit(rule, 'owes', key), initial: -1 });
  const isOwed = (branch: Branch, key: string) => branch.get(owes(key)) !== -1;
  // What is wanted once for the whole vehicle is owed once, since the first operation that called for it.
  const shared = isShared(wanted.of);
  const keyFor = (event: Event) => (shared ? '*' : eventKey(event));
  return {
    rule: rule.id,
    verbs: [...new Set([...watchedVerbs(rule), ...looked])],
    concerns: concerning(rule, looked),
    before(sim, branch, event) {
      if (!isSeen(event)) return undefined;
      if (fits(wanted, event))
        for (const [key, debtor] of known(sim))
          if (meets(sim, wanted.of, debtor, event) && isOwed(branch, key)) branch.put(owes(key), -1);
      if (before !== null && fits(before, event))
        for (const [key, debtor] of known(sim)) {
          if (!meets(sim, before.of, debtor, event) || !isOwed(branch, key)) continue;
          const run = Number(branch.get(owes(key)));
          // What came after the first in the same debt is told with the first.
          flag(sim, branch, event, rule.id, nameOf(debtor.subject), {
            side: shared ? '' : debtor.at.label,
            causes: () => [run],
            facts: relatedFact(wantedItems(sim, wanted.of, debtor)),
          });
          branch.put(owes(key), -1);
        }
      if (wanted.earlier) memory.note(sim, branch, event);
      if (!watched(sim, branch, rule, event)) return undefined;
      const key = keyFor(event);
      const items = wantedItems(sim, wanted.of, event).filter((item) => exists(branch, item));
      if (items.length === 0 || (wanted.earlier && came(branch, rule, 'done', items))) return undefined;
      if (!known(sim).has(key)) known(sim).set(key, event);
      if (!isOwed(branch, key)) branch.put(owes(key), event.run);
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
        for (const { value, set } of sim.state.valuesWithin(owes(key), within)) {
          if (value === -1) continue;
          const event = sim.events[Number(value)] ?? debtor;
          sim.report({
            rule: rule.id,
            operation: event.operation.path,
            item: nameOf(event.subject),
            side: shared ? '' : event.at.label,
            set,
            event,
            causes: [],
            facts: relatedFact(items),
          });
        }
      }
    },
  };
}

/** `{related}` in the sentence of a rule: the first of the items that it asks about; `any` is none. */
function relatedFact(items: readonly Item[]): Readonly<Record<string, string>> {
  const name = items[0] === undefined ? '*' : nameOf(items[0].subject);
  return name === '*' ? {} : { related: name };
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
    verbs: watchedVerbs(rule),
    concerns: concerning(rule, []),
    before(sim, branch, event) {
      if (!watched(sim, branch, rule, event)) return undefined;
      const done = bit(rule, 'done', eventKey(event));
      if (branch.get(done) === true) flag(sim, branch, event, rule.id, nameOf(event.subject));
      branch.put(done, true);
      return undefined;
    },
  };
}

/** Nothing is awaited, or what was came; the next operation is awaited. Else: the first run of it, which was not what was wanted. */
const MET = -1;
const AWAITED = -2;

/**
 * The next operation on the same part or line must be as said; one of the things that it does will do. What was watched and
 * nothing followed is found at the end.
 */
function next(rule: Rule): Watcher {
  const wanted = rule.next!;
  const holding = wanted.verb.some((verb) => verb === 'hold' || verb === 'support');
  const waiting = (run: number): StateItem => ({ kind: 'next', of: rule.id, at: `@${run}`, initial: MET });
  const watchedRuns = new WeakMap<Simulation, Map<string, number[]>>();
  const keyOfThing = ({ subject, at }: Event) => `${thingOf(subject)?.name ?? nameOf(subject)}${at.key}`;
  const report = (sim: Simulation, run: number, set: number) => {
    const event = sim.events[run]!;
    sim.report({
      rule: rule.id,
      operation: event.operation.path,
      item: nameOf(event.subject),
      side: event.at.label,
      set,
      event,
      causes: [],
      facts: relatedFact(wantedItems(sim, wanted.of, event)),
    });
  };
  /** What is to be held next is let go without a word: that it never was held is told already. */
  const expectHold = (sim: Simulation, branch: Branch, about: Event, is: boolean) => {
    if (holding) for (const item of wantedItems(sim, wanted.of, about)) branch.put(awaited(keyOf(item)), is);
  };
  return {
    rule: rule.id,
    verbs: watchedVerbs(rule),
    concerns: concerning(rule, []),
    before(sim, branch, event) {
      if (!isSeen(event)) return undefined;
      const known = watchedRuns.get(sim) ?? new Map<string, number[]>();
      watchedRuns.set(sim, known);
      const runs = known.get(keyOfThing(event)) ?? [];
      for (const run of runs) {
        const item = waiting(run);
        const now = branch.get(item) as number;
        const about = sim.events[run]!;
        if (now === MET || isOneOperation(about, event)) continue;
        expectHold(sim, branch, about, false);
        if (now !== AWAITED && !isOneOperation(sim.events[now]!, event)) {
          branch.whenDone((set) => report(sim, run, set));
          branch.put(item, MET);
        } else if (fits(wanted, event) && meets(sim, wanted.of, about, event)) branch.put(item, MET);
        else if (now === AWAITED) branch.put(item, event.run);
      }
      if (!watched(sim, branch, rule, event)) return undefined;
      if (!wantedItems(sim, wanted.of, event).some((one) => exists(branch, one))) return undefined;
      if (!runs.includes(event.run)) known.set(keyOfThing(event), [...runs, event.run]);
      branch.put(waiting(event.run), AWAITED);
      sim.rouse(rule.id);
      expectHold(sim, branch, event, true);
      return undefined;
    },
    ended(sim) {
      for (const run of [...(watchedRuns.get(sim)?.values() ?? [])].flat())
        for (const { value, set } of sim.state.valuesWithin(waiting(run), sim.model.universe))
          if (value !== MET) report(sim, run, set);
    },
  };
}

/** Whether two events are of one operation, done once. */
const isOneOperation = (a: Event, b: Event): boolean => a.operation === b.operation && a.pass === b.pass;
