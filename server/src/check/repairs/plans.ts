/** The plans for a finding, likeliest first: a planner is a file beside this one and a place in these lists. */

import { otherAids } from './aids';
import { closed } from './debts';
import { handedOver, notLeft } from './duties';
import { notAtAll, wantedBefore, wantedLater, wantedNext } from './families';
import {
  makersFigure,
  mostPressure,
  otherTravel,
  risingStages,
  sizeOfTheHole,
  torqueOfTheData,
  unitThatFits,
} from './figures';
import { measuredFirst } from './measured';
import { neededBefore } from './needs';
import { newPiece, newPin, pinWithTorque } from './pieces';
import { snugThenTorque } from './postponed';
import type { Fault, Plan, Planner } from './repair';
import { slackenedOnGround } from './slackened';
import {
  cleared,
  leftOut,
  lowerInstead,
  notScrapped,
  otherQualifier,
  ownHand,
  twoPeople,
  unboltInstead,
  widened,
} from './wordings';

/** What is said another way, by rule. */
const IN_PLACE: Readonly<Record<string, readonly Planner[]>> = {
  'torque-differs': [torqueOfTheData],
  'torque-without-figure': [makersFigure],
  'torque-unit-meant': [unitThatFits],
  'stages-not-rising': [risingStages],
  'drilled-oversize': [sizeOfTheHole],
  'over-inflated': [mostPressure],
  'new-locking-nut': [newPiece],
  'new-seal': [newPiece],
  'new-stretch-bolt': [newPiece],
  'left-without-pin': [newPin],
  'pin-after-torque': [pinWithTorque],
  'aid-cannot': [otherAids],
  'aid-overloaded': [otherAids],
  'heavy-part-held': [twoPeople],
  'wrong-hand': [ownHand],
  'loosen-before-remove': [unboltInstead],
  'unsupport-carrying': [lowerInstead],
  'torque-off-ride-height': [snugThenTorque],
  'not-at-ride-height': [snugThenTorque],
  'leaves-not-so': [notLeft],
  'spring-loaded': [otherTravel],
  'line-stretched': [otherTravel],
  'do-done': [leftOut],
  'undo-undone': [leftOut],
  'drilled-already': [leftOut],
  'slotted-nut-forward-only': [leftOut],
  'fit-discarded': [notScrapped],
  'draft-step': [cleared],
};

/** What every finding is tried with; each planner looks itself whether it has anything to say. */
const ALL: readonly Planner[] = [
  widened,
  otherQualifier,
  notAtAll,
  people,
  measuredFirst,
  slackened,
  neededBefore,
  wantedBefore,
  wantedNext,
  wantedLater,
  handedOver,
  closed,
];

/** Plans for a finding, each text change once. Lazy: what is not asked for is not made. */
export function* plansFor(fault: Fault): Generator<Plan> {
  const seen = new Set<string>();
  for (const planner of [...(IN_PLACE[fault.finding.rule] ?? []), ...ALL])
    for (const plan of planner(fault)) {
      if (plan === null || plan.edits.length === 0) continue;
      const key = JSON.stringify(plan.edits);
      if (seen.has(key)) continue;
      seen.add(key);
      yield plan;
    }
}

function* slackened(fault: Fault): Generator<Plan | null> {
  if (fault.finding.rule === 'loosen-first') yield* slackenedOnGround(fault);
}

/** A rule that more people excuse. */
function* people(fault: Fault): Generator<Plan | null> {
  if (fault.rule?.unless.some((excuse) => 'people' in excuse && excuse.people <= 2)) yield* twoPeople(fault);
}
