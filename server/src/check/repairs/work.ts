/** Operations that are missing, and the ways to bring them into a guide: those it has at the wrong place moved, or new ones. */

import { together } from '../../edit/apply';
import type { Entry } from '../../edit/steps';
import type { Value } from '../../edit/write';
import type { Thing } from '../../model/model';
import { type Event, nameOf, thingOf } from '../../simulate/event';
import { eventsOn, type Fault, outerStep, type Plan, saidInStep, stepsInOrder } from './repair';
import { isForNothing } from './superseded';
import { capital, sentenceOf, titleOf } from './words';

/** Operations that belong together in one step. */
export interface Work {
  readonly entries: readonly Entry[];
  /** The sentence of the step, where there is a better one than the operations make. */
  readonly text?: string;
}

/** Where new work goes. */
export type Spot =
  | { readonly step: string; readonly side: 'before' | 'behind' }
  | { readonly operation: string; readonly side: 'before' | 'behind' };

/** How a title says the place. */
export type PlaceWords = 'first' | 'behind' | 'later';

/** Verbs that do what one does, or more. */
const DOES: Readonly<Record<string, readonly string[]>> = {
  loosen: ['loosen', 'remove'],
  start: ['start', 'snug', 'torque'],
  snug: ['snug', 'torque'],
  unbolt: ['unbolt', 'remove'],
  fit: ['fit', 'bolt-up'],
  hold: ['hold', 'support'],
  check: ['check', 'measure'],
};

/** Verbs that undo what one does. */
const UNDOES: Readonly<Record<string, readonly string[]>> = {
  support: ['unsupport', 'lower'],
  chock: ['unchock'],
  raise: ['lower'],
  hold: ['release'],
  compress: ['relax'],
  isolate: ['restore'],
  drain: ['fill'],
  disconnect: ['connect'],
  connect: ['disconnect'],
  unclip: ['clip'],
  clip: ['unclip'],
  unbolt: ['fit', 'bolt-up'],
  remove: ['fit', 'bolt-up', 'start', 'snug', 'torque'],
  loosen: ['snug', 'torque'],
  fit: ['remove', 'unbolt', 'discard'],
  'bolt-up': ['remove', 'unbolt'],
  torque: ['loosen', 'remove'],
  snug: ['loosen', 'remove'],
  inflate: ['deflate'],
  free: ['seat'],
  seat: ['free'],
};

/** An operation with its verb first; qualifiers without a value are left out. */
export function entry(
  verb: string,
  target: Value,
  more: Readonly<Record<string, Value | undefined>> = {},
): Entry {
  // What is applied stands behind the verb, and what it is applied to behind `to`.
  if (verb === 'apply') return { apply: more.apply ?? 'oil', to: target };
  const said = Object.entries(more).filter((pair): pair is [string, Value] => pair[1] !== undefined);
  return { [verb]: target, ...Object.fromEntries(said) };
}

/** The qualifiers that narrow an operation on a thing to the sides and places of a finding; none where it is about all. */
export function narrowing(fault: Fault, thing: Thing | null): Readonly<Record<string, Value>>[] {
  const labels = fault.finding.sides ?? [];
  if (thing === null || labels.length === 0) return [{}];
  const instances = thing.instances.filter(({ label }) => labels.includes(label));
  if (instances.length === 0 || instances.length === thing.instances.length) return [{}];
  return instances.map(({ side, place, placeKey }) => ({
    ...(placeKey === '' ? {} : { [placeKey]: place }),
    ...(side === '' ? {} : { side }),
  }));
}

/** A plan that puts work into the guide at a place, as a draft; null where the text does not allow it. */
export function insertion(
  fault: Fault,
  work: Work,
  spot: Spot,
  words: PlaceWords,
  when: Value = null,
): Plan | null {
  if (work.entries.some((one) => isForNothing(fault, one))) return null;
  const { guide, model } = fault;
  const clause = titleOf(work.entries, model);
  const title = `${capital(clause)} ${PLACES[words]}`;
  if ('operation' in spot) {
    const own = work.entries.map((one) => (when === null ? one : { ...one, when }));
    const edits = together(
      ...own.map((one) => guide.insertOperation(spot.operation, spot.side, one)),
      guide.markDraft(outerStep(spot.operation)!),
    );
    return edits === null ? null : { kind: 'insert', title, clause, edits, drafts: 1 };
  }
  const step: Entry = {
    text: work.text ?? sentenceOf(work.entries, model),
    ...(when === null ? {} : { when }),
    draft: true,
    do: work.entries,
  };
  const edits = guide.insertStep(spot.step, spot.side, step);
  return edits === null ? null : { kind: 'insert', title, clause, edits, drafts: 1 };
}

const PLACES: Readonly<Record<PlaceWords, string>> = {
  first: 'first',
  behind: 'right after',
  later: 'later',
};

/** What stands under the body taken away, each by itself: it keeps the vehicle up. */
export function standsAway(fault: Fault): Work[] {
  const stood = new Map<string, Work>();
  for (const { verb, subject, operation } of eventsOn(fault, ['support', 'lower'], BODY)) {
    const aid = operation.qualifiers.get(verb === 'lower' ? 'onto' : 'with');
    if (typeof aid !== 'string') continue;
    const work = { entries: [entry('unsupport', nameOf(subject), { with: aid })] };
    stood.set(JSON.stringify(work), work);
  }
  return [...stood.values()];
}

const BODY = ['vehicle', 'body', 'frame', 'front', 'rear'];

