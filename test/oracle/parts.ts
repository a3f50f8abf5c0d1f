// What happens to parts, and what the rules say of it.
import { askedCorners, cornersOf, joined } from './corners.ts';
import { assume, heavyPart, judgeLeaf, liftedUp, tiedBy } from './joints.ts';
import { figure } from './quantity.ts';
import { type Raw, text, texts } from './raw.ts';
import { found, named, open, type Run } from './run.ts';
import type { Joint, Part } from './things.ts';
import { letGo } from './torsion.ts';
import { judgeRoom, judgeTyre } from './tyres.ts';
import { allParts, fits, isKind, related, says } from './world.ts';

const AWAY = ['off', 'discarded', 'boxed', 'offered'];

/** Whether a part is not on anything. What went off with another part is still on that one. */
export function away(part: Part): boolean {
  return AWAY.includes(part.state);
}

/** Rules before a part comes off. `unbolt` has taken its joints out already. */
export function judgeRemove(run: Run, part: Part): void {
  const tightJoints = part.joints.filter((joint) => joint.position !== 'out');
  if (tightJoints.length > 0) {
    found(run, 'loosen-before-remove', named(part));
    for (const joint of tightJoints) assume(joint, 'out');
  }
  for (const end of part.ends.filter((one) => !one.freed)) {
    found(run, 'free-end-first', { item: `${part.name}.${end.name}`, side: part.label });
    end.freed = true;
    end.granted = true;
    end.debt = undefined;
  }
  const ties = isKind(part, 'wheel') ? [] : tiedBy(run, part);
  if (ties.length > 0) found(run, 'still-joined', named(part));
  for (const tie of ties) for (const one of [tie, ...tie.joints, ...tie.ends]) one.granted = true;
  if (says(part.body, 'stores-energy') && springLoaded(run, part)) {
    found(run, 'spring-loaded', named(part));
    if (run.judged) for (const corner of askedCorners(run.world, part)) corner.toldLoaded = true;
  }
  if (part.joints.length > 0 || part.state !== 'fitted') return;
  judgeLeaf(run, part);
  heavyPart(run, part);
}

/** Whether a spring still has its force in it. */
export function springLoaded(run: Run, part: Part): boolean {
  if (part.compressed || part.unloaded || part.pressure === 'empty') return false;
  if (letGo(run.world, part)) return false;
  const freeAt = freeAtOf(part);
  if (part.state === 'off-with') return true; // no corner says how far it may stretch
  if (says(part.body, 'inflates')) return true; // however far it hangs, the air is in it
  return !askedCorners(run.world, part).every((corner) => {
    if (typeof corner.hang !== 'number') return false;
    return freeAt === undefined ? corner.hang > 0 : corner.hang >= freeAt;
  });
}

/** `spring-needs-room`: a coil goes in where the axle is far enough down; into a strut on the bench it goes otherwise. */
function springNeedsRoom(run: Run, part: Part): void {
  const freeAt = freeAtOf(part);
  if (freeAt === undefined || says(part.body, 'inflates') || says(part.body, 'adjusted') || part.compressed)
    return;
  const on = (one: Part): boolean => one.state === 'fitted' || one.state === 'swung';
  const seats = part.joins.map((name) => related(run.world, part, name)).filter((all) => all.length > 0);
  if (!seats.every((all) => all.some(on))) return;
  const corners = askedCorners(run.world, part);
  if (corners.some(({ toldLoaded }) => toldLoaded)) return;
  const room = corners.some(({ hang }) => typeof hang === 'number' && hang >= freeAt);
  if (!room) found(run, 'spring-needs-room', named(part));
}

/** A part comes off: its ends are freed, and what joins only it goes along. */
export function takeOff(run: Run, part: Part): void {
  part.state = 'off';
  part.offWith = undefined;
  part.offFromGiven = !run.judged;
  part.debt = open(run, undefined);
  run.step.loosened.push({ part, path: run.path });
  for (const end of part.ends.filter((one) => !one.freed)) {
    end.freed = true;
    end.debt = open(run, end.debt);
  }
  goAlong(run, part, part);
}

/** What joins only this part goes off with it. */
export function goAlong(run: Run, root: Part, from: Part): void {
  for (const other of allParts(run.world)) {
    if (other === root || other.state !== 'fitted' || other.joins.length === 0) continue;
    const on = joined(run.world, other).filter((one) => one.state !== 'boxed' && one.state !== 'offered');
    const only =
      on.length > 0 && on.every((one) => one === from) && !other.joins.some((name) => isFixed(name));
    if (!only) continue;
    other.state = 'off-with';
    other.offWith = root;
    goAlong(run, root, other);
  }
}

function isFixed(name: string): boolean {
  return ['frame', 'body', 'ground', 'vehicle'].includes(name);
}

/** `swing`: only a loose pivot may hold, or nothing. */
export function judgeSwing(run: Run, part: Part): void {
  const holding = part.joints.filter((joint) => joint.position !== 'out');
  if (holding.length === 0) return;
  const pivot = holding.length === 1 ? holding[0]!.position : 'tight';
  if (!['loose', 'started', 'snug'].includes(pivot)) found(run, 'loosen-before-remove', named(part));
}

