/** What `raise lower support unsupport chock unchock` do (schemas/semantics.md §3). */

import type { Aid, BoundOperation, Part } from '../model/model';
import { addAids, aidNamed, listAids, removeAids, UNNAMED, UNNAMED_JACK } from './aids';
import type { Corner } from './corners';
import type { Event } from './event';
import { corner as items, part as partItems } from './items';
import { holdingLimiters } from './limiters';
import type { Simulation } from './simulation';
import { axleSpot, bodySpot, type Spot } from './spots';
import type { Branch } from './state';

/** What an effect tells the rules of landing and of travel. */
export interface Movement {
  /** The corner came to stand on its wheel. */
  landed: boolean;
  /** The corner hangs lower than before. */
  sank: boolean;
}

const named = (operation: BoundOperation): readonly Aid[] => {
  if (operation.aids.length > 0) return operation.aids;
  return operation.verb === 'raise' ? [UNNAMED_JACK] : [UNNAMED];
};

/** Does the verb at one spot. Reads and writes one branch; says what moved. */
export function moveSpot(sim: Simulation, branch: Branch, event: Event, spot: Spot): Movement {
  const moved: Movement = { landed: false, sank: false };
  if (spot.level !== 'part') branch.put(items.assumedRide(spot.corner), false);
  switch (event.verb) {
    case 'raise':
      raise(branch, event, spot);
      break;
    case 'support':
      branch.put(spot.aids, addAids(branch.get(spot.aids), named(event.operation)));
      break;
    case 'lower':
      lower(sim, branch, event, spot, moved);
      break;
    case 'unsupport': {
      const { aids } = event.operation;
      const gone = aids.length === 0 ? () => true : (name: string) => aids.some((aid) => aid.name === name);
      branch.put(spot.aids, removeAids(branch.get(spot.aids), gone));
      if (spot.level === 'axle' && branch.get(spot.aids) === '') dropToHang(branch, spot.corner);
      break;
    }
  }
  return moved;
}

function raise(branch: Branch, event: Event, spot: Spot): void {
  const { operation } = event;
  const present = branch.get(spot.aids);
  // An axle already on its supports is moved on them: nothing more comes under it unless named.
  const adds =
    operation.aids.length > 0 || spot.level === 'body' || (spot.level === 'axle' && present === '');
  if (adds) branch.put(spot.aids, addAids(present, named(operation)));
  if (spot.level === 'part') return;
  const { corner } = spot;
  const carry = branch.get(items.carry(corner));
  if (spot.level === 'body') {
    if (named(operation).some((aid) => aid.takesWheels)) {
      branch.put(items.carry(corner), 'wheel');
      branch.put(items.hang(corner), 'ride');
    } else {
      setCarry(branch, corner, 'body');
      if (branch.get(axleSpot(corner).aids) === '') branch.put(items.hang(corner), 0);
    }
    return;
  }
  if (carry === 'wheel') setCarry(branch, corner, 'axle');
  else if (carry === 'body') raiseHang(branch, event, corner);
}

/** What was held up on its own support hangs again when that goes. */
function dropToHang(branch: Branch, corner: Corner): void {
  if (branch.get(items.carry(corner)) !== 'body') return;
  const hang = branch.get(items.hang(corner));
  if (hang === 'ride' || (typeof hang === 'number' && hang < 0)) branch.put(items.hang(corner), 0);
}

function raiseHang(branch: Branch, event: Event, corner: Corner): void {
  const by = event.operation.by;
  const hang = branch.get(items.hang(corner));
  if (by === null) branch.put(items.hang(corner), 'ride');
  else if (typeof hang === 'number') branch.put(items.hang(corner), hang - by.nominal);
}

