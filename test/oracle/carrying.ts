// Raising, lowering, supporting: who carries each corner, and how far it hangs.
import { allUndone, cornersOf, isAxle, limiterUndone, type Spots, spotsOf } from './corners.ts';
import { liftedByHand } from './joints.ts';
import { landing, standLeftUnder } from './landing.ts';
import { aidName } from './packs.ts';
import { figure } from './quantity.ts';
import { text, texts } from './raw.ts';
import { found, type Run } from './run.ts';
import { aidCan, hangingHeld, held, mass, onGround, setCarry, UNNAMED_JACK, unknownAid } from './state.ts';
import type { Corner, Hanging, Limiter, Part, Put, Target } from './things.ts';
import { travelled } from './travel.ts';
import { isKind } from './world.ts';

/** The aids an operation names; one without a name where it names none. */
function aidsOf(run: Run, value: unknown, unnamed = ''): string[] {
  const named = texts(value).map((one) => aidName(run.world.packs, one));
  return named.length > 0 ? named : [unnamed];
}

function put(run: Run, spot: Map<string, Put>, aids: string[], target: Target): void {
  for (const aid of aids) {
    if (spot.has(aid)) continue;
    spot.set(aid, { path: run.judged ? run.path : undefined, item: target.item, side: target.side });
  }
}

/** `aid-cannot` and `aid-overloaded`, before the operation. */
export function judgeAids(run: Run, verb: string, target: Target): void {
  const named = (value: unknown): string[] => texts(value).map((one) => aidName(run.world.packs, one));
  const part = target.part;
  const wholePart = part !== undefined && !isAxle(part) && !isKind(part, 'wheel');
  const cannot = (aids: string[], can: (aid: string) => boolean): void => {
    for (const aid of aids) {
      if (!unknownAid(run.world, aid) && !can(aid))
        found(run, 'aid-cannot', { item: aid, side: target.side });
    }
  };
  const able = (aid: string, what: string): boolean => aidCan(run.world, aid, what);
  const carries = (aid: string): boolean => able(aid, 'carries') || (wholePart && able(aid, 'holds'));
  if (verb === 'raise') cannot(named(run.raw.with), (aid) => able(aid, 'raises'));
  if (verb === 'support') cannot(named(run.raw.with), carries);
  if (verb === 'lower') cannot(named(run.raw.onto), carries);
  if (verb === 'hold') cannot(named(run.raw.with), (aid) => able(aid, 'holds') || able(aid, 'carries'));
  if (verb === 'compress') cannot(named(run.raw.with), (aid) => able(aid, 'compresses'));
  if ((verb !== 'raise' && verb !== 'support') || target.what !== 'part' || part === undefined) return;
  const kilograms = mass(part);
  for (const aid of named(run.raw.with)) {
    const rating = figure(run.world.packs.aids[aid]?.rating, 'mass');
    if (kilograms === undefined || rating === undefined || kilograms <= rating) continue;
    found(run, 'aid-overloaded', { item: aid, side: target.side });
  }
}

/** `chock-before-jack`: one end goes up on a jack while the other stands free to roll. */
export function judgeChocks(run: Run, target: Target): void {
  const spots = spotsOf(run.world, target, run.sides);
  if (!spots || spots.where === 'own') return;
  const jack = texts(run.raw.with).some((one) => aidCan(run.world, aidName(run.world.packs, one), 'jack'));
  const raised = spots.corners.filter((corner) => onGround(run.world, corner));
  if (!jack || raised.length === 0) return;
  const staying = run.world.corners.filter(
    (corner) => !spots.corners.includes(corner) && onGround(run.world, corner),
  );
  if (staying.length === 0 || staying.some((corner) => corner.chocked)) return;
  found(run, 'chock-before-jack', target);
  for (const corner of staying) corner.chocked = true;
}

export function raise(run: Run, target: Target): void {
  const spots = spotsOf(run.world, target, run.sides);
  if (!spots) return;
  const aids = aidsOf(run, run.raw.with, UNNAMED_JACK);
  const by = figure(run.raw.by, 'length');
  if (spots.where === 'own' && run.raw.with !== undefined) put(run, spots.part.aids, aids, target);
  for (const corner of spots.corners) {
    if (spots.where === 'body') raiseBody(run, corner, aids, target);
    else {
      if (spots.where === 'axle' && (run.raw.with !== undefined || corner.axle.size === 0)) {
        put(run, corner.axle, aids, target);
      }
      if (spots.where === 'axle' && corner.carry === 'wheel') setCarry(run, corner, 'axle');
      else if (corner.carry === 'body')
        corner.hang = by !== undefined && corner.hang !== 'ride' ? corner.hang - by : 'ride';
    }
  }
}

function raiseBody(run: Run, corner: Corner, aids: string[], target: Target): void {
  put(run, corner.body, aids, target);
  if (aids.some((aid) => aidCan(run.world, aid, 'takes-wheels'))) {
    setCarry(run, corner, 'wheel');
    corner.hang = 'ride';
    return;
  }
  setCarry(run, corner, 'body');
  if (corner.axle.size === 0) corner.hang = 0;
}

