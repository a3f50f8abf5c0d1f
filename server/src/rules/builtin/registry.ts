/** Every built-in rule, in the order in which they look at an operation. Adding one is one file and one line here. */

import { aidCannot } from './aid-cannot';
import { aidOverloaded } from './aid-overloaded';
import { armOffBeforeGround } from './arm-off-before-ground';
import { bodyHeldBeforeSpring } from './body-held-before-spring';
import { boltPastProof, torqueFarUnder, torqueUnitMeant } from './bolt-figures';
import { boltedToNothing } from './bolted-to-nothing';
import type { Builtin } from './builtin';
import { chockBeforeJack } from './chock-before-jack';
import { compressBeforeTopNut } from './compress-before-top-nut';
import { discardFitted } from './discard-fitted';
import { doDone } from './do-done';
import { drilledAlready } from './drilled-already';
import { drilledOversize } from './drilled-oversize';
import { fitDiscarded } from './fit-discarded';
import { foundWithoutMeasure } from './found-without-measure';
import { freeEndFirst } from './free-end-first';
import { heavyPartHeld } from './heavy-part-held';
import { heavyPartLifted } from './heavy-part-lifted';
import { holdsNoAir } from './holds-no-air';
import { holeCloseFit, holeTooSmall, holeTooWide, tapDrillWrong } from './hole-fits';
import { jointNeedsPart } from './joint-needs-part';
import {
  hubNutBeforeRolling,
  inflateBeforeGround,
  jointsSnugBeforeGround,
  wheelSeatedBeforeGround,
} from './landing';
import { leavesNotSo } from './leaves-not-so';
import { leftTightOverTravel } from './left-tight-over-travel';
import { leftWithout } from './left-without';
import { lineStretched } from './line-stretched';
import { loadedBarLetGo } from './loaded-bar-let-go';
import { loosenBeforeRemove } from './loosen-before-remove';
import { loosenFirst } from './loosen-first';
import { lowerUnheld } from './lower-unheld';
import { loweredTooFar } from './lowered-too-far';
import { moreThanInBox } from './more-than-in-box';
import { notAtRideHeight } from './not-at-ride-height';
import { nutStillOn } from './nut-still-on';
import { oldPartStillOn } from './old-part-still-on';
import { overInflated } from './over-inflated';
import { leftLoose, leftOff, leftSwung, leftUnseated, leftWithoutPin } from './owed';
import {
  leftDeflated,
  leftDisconnected,
  leftUnbled,
  leftUnchecked,
  leftUnclipped,
  leftUnused,
} from './owed-kit';
import {
  leftCompressed,
  leftDrained,
  leftHeld,
  leftIsolated,
  leftMarked,
  leftPilot,
  leftSwitched,
  leftUnloaded,
  leftUnprotected,
} from './owed-rest';
import { leftRaised, leftSupported } from './owed-support';
import { partHangsOnLine } from './part-hangs-on-line';
import { reach } from './reach';
import { recordedFirst } from './recorded-first';
import { retractingCableHeld } from './retracting-cable-held';
import { shockDoesNotReach } from './shock-does-not-reach';
import { newLockingNut, newSeal, newStretchBolt } from './single-use';
import { pinAfterTorque, slottedNutForwardOnly } from './slotted-nuts';
import { speedometerNotTold } from './speedometer-not-told';
import { springLoaded } from './spring-loaded';
import { springNeedsRoom } from './spring-needs-room';
import { standLeftUnder } from './stand-left-under';
import { standsBeforeWorkBeneath } from './stands-before-work-beneath';
import { stillJoined } from './still-joined';
import { supportAxleBeforeShockRemoval } from './support-axle-before-shock-removal';
import { nutWeaker, threadDiffers, threadTooShort } from './threads';
import { toldWhileBinding } from './told-while-binding';
import { stagesNotRising, torqueDiffers, torqueWithoutFigure } from './torque-figures';
import { torqueOffRideHeight } from './torque-off-ride-height';
import { tyreTooLarge } from './tyre-too-large';
import { undoUndone } from './undo-undone';
import { unsupportCarrying } from './unsupport-carrying';
import { wrongHand } from './wrong-hand';

/** Debts, in the order in which an open list prints them. */
export const DEBTS = [
  leftRaised,
  leftLoose,
  leftWithoutPin,
  leftOff,
  leftSwung,
  leftUnseated,
  leftUnloaded,
  leftDisconnected,
  leftUnclipped,
  leftUnbled,
  leftUnchecked,
  leftHeld,
  leftCompressed,
  leftSupported,
  leftIsolated,
  leftSwitched,
  leftDrained,
  leftDeflated,
  leftMarked,
  leftPilot,
  leftUnprotected,
  leftUnused,
];

export const BUILTINS: readonly Builtin[] = [
  foundWithoutMeasure,
  undoUndone,
  doDone,
  fitDiscarded,
  discardFitted,
  oldPartStillOn,
  jointNeedsPart,
  // Before what takes joints and parts for undone: these would let the bar go unseen.
  loadedBarLetGo,
  loosenBeforeRemove,
  loosenFirst,
  reach,
  freeEndFirst,
  stillJoined,
  boltedToNothing,
  nutStillOn,
  wrongHand,
  moreThanInBox,
  aidCannot,
  aidOverloaded,
  chockBeforeJack,
  supportAxleBeforeShockRemoval,
  lowerUnheld,
  bodyHeldBeforeSpring,
  unsupportCarrying,
  standsBeforeWorkBeneath,
  heavyPartHeld,
  heavyPartLifted,
  springLoaded,
  springNeedsRoom,
  shockDoesNotReach,
  compressBeforeTopNut,
  torqueOffRideHeight,
  notAtRideHeight,
  retractingCableHeld,
  newLockingNut,
  newSeal,
  newStretchBolt,
  pinAfterTorque,
  slottedNutForwardOnly,
  drilledAlready,
  drilledOversize,
  holeTooSmall,
  holeCloseFit,
  holeTooWide,
  tapDrillWrong,
  overInflated,
  speedometerNotTold,
  tyreTooLarge,
  holdsNoAir,
  stagesNotRising,
  torqueDiffers,
  torqueWithoutFigure,
  torqueUnitMeant,
  boltPastProof,
  torqueFarUnder,
  nutWeaker,
  threadDiffers,
  threadTooShort,
  recordedFirst,
  wheelSeatedBeforeGround,
  armOffBeforeGround,
  jointsSnugBeforeGround,
  inflateBeforeGround,
  hubNutBeforeRolling,
  standLeftUnder,
  loweredTooFar,
  leftTightOverTravel,
  lineStretched,
  partHangsOnLine,
  leavesNotSo,
  leftWithout,
  ...DEBTS,
  ...toldWhileBinding,
];
