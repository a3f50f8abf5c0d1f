// Nuts and bolts: starting, nipping, tightening, and what the figure is.
import type { Variant } from '../condition.ts';
import { figure, parseQuantity } from '../quantity.ts';
import { list } from '../raw.ts';
import { choose } from './acts.ts';
import { fillers, isFast, isIn, isLoaded, isThere, type Joint, type Part, RIDE } from './car.ts';
import { isMetal, type Range } from './facts.ts';
import { type Floor, jointName, nameOf } from './floor.ts';
import { inReach, piecesOf, slacken, undo } from './parts.ts';
import { LONGER_SHOCK, SAME_FIGURE, usedOnce } from './trade.ts';
import { isFree } from './weight.ts';

export function loosen(floor: Floor, joint: Joint): void {
  if (!there(floor, joint)) return;
  inReach(floor, joint.part, joint);
  if (joint.grip === 'out') {
    out(floor, joint);
    return;
  }
  const corners = floor.car.cornersOf.get(joint.part) ?? [];
  if (joint.fact.firstOnGround && isFast(joint) && corners.some((corner) => !corner.tyre))
    floor.note(
      'cannot',
      jointName(joint),
      `${jointName(joint)} does not come loose with the wheel in the air.`,
    );
  slacken(floor, joint);
}

export function takeOut(floor: Floor, joint: Joint): void {
  if (!there(floor, joint)) return;
  inReach(floor, joint.part, joint);
  if (joint.grip === 'out') {
    out(floor, joint);
    return;
  }
  undo(floor, joint);
}

function out({ note }: Floor, joint: Joint): void {
  note('cannot', jointName(joint), `${jointName(joint)} is out already.`);
}

/** A bolt goes into a part that is there; on a part that lies on the bench its bolts may be worked as well once it sits. */
function there(floor: Floor, joint: Joint): boolean {
  if (isThere(joint.part)) return true;
  floor.note(
    'cannot',
    jointName(joint),
    `${nameOf(joint.part)} is not there, so nothing can be done to its ${joint.fact.name}.`,
  );
  return false;
}

export function start(floor: Floor, joint: Joint): void {
  if (!there(floor, joint)) return;
  inReach(floor, joint.part, joint);
  fresh(floor, joint);
  if (joint.grip !== 'out') return;
  joint.grip = 'caught';
  allIn(floor, joint.part);
}

/** New pieces that the act brings. */
function fresh({ act }: Floor, joint: Joint): void {
  const brought = piecesOf(act.raw.new);
  for (const piece of [...joint.spent])
    if (brought.includes(piece.replace(/s$/, ''))) joint.spent.delete(piece);
  if (brought.includes('pin')) joint.pin = true;
}

/** With its last bolt in, a part joins what it says: that must be there, and near enough. */
function allIn(floor: Floor, part: Part): void {
  if (!part.joints.every(isIn)) return;
  const { car, note } = floor;
  const bases = part.fact.joins.map((name) => ({ name, all: fillers(car, name, part) }));
  const stands = ({ name, all }: (typeof bases)[number]) => isMetal(name) || all.some(isThere);
  const missing = bases.find((base) => base.all.length > 0 && !stands(base));
  // With fewer joints than neighbours it only touches some of them.
  const bolted = part.joints.length >= bases.length;
  if (bolted && missing !== undefined && bases.some(stands))
    note('cannot', part.fact.name, `${missing.name}, which ${nameOf(part)} is bolted to, is not there.`);
  const reach = part.fact.drop ?? (part.fact.kit ? LONGER_SHOCK : 5);
  for (const [one, stops] of car.stopsOf) {
    if (!stops.some((chain) => chain.some((stop) => stop.fillers.includes(part)))) continue;
    const corners = (car.cornersOf.get(part) ?? []).filter((corner) => corner.chain.has(one));
    if (!isFree(car, one) && corners.some(({ hang }) => hang > reach))
      note('cannot', part.fact.name, `${nameOf(part)} does not reach: ${nameOf(one)} hangs too far down.`);
  }
}

