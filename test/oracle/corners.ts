// Groups, corners, closures and spots: where a thing sits, and what limits what can drop there.
import type { Corner, Group, Hanging, Limiter, Line, Member, Part, Target } from './things.ts';
import { allParts, fits, isKind, limiterChains, related, roleNames, says, type World } from './world.ts';

const FIXED = ['frame', 'body', 'ground', 'vehicle'];

/** The instances a part joins, in declared order. */
export function joined(world: World, part: Part): Part[] {
  return part.joins.filter((name) => !FIXED.includes(name)).flatMap((name) => related(world, part, name));
}

/** A part and all it reaches through `joins`, nearest first, without frame, body and ground. */
export function closure(world: World, part: Part): Part[] {
  const known = world.closures.get(part);
  if (known) return known;
  const reached = [part];
  for (let index = 0; index < reached.length; index += 1) {
    for (const next of joined(world, reached[index]!)) if (!reached.includes(next)) reached.push(next);
  }
  world.closures.set(part, reached);
  return reached;
}

/** Whether a part is, or reaches, something that joins frame or body. */
export function reachesFrame(world: World, part: Part): boolean {
  return closure(world, part).some((one) => one.joins.some((name) => name === 'frame' || name === 'body'));
}

/** The words of a name. */
function words(name: string): string[] {
  return name.split('-');
}

/** The name of the wheel that stood in a place before any kit's. */
function firstName(world: World, name: string, seen: string[] = []): string {
  const old = world.declarations
    .get(name)
    ?.replaces.find((one) => world.declarations.get(one)?.kinds.includes('wheel'));
  return old === undefined || seen.includes(old) ? name : firstName(world, old, [...seen, name]);
}

/** Lays groups and corners, then what hangs from them. */
export function layCorners(world: World): void {
  const groups: Group[] = [];
  const group = (name: string, part: Part | undefined, places: Record<string, string>): Group => {
    const place = Object.values(places).join('/');
    const known = groups.find((one) => one.name === name && one.place === place);
    if (known) return known;
    const made = {
      name,
      place,
      axle: part,
      words: [...words(name), ...Object.values(places).flatMap(words)],
    };
    groups.push(made);
    return made;
  };
  const parts = allParts(world).filter((part) => !part.implied);
  const wheelsOf = new Map<Group, Part[]>();
  for (const wheel of parts.filter((part) => isKind(part, 'wheel'))) {
    const axle = closure(world, wheel).find((one) => says(one.body, 'axle'));
    const own = axle
      ? group(axle.name, axle, axle.places)
      : group(firstName(world, wheel.name), undefined, wheel.places);
    wheelsOf.set(own, [...(wheelsOf.get(own) ?? []), wheel]);
  }
  if (groups.length === 0) {
    for (const part of parts.filter((one) => says(one.body, 'axle'))) group(part.name, part, part.places);
  }
  if (groups.length === 0) for (const name of ['front', 'rear']) group(name, undefined, {});
  const said = ['front', 'rear'].filter((word) => groups.some((one) => one.words.includes(word)));
  if (said.length === 1) group(said[0] === 'front' ? 'rear' : 'front', undefined, {});
  for (const one of groups) {
    for (const side of ['left', 'right'] as const) {
      const wheels = (wheelsOf.get(one) ?? []).filter((wheel) => wheel.side === '' || wheel.side === side);
      const members = wheels.length > 0 ? wheels : one.axle ? [one.axle] : [];
      world.corners.push({
        group: one,
        side,
        wheels,
        closure: new Set(members.flatMap((member) => closure(world, member))),
        carry: 'wheel',
        hang: 'ride',
        body: new Map(),
        axle: new Map(),
        chocked: false,
        toldLoaded: false,
        blocked: false,
        assumedRide: false,
        carriedSince: undefined,
      });
    }
  }
  for (const wheel of allParts(world).filter((part) => part.implied && isKind(part, 'wheel'))) {
    for (const corner of cornersOf(world, wheel)) corner.wheels.push(wheel);
  }
  layHanging(world);
}

/** The corners of the groups that are front (or rear); of every group if none has the word. */
export function endCorners(world: World, word: string): Corner[] {
  const having = world.corners.filter((corner) => corner.group.words.includes(word));
  return having.length > 0 ? having : world.corners;
}

/** The corners of a part; none if it is placeless. */
export function cornersOf(world: World, part: Part): Corner[] {
  const known = world.partCorners.get(part) ?? findCorners(world, part);
  world.partCorners.set(part, known);
  return known;
}

function findCorners(world: World, part: Part): Corner[] {
  const own = new Set(closure(world, part));
  const onSide = (corner: Corner): boolean => part.side === '' || part.side === corner.side;
  const sharing = world.corners.filter(
    (corner) => onSide(corner) && [...corner.closure].some((one) => own.has(one)),
  );
  if (sharing.length > 0) return sharing;
  for (const word of ['front', 'rear']) {
    if (words(part.name).includes(word)) return endCorners(world, word).filter(onSide);
  }
  return [];
}

/** The corners a rule asks of: of a placeless part, all. */
export function askedCorners(world: World, part: Part): Corner[] {
  const own = cornersOf(world, part);
  return own.length > 0 ? own : world.corners;
}

/** The instances a line spans. */
export function spanned(world: World, line: Line): Part[] {
  return line.spans.flatMap((name) => related(world, line, name));
}

