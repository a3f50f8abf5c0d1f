// Related items of the rule language, and the states that a rule may name.
import { closure, cornersOf, isAxle, targetCorners } from './corners.ts';
import { assume } from './joints.ts';
import { isMap, list, map, type Raw, text, texts } from './raw.ts';
import type { Run } from './run.ts';
import {
  addHold,
  aidCan,
  connected,
  edgesOf,
  held,
  holdOn,
  jointTarget,
  lineTarget,
  onGround,
  partTarget,
  rideHeight,
  unknownAid,
} from './state.ts';
import { everyInstance } from './targets.ts';
import type { Corner, PartState, Position, Target } from './things.ts';
import { allLines, allParts, fits, isKind, related, type World } from './world.ts';

const POSITIONS = ['tight', 'loose', 'out', 'started', 'snug', 'final'];
const PART_STATES = ['fitted', 'off', 'swung', 'discarded', 'boxed', 'offered'];
const HOLE_STATES = ['none', 'marked', 'pilot', 'size'];
const EDGE_STATES = ['raw', 'deburred', 'protected'];

/** The items that `of` names, seen from a watched one. `same` where nothing is said. */
export function relatedItems(world: World, watched: Target, of: unknown): Target[] {
  if (of === 'any') return []; // it has no state
  const all = of === undefined ? [watched] : list(of).flatMap((one) => relatedBy(world, watched, one));
  return all.filter((one, index) => all.findIndex((other) => other.key === one.key) === index);
}

function relatedBy(world: World, watched: Target, of: unknown): Target[] {
  const part = watched.part;
  if (isMap(of)) {
    if (of.item !== undefined) return texts(of.item).flatMap((name) => named(world, watched, name));
    if (of.kind !== undefined) return ofKind(world, watched, texts(of.kind), text(of.on) ?? 'vehicle');
    return texts(of.words).map((word) => ({ what: 'words', item: word, side: '', key: word }));
  }
  switch (text(of)) {
    case 'same':
      return [watched];
    case 'part':
      if (part) return [partTarget(part)];
      return watched.line ? [lineTarget(watched.line)] : [];
    case 'joints':
      return part ? part.joints.map(jointTarget) : [];
    case 'axle':
      return part ? closure(world, part).filter(isAxle).map(partTarget) : [];
    case 'vehicle':
      return [{ what: 'built-in', item: 'vehicle', side: '', key: 'vehicle' }];
    default:
      return [];
  }
}

/** What a name stands for, on the side and at the place of the watched item; nothing where there is no such thing. */
function named(world: World, watched: Target, name: string): Target[] {
  const own = watched.part ?? watched.line;
  return everyInstance(world, name).filter((target) => {
    const thing = target.part ?? target.line;
    if (thing === undefined) return target.what === 'built-in';
    return own === undefined || fits(own, thing);
  });
}

/** Parts and lines of some kinds that share a group of corners with the watched item; `side`: and side and place. */
function ofKind(world: World, watched: Target, kinds: string[], on: string): Target[] {
  const targets = [...allParts(world).map(partTarget), ...allLines(world).map(lineTarget)];
  const groups = (target: Target) => targetCorners(world, target).map((corner) => corner.group);
  const own = groups(watched);
  const watchedThing = watched.part ?? watched.line;
  return targets.filter((target) => {
    const thing = target.part ?? target.line!;
    if (!kinds.some((kind) => isKind(thing, kind))) return false;
    if (on === 'vehicle') return true;
    if (!groups(target).some((group) => own.includes(group))) return false;
    return on === 'axle' || watchedThing === undefined || fits(watchedThing, thing);
  });
}

function cornersFor(world: World, target: Target): Corner[] {
  if (target.part) {
    const own = cornersOf(world, target.part);
    return own.length > 0 ? own : world.corners;
  }
  return targetCorners(world, target);
}

