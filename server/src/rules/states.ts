/** Whether an item is in a state that a rule names (schemas/semantics.md §7). */

import type { Instance } from '../model/instances';
import type { Joint, Part } from '../model/model';
import { partOf } from '../model/target';
import { endsOf, normalValue } from '../simulate/effects-rest';
import { nameOf, thingOf } from '../simulate/event';
import {
  corner as cornerItems,
  end as endItems,
  joint as jointItems,
  line as lineItems,
  named,
  part as partItems,
  work,
} from '../simulate/items';
import { isReplaced } from '../simulate/replaced';
import type { Simulation } from '../simulate/simulation';
import { atRideHeight, isHeld, onGround } from '../simulate/spots';
import type { Branch } from '../simulate/state';
import { mayWorkUnder } from '../simulate/support';
import type { Item } from './related';

export const POSITIONS = new Set(['tight', 'loose', 'out', 'started', 'snug', 'final']);
export const PART_STATES = new Set(['fitted', 'off', 'swung', 'discarded', 'boxed', 'offered']);
/** What may be said of the vehicle, its ends and its systems beside the value of a switch. */
export const SYSTEM_STATES = new Set([
  'live',
  'safe',
  'full',
  'drained',
  'held',
  'recorded',
  'ride-height',
  'on-ground',
  'raised',
  'jack-alone',
]);

/** Whether the item exists in this branch; narrows the branch. */
export function exists(branch: Branch, { subject }: Item): boolean {
  const thing = thingOf(subject);
  if (thing !== null && !branch.within(thing.presence)) return false;
  return subject.type !== 'joint' || branch.within(subject.joint.presence);
}

/** Whether the item is in the state. A word of joints asked of a part means any of its joints; a part's, asked of a joint, its part. */
export function isIn(sim: Simulation, branch: Branch, item: Item, state: string): boolean {
  const { subject, at } = item;
  if (subject.type === 'built-in' && !SYSTEM_STATES.has(state))
    return switchedTo(sim, branch, subject.name, state);
  const part = partOf(subject);
  if (POSITIONS.has(state) || state === 'untouched') {
    if (subject.type === 'joint' || subject.type === 'piece')
      return position(branch, subject.joint, at, state);
    return (
      subject.type === 'part' &&
      [...subject.part.joints.values()].some(
        (joint) => branch.within(joint.presence) && position(branch, joint, at, state),
      )
    );
  }
  if (PART_STATES.has(state)) {
    if (subject.type === 'line') return branch.get(lineItems.state(subject.line, at)) === state;
    if (part === null) return false;
    const now = String(branch.get(partItems.state(part, at)));
    if (state !== 'off') return now === state;
    // An old part whose place a new one has taken is missing nowhere.
    return (now === 'off' || now.startsWith('with:')) && !isReplaced(sim, branch, part, at);
  }
  switch (state) {
    case 'connected':
    case 'disconnected': {
      if (subject.type !== 'line') return false;
      const { line, end } = subject;
      const ends = end === null ? endsOf(line) : [end];
      // A kit's line that is still in its box is neither.
      if (branch.get(lineItems.state(line, at)) === 'boxed') return false;
      const all = ends.every((name) => branch.get(lineItems.connected(line, name, at)) === true);
      return all === (state === 'connected');
    }
    case 'clipped':
    case 'unclipped':
      return (
        subject.type === 'line' &&
        (branch.get(lineItems.clipped(subject.line, at)) === true) === (state === 'clipped')
      );
    case 'bled':
    case 'unbled':
      return (
        subject.type === 'line' &&
        (branch.get(lineItems.unbled(subject.line, at)) === true) === (state === 'unbled')
      );
    case 'checked':
    case 'unchecked':
      return (
        subject.type === 'line' &&
        (branch.get(lineItems.unchecked(subject.line, at)) === true) === (state === 'unchecked')
      );
    case 'seated':
    case 'freed': {
      const ends = subject.type === 'end' ? [subject.end] : [...(part?.ends.values() ?? [])];
      return ends.some((end) => (branch.get(endItems.freed(end, at)) === true) === (state === 'freed'));
    }
    case 'live':
    case 'safe':
      return (branch.get(named.safe(nameOf(subject))) === true) === (state === 'safe');
    case 'full':
    case 'drained':
      return (branch.get(named.drained(nameOf(subject), at)) === true) === (state === 'drained');
    case 'none':
    case 'marked':
    case 'pilot':
    case 'size':
      return subject.type === 'hole' && branch.get(work.hole(subject.hole, at)) === state;
    case 'raw':
    case 'deburred':
    case 'protected':
      return edges(item).some((edge) => branch.get(work.edge(edge, at)) === state);
    case 'held':
      if (part !== null && isHeld(sim, branch, part, at)) return true;
      return branch.get(named.hold(nameOf(subject), at)) !== '';
    case 'empty':
      return part !== null && branch.get(partItems.pressure(part, at)) === 'empty';
    case 'compressed':
      return part !== null && branch.get(partItems.compressed(part, at)) === true;
    case 'recorded':
      return branch.get(named.recorded(nameOf(subject), at)) === true;
    case 'ride-height':
    case 'on-ground':
    case 'raised':
    case 'jack-alone':
      return cornersAre(sim, branch, item, state);
    default:
      return false;
  }
}

export function position(branch: Branch, joint: Joint, at: Instance, state: string): boolean {
  if (state === 'untouched') return branch.get(jointItems.touched(joint, at)) !== true;
  return branch.get(jointItems.position(joint, at)) === state;
}

function switchedTo(sim: Simulation, branch: Branch, name: string, value: string): boolean {
  return branch.get(named.switched(name, normalValue(sim, name))) === value;
}

export function edges({ subject }: Item) {
  if (subject.type === 'hole') return [subject.hole];
  if (subject.type === 'face') return [subject.face];
  const part: Part | null = subject.type === 'part' ? subject.part : null;
  return part === null ? [] : [part, ...part.holes.values(), ...part.faces.values()];
}

function cornersAre(sim: Simulation, branch: Branch, { subject, at }: Item, state: string): boolean {
  const thing = thingOf(subject);
  const corners =
    thing === null
      ? subject.type === 'built-in' && (subject.name === 'front' || subject.name === 'rear')
        ? sim.corners.atEnd(subject.name)
        : sim.corners.all
      : thing.type === 'part'
        ? sim.corners.ofOrAll(thing, at)
        : sim.corners.ofLine(thing, at);
  // One corner on a jack is enough; an unnamed aid may be anything.
  if (state === 'jack-alone')
    return corners.some(
      (corner) =>
        branch.get(cornerItems.carry(corner)) !== 'wheel' &&
        branch.get(cornerItems.assumedBlocked(corner)) !== true &&
        mayWorkUnder(sim, branch, corner) === 'no',
    );
  return corners.every((corner) => {
    if (state === 'ride-height') return atRideHeight(branch, corner);
    return onGround(sim, branch, corner) === (state === 'on-ground');
  });
}
