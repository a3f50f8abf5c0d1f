/** Where work goes that a guide still owes: likely places first, then from the end backwards. */

import type { Value } from '../../edit/write';
import { placesInTime } from './own-places';
import { eventsOn, type Fault, outerStep, type Plan, stepsInOrder } from './repair';
import { conditionOf, existing, insertion, move, type Spot, type Work } from './work';

/** Verbs of what is done on the ground, at the end of the job. */
const AT_THE_END: ReadonlySet<string> = new Set([
  'restore',
  'switch',
  'check',
  'adjust',
  'fill',
  'lower',
  'measure',
  'set',
]);
/** Verbs that undo a help: as soon as what it was for is done. */
const SOON: ReadonlySet<string> = new Set([
  'release',
  'relax',
  'discard',
  'deburr',
  'coat',
  'drill',
  'clip',
  'connect',
  'seat',
  'transfer',
]);

/** Verbs that undo a help: right behind the operation that asked for it they would make nothing of it. */
const UNDOING: ReadonlySet<string> = new Set([
  'release',
  'relax',
  'unsupport',
  'connect',
  'clip',
  'lower',
  'restore',
  'switch',
  'fill',
  'inflate',
  'seat',
]);

/** Places from the end backwards that are tried when the likely ones will not do. */
const MOST_STEPS_BACK = 6;

/** Plans that do what is owed: what the guide does too early moved behind, or new work at the places that make sense. */
export function* closings(fault: Fault, work: Work): Generator<Plan | null> {
  const opener = fault.step;
  const order = stepsInOrder(fault.model);
  if (opener !== null)
    for (const event of existing(fault, work).reverse()) {
      const step = outerStep(event.step.path);
      if (step === null || order.indexOf(step) >= order.indexOf(opener)) continue;
      yield move(fault, step, opener, 'behind');
      yield move(fault, opener, step, 'before');
    }
  const when = conditionOf(fault);
  const conditions: readonly Value[] = when === null ? [null] : [when, null];
  for (const condition of conditions)
    for (const spot of unique(placesInTime(fault, work, order, spotsFor(fault, work, order))))
      yield insertion(fault, work, spot, 'later', condition);
}

/** Places for a final torque, the end of the guide first. */
export function torqueSpots(fault: Fault, work: Work): Spot[] {
  return spotsFor(fault, work, stepsInOrder(fault.model));
}

function spotsFor(fault: Fault, { entries }: Work, order: readonly string[]): Spot[] {
  const [verb = '', target] = Object.entries(entries[0] ?? {})[0] ?? [];
  const opener = fault.step;
  const from = opener === null ? 0 : Math.max(0, order.indexOf(opener));
  const last = order[order.length - 1];
  if (last === undefined) return [];
  const spots: Spot[] = [];
  // What lies behind is done with the vehicle raised, the battery off and so on: only the end brings that to its end.
  const least =
    verb === 'lower' ? order.length - 1 : UNDOING.has(verb) ? Math.min(from + 1, order.length - 1) : from;
  const behind = (step: string | undefined): void => {
    if (step !== undefined && order.indexOf(step) >= least) spots.push({ step, side: 'behind' });
  };
  const landings = fault.simulation.events
    .filter(
      ({ verb: one, operation }) =>
        one === 'lower' && operation.onto.aids.length === 0 && operation.by === null,
    )
    .flatMap(({ step }) => {
      const path = outerStep(step.path);
      return path !== null && order.indexOf(path) > from ? [path] : [];
    });
  const landing = landings[landings.length - 1];
  const names = (Array.isArray(target) ? target : [target]).map(String);
  const touched = eventsOn(fault, ALL, [...names, ...names.map((name) => name.split('.')[0]!)])
    .map(({ step }) => outerStep(step.path))
    .filter((step): step is string => step !== null && order.indexOf(step) > from);
  const end: Spot = { step: last, side: 'behind' };
  if (AT_THE_END.has(verb)) spots.push(end);
  if (SOON.has(verb)) {
    behind(touched[touched.length - 1]);
    behind(opener ?? undefined);
  }
  if (landing !== undefined && verb !== 'lower' && order.indexOf(landing) > least)
    spots.push({ step: landing, side: 'before' });
  if (verb === 'torque') spots.unshift(end);
  behind(touched[touched.length - 1]);
  const section = (opener ?? last).split('.')[0];
  behind([...order].reverse().find((step) => step.split('.')[0] === section));
  behind(opener ?? undefined);
  spots.push(end);
  for (const step of [...order.slice(from)].reverse().slice(0, MOST_STEPS_BACK)) behind(step);
  const path = fault.path;
  if (path !== null && !UNDOING.has(verb)) spots.push({ operation: path, side: 'behind' });
  return unique(spots);
}

function unique(spots: readonly Spot[]): Spot[] {
  return [...new Map(spots.map((spot) => [JSON.stringify(spot), spot])).values()];
}

/** Verbs by which something is touched. */
const ALL: readonly string[] = [
  'loosen remove start snug torque unbolt bolt-up swing fit offer withdraw free seat disconnect connect unclip clip',
  'route hold compress inflate deflate drain bleed drill cut weld support raise lower',
].flatMap((words) => words.split(' '));
