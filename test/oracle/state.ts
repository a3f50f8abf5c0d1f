// Questions about the state, and the small changes that every verb uses.
import { askedCorners, isAxle } from './corners.ts';
import { singleUse } from './packs.ts';
import { figure } from './quantity.ts';
import { text, texts } from './raw.ts';
import type { Corner, Edge, Hanging, Hold, Joint, Line, Part, Target } from './things.ts';
import { allParts, says, type World } from './world.ts';

/** The aid of a `raise` that names none: nobody misses it when it goes. */
export const UNNAMED_JACK = 'unnamed-jack';

/** Whether something carries the corner by its wheel on the ground. */
export function onGround(world: World, corner: Corner): boolean {
  const aids = [...corner.body.keys(), ...corner.axle.keys()];
  return corner.carry === 'wheel' && !aids.some((aid) => aidCan(world, aid, 'takes-wheels'));
}

/** Whether the corner is at ride height. */
export function rideHeight(corner: Corner): boolean {
  return corner.carry !== 'body' || corner.hang === 'ride' || corner.assumedRide;
}

/** Whether an aid can do something. An unnamed aid (the empty name) and one no pack knows say nothing. */
export function aidCan(world: World, aid: string, what: string): boolean {
  const body = world.packs.aids[aid];
  return body !== undefined && says(body, what);
}

/** Whether no pack knows the aid, or it has no name. */
export function unknownAid(world: World, aid: string): boolean {
  return world.packs.aids[aid] === undefined;
}

/** Sets what carries a corner. A change ends what was assumed there. */
export function setCarry(
  run: { world: World; judged: boolean; path: string },
  corner: Corner,
  carry: Corner['carry'],
): void {
  if (corner.carry === carry) return;
  corner.carry = carry;
  corner.carriedSince = run.judged ? run.path : undefined;
  corner.blocked = false;
  for (const hanging of run.world.hanging) if (hanging.corners.includes(corner)) hanging.assumedHeld = false;
}

/** Whether a temporary hold is on a thing, or on one of its ends. */
export function holdOn(world: World, thing: Part | Line): boolean {
  for (const [key] of world.holds) {
    const [item = '', side = ''] = key.split('@');
    if (side === thing.label && (item === thing.name || item.startsWith(`${thing.name}.`))) return true;
  }
  return false;
}

/** Whether something holds a part that its joints no longer hold. */
export function held(world: World, part: Part): boolean {
  if (part.aids.size > 0 || part.assumedHeld || heldByHold(world, part)) return true;
  const own = world.hanging.find((one) => one.part === part);
  if (own?.assumedHeld) return true;
  return isAxle(part) && cornersHold(world, askedCorners(world, part));
}

/** A hold counts for what one person could hold, or where one of its aids can carry. */
function heldByHold(world: World, part: Part): boolean {
  const hold = world.holds.get(`${part.name}@${part.label}`);
  if (!hold) return false;
  const kilograms = mass(part);
  if (kilograms === undefined || kilograms <= 15) return true;
  return (
    hold.aids.length === 0 || hold.aids.some((aid) => unknownAid(world, aid) || aidCan(world, aid, 'carries'))
  );
}

/** Whether something holds what can drop. */
export function hangingHeld(world: World, hanging: Hanging): boolean {
  return hanging.assumedHeld || held(world, hanging.part);
}

/** An aid at any axle of these corners, or beneath an arm there, or a corner that its wheel or axle carries. */
function cornersHold(world: World, corners: Corner[]): boolean {
  if (corners.some((corner) => corner.axle.size > 0 || corner.carry !== 'body')) return true;
  return allParts(world)
    .filter((part) => says(part.body, 'arm') && part.aids.size > 0)
    .some((part) => askedCorners(world, part).some((corner) => corners.includes(corner)));
}

/** The mass of a part in kg. */
export function mass(part: Part): number | undefined {
  return figure(part.body.mass, 'mass');
}

/** Whether a joint has a bonded bush. */
export function bushed(joint: Joint): boolean {
  if (joint.body.bushed !== undefined) return joint.body.bushed === true;
  return texts(joint.body.stack).length === 0 && says(joint.part.body, 'bushed');
}