/** Whether an item is in a state that a rule names. */
export function inState(run: Run, target: Target, state: string): boolean {
  const { world } = run;
  const { part, joint, line } = target;
  const corners = () => cornersFor(world, target);
  if (state === 'ride-height') return corners().every(rideHeight);
  if (state === 'on-ground') return corners().every((corner) => onGround(world, corner));
  if (state === 'raised') return corners().every((corner) => !onGround(world, corner));
  if (state === 'jack-alone') return corners().some((corner) => onJackAlone(world, corner));
  if (state === 'safe' || state === 'live') return world.safe.has(target.item) === (state === 'safe');
  if (state === 'recorded') return world.recorded.has(target.key);
  if (state === 'drained') return world.drained.has(target.key);
  if (state === 'full') return !world.drained.has(target.key);
  if (state === 'held') {
    if (target.what === 'part' && part) return held(world, part);
    return line ? holdOn(world, line) : world.holds.has(target.key);
  }
  if ((target.what === 'joint' || target.what === 'piece') && joint) {
    if (state === 'untouched') return !joint.touched;
    // A part's word asked of a joint means its part.
    if (PART_STATES.includes(state)) return inState(run, partTarget(joint.part), state);
    return joint.position === state;
  }
  // A part's word asked of what belongs to it means the part.
  if (part && (target.end ?? target.hole ?? target.face) && PART_STATES.includes(state))
    return inState(run, partTarget(part), state);
  if (target.end) return state === 'seated' ? !target.end.freed : state === 'freed' && target.end.freed;
  if (target.hole && HOLE_STATES.includes(state)) return target.hole.state === state;
  if (target.hole ?? target.face) return (target.hole?.edge ?? target.face!.edge).state === state;
  if (target.what === 'part' && part) {
    const now = part.state === 'off-with' ? 'off' : part.state;
    // An old part whose place a new one has taken is missing nowhere.
    const taken = () =>
      related(world, part, part.name).some(
        (one) => one.name !== part.name && (one.state === 'fitted' || one.state === 'swung'),
      );
    if (PART_STATES.includes(state)) return now === state && !(state === 'off' && taken());
    if (state === 'compressed') return part.compressed;
    if (state === 'empty') return part.pressure === 'empty';
    // A joint's word asked of a part: one of its joints is so.
    if (POSITIONS.includes(state)) return part.joints.some((one) => one.position === state);
    if (state === 'untouched') return part.joints.some((one) => !one.touched);
    if (state === 'seated') return part.ends.every((end) => !end.freed);
    if (state === 'freed') return part.ends.some((end) => end.freed);
    return EDGE_STATES.includes(state) && edgesOf(part).some((edge) => edge.state === state);
  }
  if (line) {
    const ends = target.lineEnd === undefined ? line.ends : [target.lineEnd];
    if (state === 'connected') return ends.every((end) => line.connected.get(end) === true);
    if (state === 'disconnected' && line.kit && !line.used) return false; // still in its box
    if (state === 'disconnected') return ends.some((end) => line.connected.get(end) !== true);
    if (state === 'clipped') return !line.unclipped;
    if (state === 'unclipped') return line.unclipped;
    if (state === 'bled') return !line.unbled;
    if (state === 'unbled') return line.unbled;
    if (state === 'checked') return !line.unchecked;
    if (state === 'unchecked') return line.unchecked;
    if (state === 'discarded') return line.discarded;
    if (state === 'boxed') return line.kit && !line.used && !line.discarded;
    if (state === 'fitted') return !line.discarded && (!line.kit || line.used);
    return line.path === state;
  }
  if (target.what !== 'built-in') return false;
  return (world.values.get(target.item) ?? restingValue(target.item)) === state;
}

/** Raised, and on nothing that one may work under; an unnamed aid may be anything. */
function onJackAlone(world: World, corner: Corner): boolean {
  if (corner.carry === 'wheel' || corner.blocked) return false;
  const aids = [...corner.body.keys(), ...corner.axle.keys()];
  return !aids.some((aid) => unknownAid(world, aid) || aidCan(world, aid, 'work-under'));
}

/** What a finding took for granted: that it is undone, or done again, later is no news. */
export function grant(run: Run, target: Target): void {
  const { part, joint, end, line } = target;
  if (line) line.granted = true;
  else if (target.what === 'joint' && joint) joint.granted = true;
  else if (end) end.granted = true;
  else if (target.what === 'part' && part) part.granted = true;
  else run.granted.add(target.key);
}