function lower(sim: Simulation, branch: Branch, event: Event, spot: Spot, moved: Movement): void {
  if (spot.level === 'part') return;
  const { corner } = spot;
  const { operation } = event;
  const carry = branch.get(items.carry(corner));
  const onStands = branch.get(bodySpot(corner).aids) !== '';
  // A finding that nobody may work beneath took stands for granted: they hold the body while the axle is let down some way.
  const assumed = branch.get(items.assumedBlocked(corner)) === true;
  if (
    spot.level === 'axle' &&
    carry !== 'axle' &&
    (carry === 'wheel' || onStands || operation.by !== null || !assumed)
  ) {
    if (carry === 'body') sinkHang(sim, branch, event, corner, moved);
    return;
  }
  const standsBeneath = onStands || (assumed && operation.by !== null);
  if (spot.level === 'axle' && operation.onto.aids.length === 0 && standsBeneath) {
    // The body comes to stand on what is under it, and the axle goes on down from there.
    setCarry(branch, corner, 'body');
    if (!onStands) branch.put(items.assumedBlocked(corner), true);
    sinkHang(sim, branch, event, corner, moved);
    return;
  }
  if (spot.level === 'body' && operation.by !== null && operation.onto.aids.length === 0) return;
  const goes = (name: string) => aidNamed(sim.model, name).lowers;
  branch.put(spot.aids, removeAids(branch.get(spot.aids), goes));
  const onto = operation.onto.aids;
  if (onto.length > 0) {
    const beneath = listAids(branch.get(axleSpot(corner).aids));
    if (spot.level === 'body' && onto.some((aid) => beneath.includes(aid.name))) {
      if (carry !== 'wheel') setCarry(branch, corner, 'axle');
      branch.put(items.hang(corner), 'ride');
      return;
    }
    branch.put(spot.aids, addAids(branch.get(spot.aids), onto));
    if (spot.level === 'body' && carry !== 'wheel') setCarry(branch, corner, 'body');
    return;
  }
  setCarry(branch, corner, 'wheel');
  branch.put(items.hang(corner), 'ride');
  moved.landed = true;
}

/** Lets an axle or arm down on its support: `by` from where it is, else as far as its axle says it drops. */
function sinkHang(
  sim: Simulation,
  branch: Branch,
  event: Event,
  corner: Corner,
  moved: Movement,
  arm: Part | null = null,
): void {
  const before = branch.get(items.hang(corner));
  const from = typeof before === 'number' ? before : 0;
  const { drop } = arm ?? corner.group.axle ?? { drop: null };
  const by = event.operation.by;
  let to: number;
  if (by !== null) to = from + by.nominal;
  else if (drop != null) to = drop;
  else to = from;
  if (to > 0 && holdingLimiters(sim, branch, corner, event.operation.sideSaid ? corner.side : ''))
    to = Math.min(to, Math.max(from, 0));
  branch.put(items.hang(corner), to);
  if (to > (typeof before === 'number' ? before : Number.NEGATIVE_INFINITY)) moved.sank = true;
}

/** An arm that is raised or lowered takes its corners along. */
export function moveArm(sim: Simulation, branch: Branch, event: Event, corner: Corner, arm: Part): Movement {
  const moved: Movement = { landed: false, sank: false };
  if (branch.get(items.carry(corner)) !== 'body') return moved;
  if (event.verb === 'raise') raiseHang(branch, event, corner);
  else if (event.verb === 'lower') sinkHang(sim, branch, event, corner, moved, arm);
  return moved;
}

/** Changes what carries a corner; assumptions of findings that hung on the old state end with it. */
export function setCarry(branch: Branch, corner: Corner, carry: 'wheel' | 'axle' | 'body'): void {
  if (branch.get(items.carry(corner)) === carry) return;
  branch.put(items.carry(corner), carry);
  branch.put(items.assumedBlocked(corner), false);
  const { axle, at } = corner.group;
  if (axle !== null) branch.put(partItems.assumedHeld(axle, at), false);
}

/** Whether any aid at a corner, under body or axle, may be worked under; `unknown` where an unnamed one stands there. */
export function mayWorkUnder(sim: Simulation, branch: Branch, corner: Corner): 'yes' | 'no' | 'unknown' {
  const aids = [
    ...listAids(branch.get(bodySpot(corner).aids)),
    ...listAids(branch.get(axleSpot(corner).aids)),
  ];
  if (aids.some((name) => sim.model.aids.get(name)?.workUnder)) return 'yes';
  return aids.every((name) => aidNamed(sim.model, name).known) ? 'no' : 'unknown';
}
