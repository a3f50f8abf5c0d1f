/** The step of a finding put a little farther up or down: what was swapped is swapped back. */

import { type Fault, type Plan, stepsInOrder } from './repair';
import { move } from './work';

/** Steps up and down that are tried. */
const MOST_STEPS = 4;

/** Moves of the step itself, and of those that led there, nearest places first. Only for rules of order. */
export function* nearby(fault: Fault): Generator<Plan | null> {
  if (fault.event === null || fault.step === null || IN_PLACE_ONLY.has(fault.finding.rule)) return;
  const order = stepsInOrder(fault.model);
  const moved = [fault.step, ...fault.causes.slice(0, 1)];
  for (let away = 1; away <= MOST_STEPS; away++)
    for (const step of moved) {
      const at = order.indexOf(step);
      const below = order[at + away];
      const above = order[at - away];
      if (below !== undefined) yield move(fault, step, below, 'behind');
      if (above !== undefined) yield move(fault, step, above, 'before');
    }
}

/** Rules that no order of steps can mend. */
const IN_PLACE_ONLY: ReadonlySet<string> = new Set([
  'torque-differs',
  'torque-without-figure',
  'stages-not-rising',
  'drilled-oversize',
  'over-inflated',
  'new-locking-nut',
  'new-seal',
  'new-stretch-bolt',
  'aid-cannot',
  'aid-overloaded',
  'wrong-hand',
  'more-than-in-box',
  'left-without',
  'left-unused',
]);
