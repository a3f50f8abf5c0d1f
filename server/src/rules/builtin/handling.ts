/** What a fitter may hold in the hand (common practice: up to 15 kg alone; more with a second person). */

import type { Part } from '../../model/model';
import type { Event } from '../../simulate/event';

export const BY_HAND_KG = 15;

export function liftedByHand(part: Part, event: Event): boolean {
  return event.step.people >= 2 || (part.mass !== null && part.mass <= BY_HAND_KG);
}