/** What the step and the operation of a finding ask for, so that new work is done in the same variants. */
export function conditionOf(fault: Fault): Value {
  const own = fault.path === null ? null : saidInStep(fault.guide, fault.path, 'when');
  const steps = fault.step === null ? null : saidInStep(fault.guide, fault.step, 'when');
  if (own === null || steps === null) return own ?? steps;
  return isMap(own) && isMap(steps) ? { ...steps, ...own } : null;
}

const isMap = (value: Value): value is { readonly [key: string]: Value } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What must have been done before the operation of a finding: what there is of it moved, or new work. */
export function* before(fault: Fault, works: readonly Work[], earlier: readonly string[] = []) {
  for (const work of works) yield* movesBefore(fault, work);
  for (const work of works) yield* insertionsBefore(fault, work, earlier);
}

/** Moves that put work which the guide has before the operation that wants it, or what undoes it behind. */
export function* movesBefore(fault: Fault, work: Work): Generator<Plan | null> {
  const here = fault.step;
  if (here === null) return;
  yield* movesWithin(fault, work);
  const order = stepsInOrder(fault.model);
  const position = order.indexOf(here);
  const seen = new Set<string>([here]);
  for (const event of existing(fault, work, DOES)) {
    const step = outerStep(event.step.path);
    if (step === null || seen.has(step) || order.indexOf(step) < position) continue;
    seen.add(step);
    yield move(fault, step, here, 'before');
    yield move(fault, here, step, 'behind');
  }
  for (const event of existing(fault, work, UNDOES).reverse()) {
    const step = outerStep(event.step.path);
    if (step === null || seen.has(step) || order.indexOf(step) > position) continue;
    seen.add(step);
    yield move(fault, step, here, 'behind');
    const last = lastTouched(fault);
    if (last !== null && order.indexOf(last) > position) yield move(fault, step, last, 'behind');
    yield move(fault, here, step, 'before');
  }
}

/** Moves within the step itself: work that it does too late goes before the operation, what undoes it too early behind. */
function* movesWithin(fault: Fault, work: Work): Generator<Plan | null> {
  const { path, event, guide } = fault;
  if (path === null || event === null) return;
  const seen = new Set<string>([path]);
  const moved = function* (other: Event, side: 'before' | 'behind'): Generator<Plan | null> {
    const own = other.operation.path;
    if (seen.has(own) || own.includes('/') || outerStep(own) !== fault.step) return;
    seen.add(own);
    const edits = guide.moveOperation(own, path, side);
    const words = ({ operation: { verb }, target }: Event) => `“${verb} ${target.written}”`;
    const title = `Do ${words(other)} ${side === 'before' ? 'before' : 'after'} ${words(event)}`;
    yield edits === null ? null : { kind: 'move', title, edits, drafts: 0 };
  };
  for (const other of existing(fault, work, DOES)) if (other.run > event.run) yield* moved(other, 'before');
  for (const other of existing(fault, work, UNDOES)) if (other.run < event.run) yield* moved(other, 'behind');
}

/** The last step that does anything to the thing of a finding. */
function lastTouched(fault: Fault): string | null {
  const { thing, simulation } = fault;
  if (thing === null) return null;
  const touched = simulation.events.filter((event) => thingOf(event.subject) === thing);
  return outerStep(touched[touched.length - 1]?.step.path ?? '0');
}

/** Events of the guide that do what some work does, or undo it. */
export function existing(
  fault: Fault,
  { entries }: Work,
  verbs: Readonly<Record<string, readonly string[]>> = DOES,
): Event[] {
  return entries.flatMap((one) => {
    const [verb = '', target] = Object.entries(one)[0] ?? [];
    const names = (Array.isArray(target) ? target : [target]).map(String);
    const wanted = verbs[verb] ?? (verbs === DOES ? [verb] : []);
    return eventsOn(fault, wanted, names);
  });
}

/** New work right before the step; before the operation itself; before the steps that led there, and others that are named. */
export function* insertionsBefore(
  fault: Fault,
  work: Work,
  earlier: readonly string[] = [],
): Generator<Plan | null> {
  const { step, path } = fault;
  if (step === null) return;
  const when = conditionOf(fault);
  const conditions: readonly Value[] = when === null ? [null] : [when, null];
  const spots: Spot[] = [{ step, side: 'before' }];
  if (path !== null && !path.endsWith('.1')) spots.push({ operation: path, side: 'before' });
  for (const other of [...fault.causes, ...earlier])
    if (other !== step) spots.push({ step: other, side: 'before' });
  for (const condition of conditions)
    for (const spot of spots) yield insertion(fault, work, spot, 'first', condition);
}

/** A plan that moves one step before or behind another. */
export function move(fault: Fault, step: string, target: string, side: 'before' | 'behind'): Plan | null {
  const edits = fault.guide.moveSteps(step, 1, target, side);
  const title = `Move ${named(fault, step)} ${side} ${named(fault, target)}`;
  return edits === null ? null : { kind: 'move', title, edits, drafts: 0 };
}

/** `“Take both shocks off” (2.3)`: how the text of a step begins, and its number as it stands now. */
function named(fault: Fault, step: string): string {
  const title = fault.model.steps.find(({ path }) => outerStep(path) === step)?.title ?? '';
  const first = title.split('\n')[0]!.split('. ')[0]!.replace(/\.$/, '');
  const short = first.length > 40 ? `${first.slice(0, 38).trimEnd()}…` : first;
  return short === '' ? `step ${step}` : `“${short}” (${step})`;
}
