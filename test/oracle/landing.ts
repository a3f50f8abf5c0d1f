// A corner comes down on its wheel, or the vehicle rolls.
import { askedCorners, closure, cornersOf, joined, reachesFrame } from './corners.ts';
import { assume } from './joints.ts';
import { isAirSpring } from './parts.ts';
import { parseQuantity } from './quantity.ts';
import { found, named, namedJoint, type Run } from './run.ts';
import { UNNAMED_JACK } from './state.ts';
import type { Corner, Part } from './things.ts';
import { allParts, isKind, says } from './world.ts';

const SEATED = ['tight', 'snug', 'final'];

/** `stand-left-under`: what still stands beneath after those that lowered have gone. */
export function standLeftUnder(run: Run, corners: Corner[]): void {
  for (const corner of corners) {
    for (const aid of [...corner.body.keys(), ...corner.axle.keys()]) {
      if (aid !== UNNAMED_JACK) found(run, 'stand-left-under', { item: aid, side: '' });
    }
    corner.body.clear();
    corner.axle.clear();
  }
}

/** The rules for corners whose wheels take the load. */
export function landing(run: Run, corners: Corner[]): void {
  for (const corner of corners) for (const wheel of wheelsToAsk(corner)) judgeWheel(run, wheel);
  for (const part of allParts(run.world)) {
    if (part.state !== 'fitted') continue;
    if (isRunningGear(run, part) && atOneOf(run, part, corners)) {
      for (const joint of part.joints.filter((one) => one.position === 'out' || one.position === 'started')) {
        found(run, 'joints-snug-before-ground', namedJoint(joint));
        assume(joint, 'snug');
      }
    }
    if (isAirSpring(part) && askedCorners(run.world, part).some((one) => corners.includes(one)))
      judgeAir(run, part);
  }
}

/** The wheels that must be on: of a wheel and what replaces it, the one that is fitted, else the newest still there. */
function wheelsToAsk(corner: Corner): Part[] {
  const there = corner.wheels.filter((wheel) => wheel.state !== 'discarded');
  const fitted = there.filter((wheel) => wheel.state === 'fitted');
  const replacedBy = (old: Part): Part[] =>
    corner.wheels.filter((one) => one.kit && [one.own.replaces].flat().includes(old.name));
  return corner.wheels.filter((wheel) => {
    if (fitted.includes(wheel)) return true;
    const olds = corner.wheels.filter((one) => replacedBy(one).includes(wheel));
    const family = [wheel, ...replacedBy(wheel), ...olds, ...olds.flatMap(replacedBy)];
    if (family.some((one) => fitted.includes(one))) return false;
    // None of them is on: the old one is asked for while it is there, else what replaces it.
    if (olds.some((one) => there.includes(one))) return false;
    return there.includes(wheel) || replacedBy(wheel).length === 0;
  });
}

function judgeWheel(run: Run, wheel: Part): void {
  const loose = wheel.joints.filter((joint) => !SEATED.includes(joint.position));
  if (wheel.state === 'fitted' && loose.length === 0) return;
  found(run, 'wheel-seated-before-ground', named(wheel));
  wheel.state = 'fitted';
  wheel.granted = true;
  wheel.debt = undefined;
  wheel.offWith = undefined;
  wheel.neverOn = false;
  wheel.offFromGiven = false;
  for (const joint of loose) assume(joint, 'snug');
}

/** Whether a part of suspension or steering is at one of the corners. */
function atOneOf(run: Run, part: Part, corners: Corner[]): boolean {
  const own = part.implied ? askedCorners(run.world, part) : cornersOf(run.world, part);
  return own.some((one) => corners.includes(one));
}

/** *Of suspension or steering*: between a wheel and the frame, by the graph; of an implied part, by its kind. */
function isRunningGear(run: Run, part: Part): boolean {
  if (part.implied) return part.body.system === 'suspension' || part.body.system === 'steering';
  const wheels = allParts(run.world).filter((one) => !one.implied && isKind(one, 'wheel'));
  const between = new Set(wheels.flatMap((wheel) => closure(run.world, wheel)));
  if (between.has(part)) return true;
  if (part.joins.length < 2) return false;
  const ends = joined(run.world, part);
  const atWheel = ends.filter((one) => between.has(one));
  if (atWheel.length === 0) return false;
  const fixed = part.joins.some((name) => name === 'frame' || name === 'body');
  return (
    fixed || ends.some((one) => !(atWheel.length === 1 && one === atWheel[0]) && reachesFrame(run.world, one))
  );
}

function judgeAir(run: Run, part: Part): void {
  const least = parseQuantity(part.body.pressure)?.low;
  const low = typeof part.pressure === 'number' && least !== undefined && part.pressure < least;
  if (part.pressure !== 'empty' && !low) return;
  found(run, 'inflate-before-ground', named(part));
  part.pressure = 'full';
  part.pressureDebt = undefined;
}

/** `hub-nut-before-rolling`, at `move`. */
export function judgeRolling(run: Run): void {
  for (const part of allParts(run.world)) {
    if (!says(part.body, 'hub') || (part.state !== 'fitted' && part.state !== 'swung')) continue;
    for (const joint of part.joints) {
      if (joint.position !== 'tight' && joint.position !== 'final')
        found(run, 'hub-nut-before-rolling', namedJoint(joint));
    }
  }
}