/** Rules before `fit` (and `bolt-up` of what is not fitted). */
export function judgeFit(run: Run, part: Part): void {
  judgeTyre(run, part);
  judgeRoom(run, part);
  if (part.state === 'discarded') {
    found(run, 'fit-discarded', named(part));
    part.state = 'off';
    part.debt = undefined;
  }
  const on = (one: Part): boolean => one.state === 'fitted' || one.state === 'swung';
  const all = replacedParts(run, part);
  // One piece for both sides may go on while one of the two old ones is off.
  const besides = (one: Part): boolean =>
    part.side === '' && one.side !== '' && all.some((other) => other.name === one.name && !on(other));
  const old = all.filter((one) => on(one) && !besides(one));
  if (old.length > 0) {
    found(run, 'old-part-still-on', named(part));
    for (const one of old) {
      one.state = 'discarded';
      one.granted = true;
      one.debt = undefined;
    }
  }
  judgeHand(run, part);
  if (says(part.body, 'stores-energy')) springNeedsRoom(run, part);
  if (part.state === 'boxed' || part.state === 'offered') countOutOfBox(run, part);
  liftedUp(run, part);
}

/** The instances that a kit part replaces. */
export function replacedParts(run: Run, part: Part): Part[] {
  if (!part.kit) return [];
  const names = texts(part.own.replaces);
  return names.flatMap((name) => (run.world.parts.get(name) ?? []).filter((one) => fits(part, one)));
}

export function judgeHand(run: Run, part: Part): void {
  const article = text(run.raw.article);
  if (part.body.pair !== 'handed' || article === undefined || part.side === '') return;
  if (article !== part.side) found(run, 'wrong-hand', named(part));
}

function countOutOfBox(run: Run, part: Part): void {
  if (!part.kit) return;
  const count = (run.boxCount.get(part.name) ?? 0) + 1;
  run.boxCount.set(part.name, count);
  const instances = run.world.parts.get(part.name)?.length ?? 1;
  const quantity = part.body.quantity === undefined ? instances : Number(part.body.quantity);
  if (count <= quantity || run.overBox.has(part.name)) return;
  run.overBox.add(part.name);
  found(run, 'more-than-in-box', named(part));
}

/** A part is on: what went off with it is back, and what was never on owes its joints and ends from here. */
export function putOn(run: Run, part: Part): void {
  const owesFromFit = part.neverOn || part.offFromGiven;
  if (part.state === 'boxed' || part.state === 'offered') piecesFromOld(run, part);
  part.state = 'fitted';
  part.offWith = undefined;
  part.debt = undefined;
  if (owesFromFit) {
    for (const joint of part.joints) if (!isDone(joint)) joint.debt = open(run, joint.debt);
    if (part.fresh && isAirSpring(part) && part.pressure === 'empty')
      part.pressureDebt = open(run, part.pressureDebt);
  }
  for (const end of part.ends) if (end.freed && (owesFromFit || end.given)) end.debt = open(run, end.debt);
  part.neverOn = false;
  part.offFromGiven = false;
  for (const other of allParts(run.world)) {
    if (other.state !== 'off-with' || other.offWith !== part) continue;
    other.state = 'fitted';
    other.offWith = undefined;
  }
}

export function isAirSpring(part: Part): boolean {
  return says(part.body, 'inflates') && !isKind(part, 'tyre');
}

function isDone(joint: Joint): boolean {
  return joint.position === 'tight' || joint.position === 'final';
}

/** Pieces that the kit does not bring are the old joint's, as spent as they are. */
function piecesFromOld(run: Run, part: Part): void {
  for (const old of replacedParts(run, part)) {
    for (const joint of part.joints) {
      const from = old.joints.find((one) => one.name === joint.name);
      if (!from) continue;
      for (const piece of from.spent) if (!kitBrings(run, joint, from, piece)) joint.spent.add(piece);
    }
  }
}

function kitBrings(run: Run, joint: Joint, old: Joint, piece: string): boolean {
  const own = (joint.part.own.joints as Record<string, unknown> | undefined)?.[joint.name];
  const says = typeof own === 'object' && own !== null ? (own as Record<string, unknown>) : {};
  if (piece === 'nut' || piece === 'pin' ? says.nut !== undefined : false) return true;
  if (piece === 'bolt' && says.class !== undefined) return true;
  if (texts(says.stack).includes(piece)) return true;
  const names = [joint.item, old.item].flatMap((item) => [item, `${item}.${piece}`]);
  return Object.values(run.world.hardware).some((body) => texts(body.for).some((one) => names.includes(one)));
}

/** `discard`: also what went off with it. */
export function discard(run: Run, part: Part): void {
  if (part.state === 'fitted' || part.state === 'swung') {
    found(run, 'discard-fitted', named(part));
    if (run.judged) part.granted = true;
    for (const joint of part.joints) assume(joint, 'out');
  }
  part.state = 'discarded';
  part.discardedAt = open(run, undefined);
  part.debt = undefined;
  for (const other of allParts(run.world)) {
    if (other.state !== 'off-with' || other.offWith !== part) continue;
    other.state = 'discarded';
    other.discardedAt = open(run, undefined);
  }
}

function freeAtOf(part: Part): number | undefined {
  return figure(part.body['free-at'], 'length');
}

/** `reach`: what is worked on lies inside, under or behind something that is still fitted. */
export function judgeReach(run: Run, part: Part, joint: Joint | undefined): void {
  const covers = (body: Raw) => ['inside', 'under', 'behind'].flatMap((key) => texts(body[key]));
  const ownCover =
    joint !== undefined && ['inside', 'under', 'behind'].some((key) => joint.body[key] !== undefined);
  const names = covers(ownCover ? joint.body : part.body);
  const inTheWay = names
    .flatMap((name) => related(run.world, part, name))
    .filter((one) => one.state === 'fitted');
  if (inTheWay.length === 0) return;
  found(run, 'reach', named(part));
  if (!run.judged) return;
  for (const one of inTheWay) {
    one.state = 'off';
    one.granted = true;
    one.debt = undefined;
  }
}

/** Whether a part has a corner among those given; a placeless part has none. */
export function isAt(run: Run, part: Part, corner: unknown): boolean {
  return cornersOf(run.world, part).some((one) => one === corner);
}
