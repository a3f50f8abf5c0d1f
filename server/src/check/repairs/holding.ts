/** What holds a part of the vehicle while it is worked on: a jack or a hoist that bears it, or, for what is light, a tie. */

import type { Aid, Part } from '../../model/model';
import { aidFor, carries, isLift, isMadeFor } from './aids';
import { eventsOn, type Fault } from './repair';

/** What may hang on a wire, as a brake caliper does; and what on a strap or sling, in kg (common practice). */
const WIRE_KG = 5;
const SLING_KG = 15;
/** Ties that bear more than a wire, the likeliest first. */
const SLINGS = ['strap', 'sling', 'rope'];

const partNamed = ({ model }: Fault, name: string): Part | null => {
  const thing = model.things.get(name);
  return thing?.type === 'part' ? thing : null;
};

/** Whether a guide that takes an aid away from under a part may have meant to put it there: all that bears it, lifts apart. */
export const mayStandUnder =
  (fault: Fault, name: string) =>
  (aid: Aid): boolean =>
    carries(partNamed(fault, name)?.mass ?? null)(aid) && (partNamed(fault, name) === null || !isLift(aid));

/**
 * The word for what holds a part up: what the guide itself moves it with, what it holds others with, what the rule names, or
 * what a mechanic would take under a lift or on the floor.
 */
export function jackFor(fault: Fault, name: string): string | null {
  const part = partNamed(fault, name);
  if (part === null) return aidFor(fault, 'support', carries(null));
  const can = (aid: Aid) => isMadeFor(part, aid);
  for (const { operation } of eventsOn(fault, ['support', 'raise', 'lower'], [name])) {
    const said = operation.qualifiers.get('with');
    if (typeof said === 'string' && operation.aids.every((aid) => aid.known && can(aid))) return said;
  }
  const onLift = fault.simulation.events.some(
    ({ verb, operation }) => verb === 'raise' && operation.aids.some(isLift),
  );
  // A pole reaches from the floor to a vehicle on a lift; without one it is of no use.
  const fits = (aid: Aid) => can(aid) && (onLift || aid.name !== 'pole-jack');
  const found = aidFor(fault, 'support', fits);
  if (found !== null && isSaid(fault, found)) return found;
  const { aids } = fault.model;
  const own = part.kinds.map((kind) => aids.get(`${kind}-jack`)).find((aid) => aid !== undefined && can(aid));
  if (own !== undefined) return own.name;
  if (found !== null && found === fault.rule?.repair?.with) return found;
  const usual = onLift ? likelyUnderLift(part) : 'trolley-jack';
  const known = aids.get(usual);
  return known !== undefined && can(known) ? usual : found;
}

const isSaid = ({ model }: Fault, word: string): boolean =>
  model.steps.some(({ operations }) => operations.some(({ qualifiers }) => qualifiers.get('with') === word));

/** Axles and light parts stand on a pole, what is heavy lies on the head of a gearbox jack. */
const likelyUnderLift = ({ attributes, mass }: Part): string =>
  attributes.axle || attributes.arm || mass === null || mass <= SLING_KG ? 'pole-jack' : 'gearbox-jack';

/** Whether a wire holds it; of unknown mass what belongs to a brake is. */
export function isLight(fault: Fault, name: string): boolean {
  const part = partNamed(fault, name);
  if (part === null) return true;
  return part.mass === null ? part.attributes.system === 'brakes' : part.mass <= WIRE_KG;
}

/** The word for what ties a part up by hand: wire for what is light, a strap for what is not; null for what must be carried. */
export function tieFor(fault: Fault, name: string): string | null {
  const part = partNamed(fault, name);
  const holds = (aid: Aid) => aid.holds && !aid.carries && !aid.compresses;
  if (part === null || isLight(fault, name)) return aidFor(fault, 'hold', holds);
  if (part.mass !== null && part.mass > SLING_KG) return null;
  const own = aidFor(fault, 'hold', (aid) => holds(aid) && SLINGS.includes(aid.name));
  const known = SLINGS.find((word) => fault.model.aids.has(word)) ?? null;
  return own !== null && isSaid(fault, own) ? own : known;
}
