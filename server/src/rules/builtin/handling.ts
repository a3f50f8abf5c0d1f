/** What a fitter may hold in the hand (common practice: up to 15 kg alone; more with a second person). */

import type { Part } from '../../model/model';
import type { Event } from '../../simulate/event';

export const BY_HAND_KG = 15;
/** What each person may lift: HSE guideline weight (memory), common practice. */
export const EACH_OF_SEVERAL_KG = 25;

export function liftedByHand(part: Part, event: Event): boolean {
  const { people } = event.step;
  if (people >= 2) return part.mass === null || part.mass <= people * EACH_OF_SEVERAL_KG;
  return part.mass !== null && part.mass <= BY_HAND_KG;
}