/** What is owed for a state is told with it: the item owes nothing for that any more. */
export function settleState(target: Target, state: string): void {
  const { part, joint, line } = target;
  const joints = target.what === 'joint' && joint ? [joint] : (part?.joints ?? []);
  if (POSITIONS.includes(state)) {
    for (const one of joints) if (one.position === state) one.debt = undefined;
  } else if (part && PART_STATES.includes(state)) part.debt = undefined;
  else if (line) {
    if (state === 'disconnected') line.debt = undefined;
    if (state === 'unclipped') line.unclippedDebt = undefined;
    if (state === 'unbled' || state === 'unchecked') {
      line.unbled = false;
      line.unchecked = false;
      line.openedDebt = undefined;
    }
  }
}

/** What a built-in is before anything was done to it. */
function restingValue(item: string): string {
  if (item === 'ignition') return 'off';
  return item === 'levelling' || item === 'parking-brake' ? 'on' : '';
}

/** A rule goes on as if the item were in a state. Nothing is owed for it. Corners stay as they are. */
export function assumeState(run: Run, target: Target, state: string): void {
  const { world } = run;
  const { part, joint, line } = target;
  grant(run, target);
  if (state === 'recorded') world.recorded.add(target.key);
  else if (state === 'full') world.drained.delete(target.key);
  else if (state === 'drained')
    world.drained.set(target.key, { item: target.item, side: target.side, path: undefined });
  else if (state === 'held') {
    if (target.what === 'part' && part) part.assumedHeld = true;
    else addHold(world, target.key, { item: target.item, side: target.side, path: undefined, aids: [] });
  } else if (target.what === 'joint' && joint) {
    if (POSITIONS.includes(state)) assume(joint, state as Position);
    else if (PART_STATES.includes(state)) assumeState(run, partTarget(joint.part), state);
  } else if (part && (target.end ?? target.hole ?? target.face) && PART_STATES.includes(state)) {
    assumeState(run, partTarget(part), state);
  } else if (target.end) {
    if (state !== 'freed' && state !== 'seated') return;
    target.end.freed = state === 'freed';
    target.end.debt = undefined;
  } else if (target.hole && HOLE_STATES.includes(state))
    target.hole.state = state as 'none' | 'marked' | 'pilot' | 'size';
  else if (target.hole ?? target.face) {
    const edge = target.hole?.edge ?? target.face!.edge;
    if (EDGE_STATES.includes(state)) Object.assign(edge, { state, debt: undefined });
  } else if (target.what === 'part' && part) {
    if (PART_STATES.includes(state)) {
      part.state = state as PartState;
      part.granted = true;
      part.debt = undefined;
      part.neverOn = state === 'boxed';
    } else if (state === 'empty') {
      part.pressure = 'empty';
      part.pressureDebt = undefined;
    } else if (state === 'compressed') part.compressed = true;
    else if (POSITIONS.includes(state)) for (const one of part.joints) assume(one, state as Position);
    else if (EDGE_STATES.includes(state)) {
      for (const edge of edgesOf(part))
        if (edge.state !== 'none') Object.assign(edge, { state, debt: undefined });
    }
  } else if (line) assumeLine(target, state);
  else if (target.what === 'built-in' && !['ride-height', 'on-ground', 'raised'].includes(state)) {
    if (state === 'safe') world.safe.set(target.item, undefined);
    else if (state === 'live') world.safe.delete(target.item);
    else {
      world.values.set(target.item, state);
      world.valueDebt.delete(target.item);
    }
  }
}

function assumeLine(target: Target, state: string): void {
  const line = target.line!;
  line.granted = true;
  const ends = target.lineEnd === undefined ? line.ends : [target.lineEnd];
  if (state === 'connected' || state === 'disconnected') {
    for (const end of ends) line.connected.set(end, state === 'connected');
    if (connected(line) || state === 'disconnected') line.debt = undefined;
  } else if (state === 'clipped' || state === 'unclipped') {
    line.unclipped = state === 'unclipped';
    line.unclippedDebt = undefined;
  } else if (state === 'bled') line.unbled = false;
  else if (state === 'unbled') line.unbled = true;
}

/** A map of joint properties that all must be so. */
export function jointMatches(wanted: Raw, body: Raw, bushedJoint: boolean): boolean {
  return Object.entries(map(wanted)).every(([key, value]) => {
    const actual = key === 'bushed' ? bushedJoint : body[key];
    if (value === true) return actual === true;
    if (value === false) return actual === undefined || actual === false;
    return texts(value).includes(text(actual) ?? '');
  });
}
