// What happens to joints, and what the rules say of it.

import { judgeBolt } from './bolts.ts';
import { holds } from './condition.ts';
import { askedCorners, joined } from './corners.ts';
import { aidName } from './packs.ts';
import { parseQuantity } from './quantity.ts';
import { isMap, list, map, text, texts } from './raw.ts';
import { found, namedJoint, open, type Run } from './run.ts';
import { aidCan, bushed, held, mass, onGround, rideHeight, spentSeal, unknownAid, usedUp } from './state.ts';
import type { Joint, Part, Position } from './things.ts';
import { allParts, isKind, says } from './world.ts';

const HELD_POSITIONS: Position[] = ['tight', 'final', 'snug'];

/** Moves a joint. What is left neither tight nor final is owed from here. */
export function move(run: Run, joint: Joint, position: Position): void {
  if (joint.position === position) return;
  joint.position = position;
  if (run.judged) joint.touched = true;
  joint.debt = position === 'final' || position === 'tight' ? undefined : open(run, joint.debt);
}

/** The state that a rule goes on with: nothing is owed for it. */
export function assume(joint: Joint, position: Position): void {
  joint.granted = true;
  joint.position = position;
  joint.debt = undefined;
}

function lacksPin(run: Run, joint: Joint): void {
  if (joint.body.nut !== 'slotted' || joint.lacksPin) return;
  joint.lacksPin = true;
  joint.pinDebt = open(run, undefined);
}

export function pinIn(joint: Joint): void {
  joint.lacksPin = false;
  joint.pinDebt = undefined;
}

/** `new:` makes pieces fresh before the rules speak. */
export function takeNew(run: Run, joint: Joint, names: string[]): void {
  for (const name of names) {
    joint.spent.delete(name);
    if (name === 'pin' && joint.body.nut === 'slotted') pinIn(joint);
  }
  if (names.length > 0) countHardware(run, joint, names);
}

/** Kit hardware that an operation takes out of the box by `new:`. */
function countHardware(run: Run, joint: Joint, names: string[]): void {
  for (const [hardware, body] of Object.entries(run.world.hardware)) {
    const wanted = texts(body.for);
    if (!wanted.some((one) => one === joint.item || names.some((name) => one === `${joint.item}.${name}`)))
      continue;
    if (joint.hardware.has(hardware)) continue;
    joint.hardware.add(hardware);
    const count = (run.boxCount.get(`hardware ${hardware}`) ?? 0) + Number(joint.body.bolts ?? 1);
    run.boxCount.set(`hardware ${hardware}`, count);
    const quantity = body.quantity === undefined ? undefined : Number(body.quantity);
    if (quantity === undefined || count <= quantity || run.overBox.has(hardware)) continue;
    if (!run.judged) continue;
    run.overBox.add(hardware);
    found(run, 'more-than-in-box', { item: hardware, side: '' });
  }
}

/** `body-held-before-spring`: a leaf spring comes undone where nothing carries the body. */
export function judgeLeaf(run: Run, part: Part): void {
  if (part.state !== 'fitted' || !isKind(part, 'leaf-spring')) return;
  const bare = askedCorners(run.world, part).some(
    (corner) => corner.carry !== 'body' && corner.body.size === 0,
  );
  if (bare) found(run, 'body-held-before-spring', { item: part.name, side: part.label });
}

/** Rules before `loosen` or `remove` of a joint; whether it has an effect. */
export function judgeUndo(run: Run, verb: string, joint: Joint, byUnbolt: boolean): boolean {
  if (HELD_POSITIONS.includes(joint.position)) {
    const inAir = askedCorners(run.world, joint.part).some((corner) => !onGround(run.world, corner));
    if (joint.body['loosen-first'] === 'on-ground' && (verb === 'remove' || inAir))
      found(run, 'loosen-first', namedJoint(joint));
    if (verb === 'remove' && run.rules.strictLoosening && !byUnbolt)
      found(run, 'loosen-before-remove', namedJoint(joint));
  }
  const part = joint.part;
  if (verb === 'remove' && part.joints.every((one) => one.position !== 'out')) judgeLeaf(run, part);
  const here = ['fitted', 'off', 'off-with'].includes(part.state);
  const springs = springsOf(run, part);
  if (says(joint.body, 'holds-spring') && here && ![part, ...springs].some((one) => one.compressed)) {
    found(run, 'compress-before-top-nut', namedJoint(joint));
    for (const one of [part, ...springs]) one.compressed = true;
  }
  if (verb === 'loosen' && joint.body.nut === 'slotted' && joint.lacksPin) {
    if (joint.position === 'final' && joint.touched) {
      found(run, 'slotted-nut-forward-only', namedJoint(joint));
      return false; // it counts as still final
    }
  }
  return true;
}