/** The pieces of a joint. */
export function pieces(joint: Joint): string[] {
  const own: string[] = [];
  if (joint.body.nut !== undefined) own.push('nut');
  if (joint.body.nut === 'slotted') own.push('pin');
  own.push('bolt');
  for (const piece of texts(joint.body.stack)) if (!own.includes(piece)) own.push(piece);
  return own;
}

/** The pieces that are used up when a joint comes out, or (`slackened`) already when it is slackened. */
export function usedUp(world: World, joint: Joint, when: 'out' | 'slackened'): string[] {
  return pieces(joint).filter((piece) => {
    if (piece === 'bolt') return says(joint.body, 'stretch');
    if (piece === 'nut') return when === 'out' && joint.body.nut === 'self-locking';
    if (piece === 'pin') return false; // a pin is missing, not spent: see `lacksPin`
    const use = singleUse(world.packs, piece);
    return use === 'slackened' || (use === 'out' && when === 'out');
  });
}

/** The pieces in a joint that stand for a seal: those a pack calls single-use. */
export function spentSeal(world: World, joint: Joint): string | undefined {
  const own = ['nut', 'pin', 'bolt'];
  return [...joint.spent].find((piece) => !own.includes(piece) && singleUse(world.packs, piece) !== 'no');
}

/** All edges of a part: its own, its faces', its holes'. */
export function edgesOf(part: Part): Edge[] {
  return [part.edge, ...part.faces.map((face) => face.edge), ...part.holes.map((hole) => hole.edge)];
}

/** The edges that an operation on a hole, a face or a part works on. */
export function targetEdges(target: Target): Edge[] {
  if (target.hole) return [target.hole.edge];
  if (target.face) return [target.face.edge];
  return target.what === 'part' && target.part ? edgesOf(target.part) : [];
}

/** A hold on a target, under its key. */
export function addHold(world: World, key: string, hold: Hold): void {
  const before = world.holds.get(key);
  if (before) before.aids.push(...hold.aids);
  else world.holds.set(key, hold);
}

/** Whether all ends of a line are connected and it is there at all. */
export function connected(line: Line): boolean {
  return !line.discarded && line.ends.every((end) => line.connected.get(end) === true);
}

/** The slack of a line in mm, or undefined where its figure is not given. */
export function slackOf(line: Line, brackets: (name: string) => Part[]): number | undefined {
  const paths = line.body.paths;
  if (typeof paths === 'object' && paths !== null && line.path !== undefined) {
    return figure((paths as Record<string, unknown>)[line.path], 'length');
  }
  const slack = figure(line.body.slack, 'length');
  const free = figure(line.body['slack-free'], 'length');
  const bracket = text(line.body['held-by']);
  if (bracket !== undefined) {
    const role = brackets(bracket);
    // A bracket of the kit may hold elsewhere: not decided.
    if (role.some((part) => part.name !== bracket && part.state === 'fitted')) return undefined;
    return bracketGone(role.filter((part) => part.name === bracket)) ? free : slack;
  }
  return line.unclipped && free !== undefined ? free : slack;
}

/** Whether nothing that fills a bracket's role still holds. */
function bracketGone(role: Part[]): boolean {
  return role.every(
    (part) =>
      part.state !== 'fitted' ||
      (part.joints.length > 0 && part.joints.every((joint) => joint.position === 'out')),
  );
}

/** The target that stands for a joint. */
export function jointTarget(joint: Joint): Target {
  const { part, item } = joint;
  return { what: 'joint', item, side: part.label, key: `${item}@${part.label}`, part, joint };
}

/** The target that stands for a part. */
export function partTarget(part: Part): Target {
  return { what: 'part', item: part.name, side: part.label, key: `${part.name}@${part.label}`, part };
}

/** The target that stands for a line. */
export function lineTarget(line: Line): Target {
  return { what: 'line', item: line.name, side: line.label, key: `${line.name}@${line.label}`, line };
}