export function support(run: Run, target: Target): void {
  const spots = spotsOf(run.world, target, run.sides);
  if (!spots) return;
  const aids = aidsOf(run, run.raw.with);
  if (spots.where === 'own') put(run, spots.part.aids, aids, target);
  else
    for (const corner of spots.corners)
      put(run, spots.where === 'body' ? corner.body : corner.axle, aids, target);
}

/** Aids that can lower, and unnamed ones, go down with what they carry. */
function lowerersLeave(run: Run, spot: Map<string, Put>): void {
  for (const aid of [...spot.keys()]) {
    if (unknownAid(run.world, aid) || aidCan(run.world, aid, 'lowers')) spot.delete(aid);
  }
}

export function lower(run: Run, target: Target): void {
  const spots = spotsOf(run.world, target, run.sides);
  if (!spots) return;
  if (target.part && isAxle(target.part)) judgeUnheld(run, target.part);
  const before = new Map(run.world.corners.map((corner) => [corner, corner.hang]));
  const landed =
    spots.where === 'body' ? lowerBody(run, spots.corners, target) : lowerAxle(run, spots, target);
  if (landed.length > 0) {
    standLeftUnder(run, landed);
    landing(run, landed);
  }
  travelled(run, before);
}

/** `lower-unheld`: an axle is let down that hangs with nothing under it. */
function judgeUnheld(run: Run, axle: Part): void {
  const corners = cornersOf(run.world, axle);
  if (corners.length === 0 || corners.some((corner) => corner.carry !== 'body') || held(run.world, axle))
    return;
  found(run, 'lower-unheld', { item: axle.name, side: axle.label });
  const own = run.world.hanging.find((one) => one.part === axle);
  if (own) own.assumedHeld = true;
}

function lowerBody(run: Run, corners: Corner[], target: Target): Corner[] {
  const onto = run.raw.onto === undefined ? undefined : aidsOf(run, run.raw.onto);
  const landed: Corner[] = [];
  // With `by` the lift only comes down some way: nothing changes.
  if (!onto && run.raw.by !== undefined) return landed;
  for (const corner of corners) {
    lowerersLeave(run, corner.body);
    if (onto?.some((aid) => corner.axle.has(aid))) {
      setCarry(run, corner, 'axle');
      corner.hang = 'ride';
      continue;
    }
    if (onto) {
      put(run, corner.body, onto, target);
      if (corner.carry !== 'wheel') setCarry(run, corner, 'body');
      continue;
    }
    landed.push(corner);
    setCarry(run, corner, 'wheel');
    corner.hang = 'ride';
  }
  return landed;
}

function lowerAxle(run: Run, spots: Spots, target: Target): Corner[] {
  const landed: Corner[] = [];
  for (const corner of spots.corners) {
    // Stands that a finding only took for granted hold the body up while the axle goes down a way, not on the last way down.
    const granted =
      corner.carry === 'body' && corner.body.size === 0 && corner.blocked && run.raw.by === undefined;
    if (spots.where === 'axle' && (corner.carry === 'axle' || granted)) {
      const by = run.raw.by !== undefined;
      if (run.raw.onto === undefined && (corner.body.size > 0 || (by && corner.blocked))) {
        // The body comes to stand on what is beneath it, and the axle goes on down from there.
        setCarry(run, corner, 'body');
        if (corner.body.size === 0) corner.blocked = true; // still only taken for granted
        corner.hang = 0;
        hangLower(run, corner, spots);
        continue;
      }
      lowerersLeave(run, corner.axle);
      if (run.raw.onto !== undefined) put(run, corner.axle, aidsOf(run, run.raw.onto), target);
      else {
        setCarry(run, corner, 'wheel');
        corner.hang = 'ride';
        landed.push(corner);
      }
    } else if (corner.carry === 'body') hangLower(run, corner, spots);
  }
  return landed;
}

/** An axle or an arm goes down under a raised body: by as much as said, as far as its limiters let it. */
function hangLower(run: Run, corner: Corner, spots: Spots): void {
  const part = spots.where === 'own' ? spots.part : corner.group.axle;
  const drops = hangingAt(run, corner, spots.where === 'own' ? spots.part : undefined);
  const by = figure(run.raw.by, 'length');
  const drop = part === undefined ? undefined : figure(part.body.drop, 'length');
  const from = corner.hang === 'ride' ? 0 : corner.hang;
  let to = by !== undefined ? from + by : (drop ?? from);
  // With a side said, what limits it on the other does not count.
  const here = (limiter: Limiter): boolean =>
    run.sides.length > 1 ||
    limiter.some(({ parts }) => parts.some(({ side }) => side === '' || side === corner.side));
  const limited = drops.some((one) =>
    one.limiters.some((limiter) => here(limiter) && !limiterUndone(limiter)),
  );
  if (limited && to > 0) to = Math.min(to, Math.max(from, 0)); // what hangs lower already stays there
  corner.hang = to;
}

/** What hangs at a corner: the arm itself, or the axle of its group. */
function hangingAt(run: Run, corner: Corner, arm: Part | undefined): Hanging[] {
  const { hanging } = run.world;
  if (arm) return hanging.filter((one) => one.part === arm);
  const axle = corner.group.axle;
  return hanging.filter((one) => one.part === axle);
}