/** The springs that a part takes along: those that it joins or that join it, or that join one thing (not an axle) with it. */
function springsOf(run: Run, part: Part): Part[] {
  const own = joined(run.world, part);
  return allParts(run.world)
    .filter((one) => one !== part && says(one.body, 'stores-energy'))
    .filter((one) => {
      const theirs = joined(run.world, one);
      if (theirs.includes(part) || own.includes(one)) return true;
      return theirs.some((other) => own.includes(other) && !says(other.body, 'axle'));
    });
}

export function loosen(run: Run, joint: Joint): void {
  if (!HELD_POSITIONS.includes(joint.position)) return;
  for (const piece of usedUp(run.world, joint, 'slackened')) joint.spent.add(piece);
  lacksPin(run, joint);
  move(run, joint, 'loose');
}

export function removeJoint(run: Run, joint: Joint): void {
  const part = joint.part;
  for (const piece of usedUp(run.world, joint, 'out')) joint.spent.add(piece);
  joint.hardware.clear();
  lacksPin(run, joint);
  move(run, joint, 'out');
  if (part.state === 'fitted') lastJointOut(run, part);
}

/** The last joint of a fitted part went out: who holds the part now? */
function lastJointOut(run: Run, part: Part): void {
  if (part.joints.some((joint) => joint.position !== 'out')) return;
  run.step.loosened.push({ part, path: run.path });
  heavyPart(run, part);
}

/** `heavy-part-held`: nothing else holds a heavy part that nothing fastens any more. */
export function heavyPart(run: Run, part: Part): void {
  if (isKind(part, 'wheel') || says(part.body, 'axle')) return;
  if (part.ends.some((end) => !end.freed)) return;
  const kilograms = mass(part);
  if (kilograms === undefined || liftedByHand(run, part) || held(run.world, part) || tiedDown(run, part))
    return;
  found(run, 'heavy-part-held', { item: part.name, side: part.label });
  if (run.judged) part.assumedHeld = true;
}

/** `heavy-part-lifted`: too heavy for those who put it up, and no aid carries it. */
export function liftedUp(run: Run, part: Part): void {
  const kilograms = mass(part);
  if (isKind(part, 'wheel') || says(part.body, 'axle') || part.state === 'swung') return;
  const aids = texts(run.raw.with).map((one) => aidName(run.world.packs, one));
  if (aids.some((aid) => unknownAid(run.world, aid) || aidCan(run.world, aid, 'carries'))) return;
  // 25 kg for each: HSE guideline weight, from memory.
  if (kilograms === undefined || kilograms <= 25 * run.step.people || held(run.world, part)) return;
  found(run, 'heavy-part-lifted', { item: part.name, side: part.label });
  if (run.judged) part.assumedHeld = true;
}

/** What joins a part and something else, and is fastened at every joint. */
export function tiedBy(run: Run, part: Part): Part[] {
  return allParts(run.world).filter((other) => {
    if (other === part || other.state !== 'fitted' || !joined(run.world, other).includes(part)) return false;
    if (other.joints.length === 0 || other.joints.some((joint) => joint.position === 'out')) return false;
    if (part.joints.length > 0 && joined(run.world, part).includes(other)) {
      if (part.joints.every((joint) => joint.position === 'out')) return false;
    }
    if (other.ends.some((end) => end.freed)) return false;
    const fixed = other.joins.some((name) => ['frame', 'body', 'ground'].includes(name));
    const elsewhere = joined(run.world, other).filter((one) => one !== part);
    return fixed || elsewhere.some((one) => one.state === 'fitted' || one.state === 'swung');
  });
}

/** Whether a clamp, strap or U-bolt that is fastened at every joint still ties a part down. */
function tiedDown(run: Run, part: Part): boolean {
  return tiedBy(run, part).some((one) => ['u-bolt', 'clamp', 'strap'].some((kind) => isKind(one, kind)));
}

/** Whether the fitter can simply take it: known to be light, or there are two of them. */
export function liftedByHand(run: Run, part: Part): boolean {
  const kilograms = mass(part);
  // 15 kg in one person's hands: common practice.
  if (kilograms !== undefined && kilograms <= 15) return true;
  // 25 kg for each of two or more: common practice.
  return run.step.people >= 2 && (kilograms === undefined || kilograms <= 25 * run.step.people);
}

/** Rules before `start snug torque`: the part must be there. */
export function judgeTighten(run: Run, joint: Joint): void {
  const part = joint.part;
  if (!['off', 'discarded', 'boxed', 'offered'].includes(part.state)) return;
  // What another finding took to be out of the way was never gone.
  if (!part.granted) found(run, 'joint-needs-part', namedJoint(joint));
  part.state = 'fitted';
  part.granted = true;
  part.offWith = undefined;
  part.neverOn = false;
  part.offFromGiven = false;
  part.debt = undefined;
}

/** Whether a `torque` is only a check of what was never touched. */
function onlyCheck(joint: Joint): boolean {
  return joint.position === 'tight' && !joint.touched;
}