/** The corners of what an operation acts on; all where nothing narrower is known. */
export function targetCorners(world: World, target: Target): Corner[] {
  if (target.part) return askedCorners(world, target.part);
  if (target.line) {
    const line = target.line;
    const all = spanned(world, line).flatMap((part) => cornersOf(world, part));
    const own = world.corners.filter(
      (corner) => all.includes(corner) && (!line.side || line.side === corner.side),
    );
    return own.length > 0 ? own : world.corners;
  }
  if (target.item === 'front' || target.item === 'rear') return endCorners(world, target.item);
  return world.corners;
}

export type Spots =
  | { where: 'body' | 'axle'; corners: Corner[] }
  | { where: 'own'; part: Part; corners: Corner[] };

/** The spots of a carrying operation's target, on the sides it is narrowed to. */
export function spotsOf(world: World, target: Target, sides: string[]): Spots | undefined {
  const onSides = (corners: Corner[]): Corner[] => corners.filter((corner) => sides.includes(corner.side));
  if (target.what === 'built-in') {
    if (['vehicle', 'body', 'frame'].includes(target.item))
      return { where: 'body', corners: onSides(world.corners) };
    if (target.item !== 'front' && target.item !== 'rear') return undefined;
    return { where: 'body', corners: onSides(endCorners(world, target.item)) };
  }
  const part = target.part;
  if (!part) return undefined;
  if (isAxle(part) || isKind(part, 'wheel'))
    return { where: 'axle', corners: onSides(askedCorners(world, part)) };
  return { where: 'own', part, corners: says(part.body, 'arm') ? askedCorners(world, part) : [] };
}

/** Whether a part is of an axle kind. */
export function isAxle(part: Part): boolean {
  return says(part.body, 'axle');
}

/** What can drop, with its limiters. */
function layHanging(world: World): void {
  for (const part of allParts(world)) {
    const chains = limiterChains(part.body);
    if (!isAxle(part) && chains.length === 0) continue;
    const owner = { side: part.side, places: part.places };
    const said = part.body['limited-by'] !== undefined;
    const names = said ? chains : impliedLimiters(world, part).map((name) => [name]);
    const limiters = names.flatMap((chain) => limitersOf(world, owner, chain));
    world.hanging.push({ part, corners: askedCorners(world, part), limiters, assumedHeld: false });
  }
}

/** One entry of `limited-by`: on each side that its members have, a chain. */
function limitersOf(
  world: World,
  owner: { side: string; places: Record<string, string> },
  chain: string[],
): Limiter[] {
  const seats: { side: string; places: Record<string, string> }[] = [];
  for (const name of chain) {
    for (const role of roleNames(world, name.split('.')[0] ?? '')) {
      for (const part of world.parts.get(role) ?? []) {
        if (!fits(owner, part)) continue;
        if (!seats.some((seat) => seat.side === part.side && sameKeys(seat.places, part.places)))
          seats.push(part);
      }
    }
  }
  const sided = seats.some((seat) => seat.side !== '') ? seats.filter((seat) => seat.side !== '') : seats;
  return sided
    .map((seat) =>
      chain.map((name) => memberOf(world, seat, name)).filter((member) => member.parts.length > 0),
    )
    .filter((limiter) => limiter.length > 0);
}

function sameKeys(one: Record<string, string>, other: Record<string, string>): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

function memberOf(
  world: World,
  seat: { side: string; places: Record<string, string> },
  name: string,
): Member {
  const [first = '', second] = name.split('.');
  const parts = related(world, seat, first);
  if (second === undefined) return { parts, joints: undefined };
  return { parts, joints: parts.flatMap((part) => part.joints.filter((joint) => joint.name === second)) };
}

/**
 * What limits an axle that does not say it: the names of parts that limit a drop and join it, of guessed ones that share
 * its `front` or `rear`, and of what replaces any of these.
 */
function impliedLimiters(world: World, axle: Part): string[] {
  const shared = ['front', 'rear'].filter((word) => words(axle.name).includes(word));
  const limits = (part: Part): boolean => {
    if (part === axle || !says(part.body, 'limits-drop')) return false;
    return (
      joined(world, part).includes(axle) ||
      (part.implied && words(part.name).some((word) => shared.includes(word)))
    );
  };
  const names = [
    ...new Set(
      allParts(world)
        .filter(limits)
        .map((part) => part.name),
    ),
  ];
  for (const name of names)
    for (const newer of world.replacers.get(name) ?? []) if (!names.includes(newer)) names.push(newer);
  return names.filter((name) => name !== axle.name);
}

/** Whether one member of a chain no longer limits: nothing that fills its role does. */
function memberUndone(member: Member): boolean {
  return member.parts.every((part) => {
    if (part.state !== 'fitted') return true;
    if (member.joints) return !member.joints.some((joint) => joint.part === part && joint.position !== 'out');
    return part.joints.some((joint) => joint.position === 'out') || part.ends.some((end) => end.freed);
  });
}

/** Whether an entry of `limited-by` is undone: one of its chain is. */
export function limiterUndone(limiter: Limiter): boolean {
  return limiter.some(memberUndone);
}

/** The members of a limiter that are undone. */
export function undoneMembers(limiter: Limiter): Member[] {
  return limiter.filter(memberUndone);
}

/** Whether nothing limits the drop any more. Without any limiter nothing is known to have been undone. */
export function allUndone(hanging: Hanging): boolean {
  return hanging.limiters.length > 0 && hanging.limiters.every(limiterUndone);
}
