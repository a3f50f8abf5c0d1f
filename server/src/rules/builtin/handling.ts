/** What a fitter may hold in the hand: up to the guideline at arm's length alone, with others up to that close to the body each. */

import { guidelineWeight } from '../../calc/lifting';
import type { Part } from '../../model/model';
import type { Event } from '../../simulate/event';

/** 15 kg. */
export const BY_HAND_KG = guidelineWeight('elbow', true).men;
/** 25 kg, by common practice for each of several too. */
export const EACH_OF_SEVERAL_KG = guidelineWeight('elbow', false).men;

export function liftedByHand(part: Part, event: Event): boolean {
  const { people } = event.step;
  if (people >= 2) return part.mass === null || part.mass <= people * EACH_OF_SEVERAL_KG;
  return part.mass !== null && part.mass <= BY_HAND_KG;
}

/** More hands than these are in each other's way; an aid it is. */
const MOST_PEOPLE = 3;

/** What a mass (kg) wants that one alone does not hold: `2 people or an aid`. */
export function handsWanted(mass: number): string {
  const people = Math.max(2, Math.ceil(mass / EACH_OF_SEVERAL_KG));
  return people > MOST_PEOPLE ? 'an aid' : `${people} people or an aid`;
}