/** Rules at `torque`. `new:` has made its pieces fresh already. */
export function judgeTorque(run: Run, joint: Joint): void {
  const here = namedJoint(joint);
  const offHeight = askedCorners(run.world, joint.part).some((corner) => !rideHeight(corner));
  const assumeHeight = (): void => {
    for (const corner of askedCorners(run.world, joint.part))
      if (!rideHeight(corner)) corner.assumedRide = true;
  };
  const loosened = joint.touched || (joint.position !== 'tight' && joint.position !== 'final');
  if (loosened && bushed(joint) && offHeight) found(run, 'torque-off-ride-height', here);
  else if (text(run.raw.at) === 'ride-height' && offHeight) found(run, 'not-at-ride-height', here);
  if (offHeight && ((loosened && bushed(joint)) || text(run.raw.at) === 'ride-height')) assumeHeight();
  judgeFigure(run, joint);
  if (onlyCheck(joint)) return;
  const spent: [rule: string, piece: string | undefined][] = [
    ['new-locking-nut', joint.spent.has('nut') ? 'nut' : undefined],
    ['new-seal', spentSeal(run.world, joint)],
    ['new-stretch-bolt', joint.spent.has('bolt') ? 'bolt' : undefined],
  ];
  for (const [rule, piece] of spent) if (piece !== undefined) found(run, rule, here);
  if (run.judged) joint.spent.clear();
}

/** The figure of the operation against the data of kit and vehicle. */
function judgeFigure(run: Run, joint: Joint): void {
  const to = writtenFigure(run);
  const stages = list(run.raw.stages);
  const figures = stages.map((stage) => parseQuantity(stage)?.high ?? Number.NaN);
  if (figures.some((one, index) => index > 0 && one <= figures[index - 1]!)) {
    found(run, 'stages-not-rising', namedJoint(joint));
  }
  const said = stages.length > 0 ? stages[stages.length - 1] : to;
  const written = parseQuantity(said);
  const data = parseQuantity(dataFigure(run, joint));
  const both = written?.dimension === 'torque' && data?.dimension === 'torque';
  judgeBolt(run, joint, said, dataFigure(run, joint), both && isFar(written, data));
  if (written?.dimension === 'torque') {
    if (data?.dimension !== 'torque') return;
    if (isFar(written, data) || angleDiffers(run, joint)) found(run, 'torque-differs', namedJoint(joint));
    return;
  }
  if (data === undefined && text(to) !== 'maker') found(run, 'torque-without-figure', namedJoint(joint));
}

/** Whether the middle of a figure lies outside the data by more than the larger of 1 N·m and 1 %. */
function isFar(written: { low: number; high: number }, data: { low: number; high: number }): boolean {
  const below = data.low - Math.max(1, data.low * 0.01);
  const above = data.high + Math.max(1, data.high * 0.01);
  const slip = 1e-9; // decimal fractions do not add up exactly
  const middle = (written.low + written.high) / 2;
  return middle < below - slip || middle > above + slip;
}

/** A check of a joint that expects one torque: it is the data's. */
export function judgeExpected(run: Run, joint: Joint): void {
  const expect = isMap(run.raw.expect) ? run.raw.expect.is : run.raw.expect;
  const written = parseQuantity(expect);
  const data = parseQuantity(dataFigure(run, joint));
  if (written?.dimension !== 'torque' || data?.dimension !== 'torque') return;
  if (isFar(written, data)) found(run, 'torque-differs', namedJoint(joint));
}

/** Both say how far to turn on, and not the same. */
function angleDiffers(run: Run, joint: Joint): boolean {
  const written = parseQuantity(run.raw.then);
  const data = parseQuantity(joint.body.then);
  const degrees = (one: typeof written): number =>
    one?.dimension === 'angle' ? (one.low + one.high) / 2 : 0;
  return Math.abs(degrees(written) - degrees(data)) > 1;
}

/** `to:`, or the first entry of its list whose condition holds. */
function writtenFigure(run: Run): unknown {
  const to = run.raw.to;
  if (!Array.isArray(to)) return isMap(to) ? to.is : to;
  return map(to.find((entry) => holds(map(entry).when, run.world.variant))).is;
}

/** The figure of kit hardware for the joint, else of the joint itself. */
function dataFigure(run: Run, joint: Joint): unknown {
  for (const body of Object.values(run.world.hardware)) {
    if (body.torque === undefined) continue;
    if (texts(body.for).some((one) => one === joint.item || one.startsWith(`${joint.item}.`)))
      return body.torque;
  }
  if (joint.body.torque !== undefined) return joint.body.torque;
  const stages = list(joint.body.stages);
  return stages[stages.length - 1];
}

export function start(run: Run, joint: Joint): void {
  if (joint.position === 'out') move(run, joint, 'started');
}

export function snug(run: Run, joint: Joint): void {
  if (says(joint.body, 'hand-tight')) torque(run, joint);
  else if (['out', 'started', 'loose'].includes(joint.position)) move(run, joint, 'snug');
}

export function torque(run: Run, joint: Joint): void {
  if (onlyCheck(joint)) return;
  move(run, joint, 'final');
  if (joint.lacksPin) joint.pinDebt = open(run, joint.pinDebt);
}
