/** Where work on a part belongs by what sits on it, under it and before it, and where it comes too late. */

import type { Part } from '../../model/model';
import { type Event, thingOf } from '../../simulate/event';
import { eventsOn, type Fault, outerStep } from './repair';
import type { Spot, Work } from './work';

/** Verbs by which a part is put on. */
const PUTS_ON: ReadonlySet<string> = new Set(['fit', 'bolt-up']);

/** The places of its own, then those that are likely for any work, without those that come too late. */
export function placesInTime(
  fault: Fault,
  work: Work,
  order: readonly string[],
  likely: readonly Spot[],
): readonly Spot[] {
  const [verb = '', target] = Object.entries(work.entries[0] ?? {})[0] ?? [];
  const part = typeof target === 'string' ? fault.model.things.get(target) : undefined;
  if (part?.type !== 'part') return likely;
  const from = fault.step === null ? 0 : order.indexOf(fault.step);
  const own = ownPlace(fault, verb, part, (step) => order.indexOf(step) >= from);
  const places: readonly Spot[] = [
    ...(own === null ? [] : [{ step: own, side: 'behind' as const }]),
    ...likely,
  ];
  if (!PUTS_ON.has(verb) || part.attributes.wheel) return places;
  const late = tooLate(fault).find((step) => order.indexOf(step) > from);
  if (late === undefined) return places;
  const limit = order.indexOf(late);
  const inTime = places.filter((spot) => {
    const at = order.indexOf('step' in spot ? spot.step : outerStep(spot.operation)!);
    return at < limit || (at === limit && spot.side === 'before');
  });
  // Right before it is where all that it sits on is back.
  return own === null
    ? [{ step: late, side: 'before' }, ...inTime]
    : [...inTime, { step: late, side: 'before' }];
}

/**
 * The step behind which it belongs: a part goes on when what it sits on came back, a spring is let go when the nut that keeps
 * it is tight, a jack goes when the part and all that holds it are.
 */
function ownPlace(fault: Fault, verb: string, part: Part, isLater: (step: string) => boolean): string | null {
  const later = (events: readonly Event[]) =>
    events.map(({ step }) => outerStep(step.path) ?? '').filter(isLater);
  if (PUTS_ON.has(verb)) {
    const seats = part.joins.flatMap((join) => (typeof join === 'string' ? [] : [join.name]));
    return later(eventsOn(fault, ['fit', 'bolt-up', 'torque'], seats)).pop() ?? null;
  }
  const tightened = fault.simulation.events.filter((event) => event.verb === 'torque');
  if (verb === 'relax') {
    const keeps = tightened.filter(
      ({ subject }) =>
        subject.type === 'joint' && subject.joint.holdsSpring && isBeside(part, subject.joint.part),
    );
    return later(keeps)[0] ?? null;
  }
  if (verb !== 'unsupport' || part.attributes.axle) return null;
  const holds = tightened.filter(({ subject }) => {
    const other = thingOf(subject);
    return other === part || (other?.type === 'part' && other.joins.includes(part));
  });
  return later(holds).pop() ?? null;
}

/** Two parts that join each other, or the same third one. */
const isBeside = (one: Part, other: Part): boolean =>
  one.joins.includes(other) ||
  other.joins.includes(one) ||
  one.joins.some((join) => typeof join !== 'string' && other.joins.includes(join));

/** Steps that hide a part or need it: with wheels on, lines bled or the vehicle down it is too late to put it on. */
function tooLate({ simulation }: Fault): string[] {
  return simulation.events.flatMap(({ verb, subject, operation, step }) => {
    const path = outerStep(step.path);
    const isWheelOn = PUTS_ON.has(verb) && subject.type === 'part' && subject.part.attributes.wheel;
    const comesDown =
      verb === 'lower' &&
      subject.type === 'built-in' &&
      operation.onto.aids.length === 0 &&
      operation.by === null;
    return path !== null && (verb === 'bleed' || isWheelOn || comesDown) ? [path] : [];
  });
}
