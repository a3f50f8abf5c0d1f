/** `loosen-first`: slackened on the ground, so before the steps that raise. */

import { eventsOn, type Fault, outerStep, type Plan } from './repair';
import { before, entry, move } from './work';

/** The slackening that the guide has put before the lift, the last lift first; else new work. */
export function* slackenedOnGround(fault: Fault): Generator<Plan | null> {
  const { event, simulation, step } = fault;
  if (event?.subject.type !== 'joint') return;
  const { full } = event.subject.joint;
  const raising = simulation.events
    .filter(({ verb, run }) => verb === 'raise' && run < event.run)
    .map((one) => outerStep(one.step.path))
    .filter((one) => one !== null);
  const lifts = [...new Set(raising.reverse())];
  // Taken out in the air it stays there, and is slackened before: only a slackening of its own is moved.
  const own = eventsOn(fault, ['loosen'], [full]).some(({ run }) => run === event.run);
  if (own && step !== null)
    for (const lift of lifts) if (lift !== step) yield move(fault, step, lift, 'before');
  yield* before(fault, [{ entries: [entry('loosen', full)] }], lifts);
}
