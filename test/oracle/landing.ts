// A corner comes down on its wheel, or the vehicle rolls.
import { askedCorners, closure, cornersOf, joined, reachesFrame } from './corners.ts';
import { assume } from './joints.ts';
import { isAirSpring } from './parts.ts';
import { parseQuantity } from './quantity.ts';
import { found, named, namedJoint, type Run } from './run.ts';
import { aidCan, UNNAMED_JACK } from './state.ts';
import type { Corner, Part } from './things.ts';
import { allParts, isKind, related, says } from './world.ts';

const SEATED = ['tight', 'snug', 'final'];

/** `stand-left-under`: what still stands beneath after those that lowered have gone. */
export function standLeftUnder(run: Run, corners: Corner[], moves = false): void {
  for (const corner of corners) {
    if (moves && corner.carry !== 'wheel') continue;
    for (const spot of [corner.body, corner.axle])
      for (const aid of [...spot.keys()]) {
        if (moves && aidCan(run.world, aid, 'takes-wheels')) continue;
        if (aid !== UNNAMED_JACK) found(run, 'stand-left-under', { item: aid, side: '' });
        spot.delete(aid);
      }
  }
}

/** The rules for corners whose wheels take the load. */
export function landing(run: Run, corners: Corner[]): void {
  for (const corner of corners) for (const wheel of wheelsToAsk(corner)) judgeWheel(run, wheel);
  for (const part of allParts(run.world)) judgeArm(run, part, corners);
  for (const part of allParts(run.world)) {
    if (part.state !== 'fitted') continue;
    if (corners.some((corner) => isRunningGear(run, part, corner))) {
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
    if (replacedBy(wheel).some((one) => one.state === 'fitted' || one.state === 'swung')) return false;
    if (fitted.includes(wheel)) return true;
    const olds = corner.wheels.filter((one) => replacedBy(one).includes(wheel));
    const family = [wheel, ...replacedBy(wheel), ...olds, ...olds.flatMap(replacedBy)];
    if (family.some((one) => fitted.includes(one))) return false;
    // None of them is on: the old one is asked for while it is there, else what replaces it.
    if (olds.some((one) => there.includes(one))) return false;
    return there.includes(wheel) || replacedBy(wheel).length === 0;
  });
}

/** A wheel whose arm lies on the floor folds. */
function judgeArm(run: Run, part: Part, corners: Corner[]): void {
  if (!says(part.body, 'arm') || says(part.body, 'hub') || part.kit || part.toldOff) return;
  if (part.state !== 'off' && part.state !== 'discarded') return;
  if (!corners.some((corner) => isRunningGear(run, part, corner))) return;
  const instead = allParts(run.world).some(
    (other) =>
      (other.state === 'fitted' || other.state === 'swung') &&
      [other.own.replaces].flat().includes(part.name) &&
      (other.side === '' || part.side === '' || other.side === part.side),
  );
  if (instead) return;
  found(run, 'arm-off-before-ground', named(part));
  part.toldOff = true;
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

/** *Of suspension or steering* at a corner: it lies between a wheel there and the frame, or something that does stands on it. */
function isRunningGear(run: Run, part: Part, corner: Corner): boolean {
  if (part.implied) {
    const its = part.body.system === 'suspension' || part.body.system === 'steering';
    return its && askedCorners(run.world, part).includes(corner);
  }
  if (liesBetween(run, part, corner)) return true;
  if (isKind(part, 'wheel')) return false;
  return allParts(run.world).some(
    (other) =>
      !other.implied &&
      other.body.system !== 'driveline' &&
      joined(run.world, other).includes(part) &&
      liesBetween(run, other, corner),
  );
}

/** Whether a part is in the closure of a wheel of the corner, or joins that (or the axle's) and reaches the frame by another of its joins. */
function liesBetween(run: Run, part: Part, corner: Corner): boolean {
  const { world } = run;
  if (!cornersOf(world, part).includes(corner)) return false;
  const wheels = corner.wheels.filter((wheel) => !wheel.implied);
  if (wheels.some((wheel) => closure(world, wheel).includes(part))) return true;
  if (isKind(part, 'wheel')) return false;
  const carried = [...wheels, ...(corner.group.axle ? [corner.group.axle] : [])];
  const below = new Set(carried.flatMap((one) => closure(world, one)));
  return part.joins.some(
    (name) =>
      related(world, part, name).some((one) => closure(world, one).some((member) => below.has(member))) &&
      part.joins.some((other) => other !== name && leadsToFrame(run, part, other)),
  );
}

function leadsToFrame(run: Run, part: Part, name: string): boolean {
  if (['frame', 'body', 'ground', 'vehicle'].includes(name)) return true;
  return related(run.world, part, name).some((one) => reachesFrame(run.world, one));
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