/** `unsupport`: the aids go; what they carried must be carried otherwise. */
export function unsupport(run: Run, target: Target): void {
  const spots = spotsOf(run.world, target, run.sides);
  if (!spots) return;
  const named = run.raw.with === undefined ? undefined : aidsOf(run, run.raw.with);
  const leave = (spot: Map<string, Put>): void => {
    for (const aid of [...spot.keys()]) if (named === undefined || named.includes(aid)) spot.delete(aid);
  };
  if (target.what === 'part' && target.part) run.step.loosened.push({ part: target.part, path: run.path });
  let carrying = false;
  if (spots.where === 'own') {
    leave(spots.part.aids);
    carrying = partLeftHanging(run, spots.part);
    if (carrying) spots.part.assumedHeld = true;
  }
  for (const corner of spots.where === 'own' ? [] : spots.corners) {
    leave(spots.where === 'body' ? corner.body : corner.axle);
  }
  if (spots.where === 'axle') for (const corner of spots.corners) droops(corner);
  if (spots.where === 'body')
    for (const corner of spots.corners) carrying = bodyLeft(run, corner) || carrying;
  if (spots.where === 'axle')
    for (const corner of spots.corners) carrying = axleLeft(run, corner) || carrying;
  if (carrying) found(run, 'unsupport-carrying', target);
}

/** An axle that nothing holds up any more sinks to where it hangs. */
function droops(corner: Corner): void {
  if (corner.axle.size > 0 || corner.carry !== 'body') return;
  if (corner.hang === 'ride' || corner.hang < 0) corner.hang = 0;
}

function bodyLeft(run: Run, corner: Corner): boolean {
  if (corner.body.size > 0 || corner.carry !== 'body') return false;
  if (corner.axle.size > 0) {
    setCarry(run, corner, 'axle');
    return false;
  }
  setCarry(run, corner, 'wheel');
  corner.hang = 'ride';
  return true;
}

function axleLeft(run: Run, corner: Corner): boolean {
  if (corner.axle.size > 0) return false;
  if (corner.carry === 'axle') {
    const wheels = [...corner.body.keys()].some((aid) => aidCan(run.world, aid, 'takes-wheels'));
    const onBody = corner.body.size > 0 && !wheels;
    setCarry(run, corner, onBody ? 'body' : 'wheel');
    corner.hang = onBody ? 0 : 'ride';
    return corner.body.size === 0;
  }
  if (corner.carry !== 'body') return false;
  const dropping = hangingAt(run, corner, undefined).filter(
    (one) => allUndone(one) && !hangingHeld(run.world, one),
  );
  for (const one of dropping) one.assumedHeld = true;
  return dropping.length > 0;
}

/** A `release` takes away the last thing that held a part. */
export function judgeReleased(run: Run, part: Part): void {
  if (!partLeftHanging(run, part)) return;
  found(run, 'unsupport-carrying', { item: part.name, side: part.label });
  part.assumedHeld = true;
}

/** Whether a part that nothing holds any more falls (all its joints are out) or drops (nothing limits it). */
function partLeftHanging(run: Run, part: Part): boolean {
  if (part.state !== 'fitted' && part.state !== 'swung') return false;
  const undone = part.joints.length > 0 && part.joints.every((joint) => joint.position === 'out');
  const falls = undone && !liftedByHand(run, part);
  const own = isAxle(part) ? undefined : run.world.hanging.find((one) => one.part === part);
  const drops = own !== undefined && allUndone(own) && own.corners.some((one) => one.carry === 'body');
  return (falls || drops) && !held(run.world, part);
}

/** `chock` and `unchock`. */
export function chock(run: Run, target: Target, chocked: boolean): void {
  const spots = spotsOf(run.world, target, run.sides);
  for (const corner of spots?.corners ?? []) corner.chocked = chocked;
}

/** `stands-before-work-beneath`: a raised corner that nothing safe to work under carries. */
export function judgeBeneath(run: Run, verb: string, target: Target, corners: Corner[]): void {
  const part = target.part;
  if (
    !part ||
    ['raise', 'lower', 'support', 'unsupport', 'discard', 'transfer', 'wait', 'record'].includes(verb)
  )
    return;
  if (isKind(part, 'wheel') || text(part.body.reach) === 'outside') return;
  const away = ['off', 'off-with', 'boxed', 'discarded'].includes(part.state);
  if (away && !['fit', 'bolt-up', 'offer'].includes(verb)) return;
  const unsafe = corners.filter((corner) => {
    if (corner.carry === 'wheel' || corner.blocked) return false;
    const aids = [...corner.body.keys(), ...corner.axle.keys()];
    if (aids.some((aid) => aidCan(run.world, aid, 'work-under'))) return false;
    return !aids.some((aid) => unknownAid(run.world, aid)); // an unnamed aid: not decided
  });
  if (unsafe.length === 0) return;
  found(run, 'stands-before-work-beneath', { item: part.name, side: part.label });
  if (run.judged) for (const corner of unsafe) corner.blocked = true;
}
