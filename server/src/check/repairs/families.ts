/** What a rule of the rule language wants, taken from its own words: the state, or the operation, and on what. */

import type { Value } from '../../edit/write';
import { relatedItems } from '../../rules/related';
import type { Need, Pattern, RelatedTo } from '../../rules/rule';
import { type Event, nameOf, type Subject } from '../../simulate/event';
import { aidFor, canDo } from './aids';
import { closings } from './closing-places';
import { jackFor, tieFor } from './holding';
import { type Fault, outerStep, type Plan } from './repair';
import { before, conditionOf, entry, insertion, type Work } from './work';

/** Items tried one by one; a rule may mean every part of a kind. */
const MOST_ITEMS = 4;

/** `needs`, `never-while` and `first`: what brings the state about, what ends it, what must have been done. */
export function* wantedBefore(fault: Fault): Generator<Plan | null> {
  const { rule, event } = fault;
  if (rule === undefined || event === null) return;
  const wanted: Work[] = [];
  if (rule.repair !== null) wanted.push(...repaired(fault, event));
  if (rule.family === 'needs' && rule.need !== null) wanted.push(...broughtAbout(fault, event, rule.need));
  if (rule.family === 'never-while' && rule.need !== null) wanted.push(...ended(fault, event, rule.need));
  if (rule.family === 'first' && rule.first !== null) wanted.push(...done(fault, event, rule.first));
  for (const excuse of rule.unless) if ('state' in excuse) wanted.push(...broughtAbout(fault, event, excuse));
  const text = rule.repair?.text ?? null;
  yield* before(
    fault,
    wanted.map((work, index) => (text !== null && index === 0 ? { ...work, text } : work)),
  );
}

/** `later`: done before what it must come before, or at the end. */
export function* wantedLater(fault: Fault): Generator<Plan | null> {
  const { rule, event } = fault;
  if (rule?.later == null || event === null) return;
  const wanted = [...(rule.repair === null ? [] : repaired(fault, event)), ...done(fault, event, rule.later)];
  const text = rule.repair?.text ?? null;
  for (const work of wanted) yield* closings(fault, text === null ? work : { ...work, text });
}

/** `next`: right behind the operation, or its step. */
export function* wantedNext(fault: Fault): Generator<Plan | null> {
  const { rule, event, path, step } = fault;
  if (rule?.next == null || event === null || step === null) return;
  const wanted = [...(rule.repair === null ? [] : repaired(fault, event)), ...done(fault, event, rule.next)];
  for (const work of wanted) {
    const when = conditionOf(fault);
    yield insertion(fault, work, { step, side: 'behind' }, 'behind', when);
    if (path !== null) yield insertion(fault, work, { operation: path, side: 'behind' }, 'behind', when);
  }
}

/** What the rule's own repair says. */
function repaired(fault: Fault, event: Event): Work[] {
  const { family, repair, need, first, later, next } = fault.rule!;
  // Of a rule that the program holds, what is meant follows from the rule: `needs.ts` knows.
  if (repair === null || (family === 'built-in' && repair.of === null)) return [];
  const of = repair.of ?? (need ?? first ?? later ?? next)?.of ?? 'same';
  const more: Record<string, Value> = {};
  if (repair.to !== null) more.to = repair.to;
  return subjects(fault, event, of).flatMap(({ name, subject }): Work[] => {
    if (repair.with === null) return [{ entries: [entry(repair.verb, name, more)] }];
    const aid = aidOn(fault, repair.verb, name, subject);
    // What no hand and no wire holds is carried.
    if (aid === null && repair.verb === 'hold' && subject.type === 'part')
      return [{ entries: [entry('support', name, { with: jackFor(fault, name) ?? undefined })] }];
    return [{ entries: [entry(repair.verb, name, { ...more, with: aid ?? repair.with })] }];
  });
}

function broughtAbout(fault: Fault, event: Event, { of, state }: Need): Work[] {
  return subjects(fault, event, of).flatMap(({ name, subject }) =>
    state.flatMap((word) => bringing(fault, word, name, subject)),
  );
}

function ended(fault: Fault, event: Event, { of, state }: Need): Work[] {
  // A rule that no state excuses is about the operation itself.
  if (isAlways(state)) return [];
  return subjects(fault, event, of).flatMap(({ name, subject }) =>
    state.flatMap((word) => (ENDS[word] ?? []).flatMap((to) => bringing(fault, to, name, subject))),
  );
}

function done(fault: Fault, event: Event, { verb, of, qualifier }: Pattern): Work[] {
  const more: Record<string, Value> = {};
  for (const [key, [value]] of qualifier)
    if (value !== undefined && value !== 'any' && value !== 'none') more[key] = value;
  const verbs = fault.rule?.repair == null ? verb : verb.slice(0, 1);
  return subjects(fault, event, of).flatMap(({ name, subject }) =>
    verbs
      .slice(0, 2)
      .map((one) => ({ entries: [entry(one, name, { ...more, ...aided(fault, one, subject) })] })),
  );
}

/** The items that a rule relates to, by name; of free words the first. */
function subjects(fault: Fault, event: Event, of: RelatedTo): { name: string; subject: Subject }[] {
  const found = new Map<string, { name: string; subject: Subject }>();
  for (const { subject } of relatedItems(fault.simulation, of, event))
    found.set(nameOf(subject), { name: nameOf(subject), subject });
  const all = [...found.values()];
  const told = fault.raw[0]?.facts.related;
  const first = all.filter(({ name }) => name === told);
  const most = typeof of === 'object' && ('words' in of || 'item' in of) ? 1 : MOST_ITEMS;
  return [...first, ...all.filter(({ name }) => name !== told)].slice(0, most);
}

