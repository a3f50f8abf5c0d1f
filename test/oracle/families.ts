// The families of the rule language: needs, never-while, first, later, at-most-once, next.
import { aidName } from './packs.ts';
import { isMap, list, map, type Raw, text, texts } from './raw.ts';
import { assumeState, grant, inState, jointMatches, relatedItems, settleState } from './relations.ts';
import { type Event, type Pending, type Run, tell } from './run.ts';
import { bushed } from './state.ts';
import type { Target } from './things.ts';
import { isKind } from './world.ts';

// The occurrence of an operation that a rule only assumed.
const ASSUMED = -1;

/** Asks every rule of the packs about one instance of an operation, before its effect. */
export function ruleEvent(run: Run, verb: string, target: Target): void {
  const { raw, path, occurrence } = run;
  const event: Event = { verb, target, raw, path, occurrence };
  const rules = run.rules.watching(verb);
  for (const rule of rules) meetLater(run, rule, event);
  for (const rule of rules) if (isWatched(run, rule, event)) askRule(run, rule, event);
  run.events.push(event);
}

/** Whether a rule asks about an event: it matches, what `after` wants came before it, and nothing excuses it. */
function isWatched(run: Run, rule: Raw, event: Event): boolean {
  const watch = map(rule.watch);
  if (!matches(run, watch, event)) return false;
  if (watch.after !== undefined) {
    const after = map(watch.after);
    const items = wantedItems(run, event.target, after.of);
    if (!items.some((item) => cameAndStands(run, rule, after, item))) return false;
  }
  return !excused(run, rule, event);
}

/** Whether an event is of the sort that a rule watches. */
function matches(run: Run, watch: Raw, event: Event): boolean {
  const { target, verb } = event;
  const thing = target.part ?? target.line;
  if (watch.verb !== undefined && !texts(watch.verb).includes(verb)) return false;
  if (watch.kind !== undefined && !(thing && texts(watch.kind).some((kind) => isKind(thing, kind))))
    return false;
  if (watch.what !== undefined && !texts(watch.what).includes(target.what)) return false;
  if (
    watch.item !== undefined &&
    !texts(watch.item).some((name) => name === target.item || name === thing?.name)
  ) {
    return false;
  }
  if (watch.joint !== undefined) {
    const joint = target.joint;
    if (!joint || !jointMatches(map(watch.joint), joint.body, bushed(joint))) return false;
  }
  return qualifiersMatch(run, watch.qualifier, event);
}

/** `qualifier`: a value, one of a list, `any` or `none`. Aids are one in singular and plural. */
function qualifiersMatch(run: Run, wanted: unknown, event: Event): boolean {
  return Object.entries(map(wanted)).every(([key, want]) => {
    const actual = texts(event.raw[key]);
    const present = event.raw[key] !== undefined;
    if (want === 'any') return present;
    if (want === 'none') return !present;
    const forms = (name: string) => [name, aidName(run.world.packs, name)];
    return texts(want).some((one) =>
      actual.some((other) => forms(one).some((form) => forms(other).includes(form))),
    );
  });
}

/** `unless`: a need that holds, enough people, or a caution. A caution of the step may also cover the rule. */
function excused(run: Run, rule: Raw, event: Event): boolean {
  return list(rule.unless).some((one) => {
    if (!isMap(one)) return false;
    if (one.people !== undefined) return run.step.people >= Number(one.people);
    if (one.caution !== undefined) return run.step.caution === (one.caution === true);
    const items = relatedItems(run.world, event.target, one.of);
    return items.length > 0 && stateHolds(run, items, one);
  });
}

function stateHolds(run: Run, items: Target[], need: Raw): boolean {
  const states = texts(need.state);
  const so = (item: Target): boolean => states.some((state) => inState(run, item, state));
  return need.every === true ? items.every(so) : items.some(so);
}

function askRule(run: Run, rule: Raw, event: Event): void {
  if (rule.never === true) tellHere(run, rule, event.target);
  if (rule.needs !== undefined) askNeeds(run, rule, event);
  if (rule['never-while'] !== undefined) askNever(run, rule, event);
  if (rule.first !== undefined) askFirst(run, rule, event);
  if (rule.later !== undefined) oweLater(run, rule, event);
  if (rule['at-most-once'] === true) askOnce(run, rule, event);
  if (rule.next !== undefined) run.askNext.push({ rule, event });
}

function tellHere(run: Run, rule: Raw, target: Target, path?: string): void {
  tell(run, text(rule.id) ?? '', target.item, target.side, path);
}