export function snug(floor: Floor, joint: Joint): void {
  start(floor, joint);
  if (joint.grip === 'caught' || joint.grip === 'slack')
    joint.grip = joint.fact.handTight ? 'done' : 'nipped';
}

export function torque(floor: Floor, joint: Joint, variant: Variant): void {
  start(floor, joint);
  if (!isThere(joint.part)) return;
  const said = figureOf(floor, variant);
  rightFigure(floor, joint, said);
  if (joint.undone || joint.part.cameFromBox) {
    reused(floor, joint);
    if (joint.fact.rubber) atRideHeight(floor, joint);
  }
  if (floor.act.raw.at === 'ride-height') atRideHeight(floor, joint);
  if (joint.grip !== 'tight') joint.grip = 'done';
  joint.figure = said ?? joint.fact.figure;
}

/** The figure that the act gives in this variant: the last stage of several. */
function figureOf({ act }: Floor, variant: Variant): Range | undefined {
  const stages = list(act.raw.stages);
  const written = stages.length > 0 ? stages.at(-1) : choose(act.raw.to, variant);
  return written === undefined ? undefined : torqueOf(String(written));
}

const torques = new Map<string, Range | undefined>();

/** A figure in N·m; each text is read once. */
function torqueOf(written: string): Range | undefined {
  if (!torques.has(written)) {
    const read = parseQuantity(written);
    torques.set(written, read?.dimension === 'torque' ? { low: read.low, high: read.high } : undefined);
  }
  return torques.get(written);
}

/** Too little and it works loose, too much and it stretches or strips: the maker's figure, or it is wrong. */
function rightFigure({ note, act }: Floor, joint: Joint, said: Range | undefined): void {
  const { figure: data, angle } = joint.fact;
  if (said === undefined) {
    if (data === undefined && act.raw.to !== 'maker')
      note('figure', jointName(joint), `Nobody says how tight ${jointName(joint)} is.`);
    return;
  }
  const middle = (said.low + said.high) / 2;
  if (data !== undefined && (middle < data.low * (1 - SAME_FIGURE) || middle > data.high * (1 + SAME_FIGURE)))
    note('figure', jointName(joint), `${jointName(joint)} takes ${data.low} N·m and gets ${middle} N·m.`);
  const then = act.raw.then === undefined ? 0 : (figure(act.raw.then, 'angle') ?? 0);
  if (then !== (angle ?? 0))
    note('figure', jointName(joint), `The angle after the torque is not that of ${jointName(joint)}.`);
  const stages = list(act.raw.stages).map((one) => torqueOf(String(one))?.low ?? 0);
  if (stages.some((stage, at) => at > 0 && stage <= stages[at - 1]!))
    note('figure', jointName(joint), `The stages of ${jointName(joint)} do not rise.`);
}

/** A nut or seal that gripped once does not grip again. */
function reused({ note }: Floor, joint: Joint): void {
  for (const piece of joint.spent)
    if (piece === 'nut' || (piece === 'bolt' && joint.fact.stretch) || (piece !== 'pin' && usedOnce(piece)))
      note('spent', jointName(joint), `The ${piece} of ${jointName(joint)} was undone and goes in again.`);
}

/** A bush clamped anywhere else than where the vehicle stands is twisted for the rest of its life. */
function atRideHeight({ car, note }: Floor, joint: Joint): void {
  const corners = car.cornersOf.get(joint.part) ?? [];
  const asked = corners.length > 0 ? corners : car.corners;
  if (asked.some((corner) => corner.hang !== RIDE && !isLoaded(corner)))
    note(
      'wound',
      jointName(joint),
      `${jointName(joint)} is tightened in the air, where its bush is twisted.`,
    );
}

/** A piece of its own: the pin goes through the slot of a nut that is tight. */
export function renewPiece(floor: Floor, joint: Joint, piece: string): void {
  inReach(floor, joint.part, joint);
  if (piece === 'pin') {
    if (!isFast(joint))
      floor.note(
        'cannot',
        jointName(joint),
        `The pin of ${jointName(joint)} goes in before the nut is tight.`,
      );
    joint.pin = true;
  }
  joint.spent.delete(piece);
}