/** The states that end one. */
const ENDS: Readonly<Record<string, readonly string[]>> = {
  off: ['fitted'],
  swung: ['fitted'],
  disconnected: ['connected'],
  connected: ['disconnected'],
  out: ['snug', 'started'],
  started: ['snug', 'final'],
  loose: ['snug', 'final'],
  raised: ['on-ground'],
  'on-ground': ['raised'],
  raw: ['deburred'],
  unbled: ['bled'],
  drained: ['full'],
  compressed: ['relaxed'],
  live: ['safe'],
  on: ['off'],
  run: ['off'],
  fitted: ['off'],
};

/** The operations that bring a state about. */
function bringing(fault: Fault, state: string, name: string, subject: Subject): Work[] {
  const verb = BRINGS[state];
  if (verb === undefined)
    return subject.type === 'built-in' && SWITCHED.has(name)
      ? [{ entries: [entry('switch', name, { to: state })] }]
      : [];
  if (state === 'off' && SWITCHED.has(name)) return [{ entries: [entry('switch', name, { to: state })] }];
  if (state === 'on-ground') return [{ entries: [entry('lower', 'vehicle')] }];
  if (state === 'raised') {
    const lift = aidFor(fault, 'raise', (aid) => aid.raises && aid.workUnder && !aid.takesWheels);
    return [{ entries: [entry('raise', 'vehicle', lift === null ? {} : { with: lift })] }];
  }
  if (state === 'held') return held(fault, name, subject);
  if (state === 'fitted') return fitted(name, subject);
  if (state === 'off' && subject.type === 'part')
    return [{ entries: [entry(subject.part.joints.size > 0 ? 'unbolt' : 'remove', name)] }];
  return [{ entries: [entry(verb, name, aided(fault, verb, subject))] }];
}

const SWITCHED: ReadonlySet<string> = new Set(['ignition', 'levelling', 'parking-brake']);

const BRINGS: Readonly<Record<string, string>> = {
  loose: 'loosen',
  out: 'remove',
  started: 'start',
  snug: 'snug',
  final: 'torque',
  fitted: 'bolt-up',
  off: 'remove',
  swung: 'swing',
  discarded: 'discard',
  connected: 'connect',
  disconnected: 'disconnect',
  clipped: 'clip',
  unclipped: 'unclip',
  seated: 'seat',
  freed: 'free',
  safe: 'isolate',
  live: 'restore',
  drained: 'drain',
  full: 'fill',
  held: 'hold',
  compressed: 'compress',
  relaxed: 'relax',
  empty: 'deflate',
  marked: 'mark',
  size: 'drill',
  deburred: 'deburr',
  protected: 'coat',
  bled: 'bleed',
  recorded: 'record',
  'on-ground': 'lower',
  raised: 'raise',
};

function fitted(name: string, subject: Subject): Work[] {
  if (subject.type !== 'part') return [];
  const joints = [...subject.part.joints.values()];
  if (joints.length === 0) return [{ entries: [entry('fit', name)] }];
  return [{ entries: [entry('bolt-up', name), entry('torque', name)] }];
}

function held(fault: Fault, name: string, subject: Subject): Work[] {
  if (subject.type !== 'part') return [{ entries: [entry('hold', name, aided(fault, 'hold', subject))] }];
  const aid = jackFor(fault, name);
  return [{ entries: [entry('support', name, aid === null ? {} : { with: aid })] }];
}

function aided(fault: Fault, verb: string, subject: Subject): Readonly<Record<string, Value>> {
  if (verb === 'support' || verb === 'hold' || verb === 'compress') {
    const aid = aidOn(fault, verb, nameOf(subject), subject);
    return aid === null ? {} : { with: aid };
  }
  if (verb === 'drill' && subject.type === 'hole' && subject.hole.size !== null)
    return { to: `${subject.hole.size} mm` };
  return {};
}

/** The aid for a verb on an item: of a part, what a mechanic holds such a part with. */
function aidOn(fault: Fault, verb: string, name: string, subject: Subject): string | null {
  if (subject.type === 'part' && verb === 'support') return jackFor(fault, name);
  if (subject.type === 'part' && verb === 'hold') return tieFor(fault, name);
  return aidFor(fault, verb, canDo(verb, subject.type === 'part' ? subject.part.mass : null));
}

/** States that a thing is always in one of: a rule that names them is about the operation itself. */
const isAlways = (states: readonly string[]): boolean =>
  states.length > 3 ||
  [
    ['seated', 'freed'],
    ['connected', 'disconnected'],
  ].some((pair) => pair.every((state) => states.includes(state)));

/** `at-most-once` and rules that nothing excuses: the operation itself goes. */
export function* notAtAll(fault: Fault): Generator<Plan | null> {
  const { rule, path, guide } = fault;
  if (rule === undefined || path === null) return;
  const always = rule.family === 'never-while' && isAlways(rule.need?.state ?? []);
  if (!always && rule.family !== 'at-most-once') return;
  const edits = guide.removeOperation(path);
  const title = `Leave out this ${fault.event?.operation.verb ?? 'operation'} of step ${outerStep(path)}`;
  yield edits === null ? null : { kind: 'in place', title, edits, drafts: 0, takesOut: true };
}