function askNeeds(run: Run, rule: Raw, event: Event): void {
  const need = map(rule.needs);
  const items = relatedItems(run.world, event.target, need.of);
  const key = `${text(rule.id)}|${event.target.key}`;
  const missed = (): boolean => items.length > 0 && !stateHolds(run, items, need);
  if (!missed() || run.told.has(key)) return;
  tellHere(run, rule, event.target);
  const first = texts(need.state)[0];
  const states = texts(need.state);
  if (first !== undefined) {
    const missing = items.filter((item) => !states.some((state) => inState(run, item, state)));
    for (const item of need.every === true ? missing : missing.slice(0, 1)) assumeState(run, item, first);
  }
  // What cannot be taken for granted is told once, until it was so.
  if (missed()) run.told.set(key, missed);
  grantExcuses(run, rule, event);
}

/** What would have excused an operation counts as seen to, once its absence was told. */
function grantExcuses(run: Run, rule: Raw, event: Event): void {
  for (const one of list(rule.unless))
    if (isMap(one) && one.state !== undefined)
      for (const item of relatedItems(run.world, event.target, one.of)) grant(run, item);
}

function askNever(run: Run, rule: Raw, event: Event): void {
  const never = map(rule['never-while']);
  const items = relatedItems(run.world, event.target, never.of);
  const key = `${text(rule.id)}|${event.target.key}`;
  const still = (): boolean => items.length > 0 && stateHolds(run, items, never);
  if (!still() || run.told.has(key)) return;
  tellHere(run, rule, event.target);
  run.told.set(key, still);
  if (never.settles === true)
    for (const item of items)
      for (const state of texts(never.state)) if (inState(run, item, state)) settleState(item, state);
  grantExcuses(run, rule, event);
}

/** What was told of a state may be told again once it was otherwise. */
export function forgetTold(run: Run): void {
  for (const [key, still] of run.told) if (!still()) run.told.delete(key);
}

// Stands for all there is, where an operation on anything is looked for.
const ANYTHING: Target = { what: 'words', item: '*', side: '', key: '*' };

/** The items an operation on which is looked for. */
function wantedItems(run: Run, watched: Target, of: unknown): Target[] {
  return of === 'any' ? [ANYTHING] : relatedItems(run.world, watched, of);
}

function askFirst(run: Run, rule: Raw, event: Event): void {
  const first = map(rule.first);
  const items = wantedItems(run, event.target, first.of);
  if (items.length === 0) return;
  const met = items.some((item) => cameAndStands(run, rule, first, item));
  if (met) return;
  if (oneForAll(first.of)) tell(run, text(rule.id) ?? '', event.target.item, '', undefined);
  else tellHere(run, rule, event.target);
  // Assumed: as if it had been done just before.
  const verb = texts(first.verb)[0];
  const item = items[0];
  if (verb !== undefined && item)
    run.events.push({
      ...event,
      verb,
      target: item,
      raw: map(first.qualifier),
      occurrence: ASSUMED,
      assumedBy: text(rule.id),
    });
  if (texts(first.verb).includes('record')) for (const one of items) assumeState(run, one, 'recorded');
}

/** Whether what `first` or `after` wants was done to an item, and was not undone since. */
function cameAndStands(run: Run, rule: Raw, wanted: Raw, item: Target): boolean {
  const known = run.events.filter(({ assumedBy }) => assumedBy === undefined || assumedBy === rule.id);
  const done = known.map((one) => isWanted(run, wanted, one, [item])).lastIndexOf(true);
  return done >= 0 && !known.slice(done + 1).some((one) => undoes(run, rule, wanted, one, item));
}

/** `since`: an operation on the related item, or on a watched item that it is related to, undoes what was first. */
function undoes(run: Run, rule: Raw, wanted: Raw, event: Event, item: Target): boolean {
  const since = map(wanted.since);
  if (wanted.since === undefined || !texts(since.verb).includes(event.verb)) return false;
  // With an `of` of its own it undoes all, whatever that was done to.
  if (since.of !== undefined)
    return (
      since.of === 'any' ||
      relatedItems(run.world, event.target, since.of).some((one) => sameItem(one, event.target))
    );
  if (item === ANYTHING || sameItem(item, event.target)) return true;
  const { verb: _verb, qualifier: _qualifier, ...watch } = map(rule.watch);
  if (!matches(run, watch, event)) return false;
  return relatedItems(run.world, event.target, wanted.of).some((one) => sameItem(one, item));
}

/** Whether an event is what `first`, `later` or `next` asks for, on one of the related items. */
function isWanted(run: Run, wanted: Raw, event: Event, items: Target[]): boolean {
  if (!texts(wanted.verb).includes(event.verb) || !qualifiersMatch(run, wanted.qualifier, event))
    return false;
  return items.some(
    (item) =>
      item === ANYTHING ||
      sameItem(item, event.target) ||
      (wanted.of === 'part' && ofPart(item, event.target)),
  );
}

/** Whether something is, or belongs to, the part that an item is. */
function ofPart(item: Target, target: Target): boolean {
  return item.what === 'part' && item.part !== undefined && item.part === target.part;
}

function sameItem(one: Target, other: Target): boolean {
  return one.key === other.key || (one.what === 'words' && one.item === other.item);
}

/** Whether a debt of `later` is one for the whole guide: it asks for the vehicle, named items or words. */
function oneForAll(of: unknown): boolean {
  const all = list(of);
  return (
    all.length > 0 &&
    all.every(
      (one) => one === 'vehicle' || one === 'any' || (isMap(one) && (one.item ?? one.words) !== undefined),
    )
  );
}

function oweLater(run: Run, rule: Raw, event: Event): void {
  const key = `${text(rule.id)}|${oneForAll(map(rule.later).of) ? '' : event.target.key}`;
  if (run.pending.some((one) => one.open && one.key === key)) return;
  const later = map(rule.later);
  const items = wantedItems(run, event.target, later.of);
  if (items.length === 0) return;
  // With `earlier`, one that came before will do, and so will the operation itself.
  const soFar = [...run.events.filter((one) => one.occurrence !== ASSUMED), event];
  if (later.earlier === true && soFar.some((one) => isWanted(run, later, one, items))) return;
  run.pending.push({ rule: text(rule.id) ?? '', key, path: event.path, target: event.target, open: true });
}

/** One debt for the whole guide has no side. */
function tellDebt(run: Run, rule: Raw, pending: Pending, path: string): void {
  const side = oneForAll(map(rule.later).of) ? '' : pending.target.side;
  tell(run, pending.rule, pending.target.item, side, path);
}

/** What is owed by `later` is met by this event, or asked for by the `before` that it is. */
function meetLater(run: Run, rule: Raw, event: Event): void {
  if (rule.later === undefined) return;
  const later = map(rule.later);
  const id = text(rule.id) ?? '';
  for (const pending of run.pending.filter((one) => one.open && one.rule === id)) {
    const items = wantedItems(run, pending.target, later.of);
    if (isWanted(run, later, event, items)) {
      pending.open = false;
      continue;
    }
    if (later.before === undefined) continue;
    const before = map(later.before);
    if (!isWanted(run, before, event, wantedItems(run, pending.target, before.of))) continue;
    pending.open = false;
    tellDebt(run, rule, pending, event.path);
  }
}

/** At the end: what `owes` hands over counts as done; the rest stands at the operation that made it. */
export function settleLater(run: Run, owed: Event[]): void {
  for (const rule of run.rules.families) {
    for (const event of owed) {
      if (rule.later === undefined) continue;
      const later = map(rule.later);
      for (const pending of run.pending.filter((one) => one.open && one.rule === text(rule.id))) {
        if (isWanted(run, later, event, wantedItems(run, pending.target, later.of))) pending.open = false;
      }
    }
    for (const pending of run.pending.filter((one) => one.open && one.rule === text(rule.id))) {
      // A part that is to be fitted again and is itself left off: that says all.
      const { part } = pending.target;
      const refit = texts(map(rule.later).verb).some((verb) => verb === 'fit' || verb === 'bolt-up');
      if (refit && pending.target.what === 'part' && part?.state === 'off' && part.debt !== undefined)
        continue;
      tellDebt(run, rule, pending, pending.path);
    }
  }
  for (const { rule, event } of run.askNext) settleNext(run, rule, event);
}

function askOnce(run: Run, rule: Raw, event: Event): void {
  const key = `${text(rule.id)}|${event.target.key}`;
  if (run.onceDone.has(key)) tellHere(run, rule, event.target);
  run.onceDone.add(key);
}

/** `next`: the next operation that touches the same part must be the wanted one. */
function settleNext(run: Run, rule: Raw, event: Event): void {
  const next = map(rule.next);
  const { part, line, key } = event.target;
  const samePart = ({ target }: Event): boolean =>
    part ? target.part === part : line ? target.line === line : target.key === key;
  const after = run.events
    .slice(run.events.indexOf(event) + 1)
    .filter((one) => one.occurrence !== event.occurrence && one.occurrence !== ASSUMED && samePart(one));
  const nearest = after.filter((one) => one.occurrence === after[0]?.occurrence);
  const items = wantedItems(run, event.target, next.of);
  if (items.length === 0 || nearest.some((one) => isWanted(run, next, one, items))) return;
  tellHere(run, rule, event.target, event.path);
}
