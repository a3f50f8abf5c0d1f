/** How a finding takes a state for granted, or tells of what is still open (schemas/semantics.md §7). */

import { partOf } from '../model/target';
import { assumePosition } from '../simulate/effects-joints';
import { assumePart } from '../simulate/effects-parts';
import { endsOf, normalValue } from '../simulate/effects-rest';
import { nameOf } from '../simulate/event';
import {
  assumed,
  joint as jointItems,
  line as lineItems,
  named,
  part as partItems,
  work,
} from '../simulate/items';
import type { Simulation } from '../simulate/simulation';
import type { Branch } from '../simulate/state';
import type { Item } from './related';
import { edges, PART_STATES, POSITIONS, position, SYSTEM_STATES } from './states';

/** What is owed for an item being in a state is told: it owes nothing for that any more. */
export function settle(branch: Branch, item: Item, state: string): void {
  const { subject, at } = item;
  const part = partOf(subject);
  if (POSITIONS.has(state)) {
    const joints = subject.type === 'joint' ? [subject.joint] : [...(part?.joints.values() ?? [])];
    for (const joint of joints)
      if (position(branch, joint, at, state)) branch.put(jointItems.owed(joint, at), false);
  } else if (part !== null && PART_STATES.has(state)) {
    branch.put(partItems.owed(part, at), false);
    branch.put(partItems.swungOwed(part, at), false);
  } else if (subject.type === 'line') {
    const { line } = subject;
    if (state === 'disconnected')
      for (const name of endsOf(line)) branch.put(lineItems.owed(line, name, at), false);
    if (state === 'unclipped') branch.put(lineItems.clipOwed(line, at), false);
    if (state === 'unbled' || state === 'unchecked') {
      branch.put(lineItems.unbled(line, at), false);
      branch.put(lineItems.unchecked(line, at), false);
    }
  }
}

/** The item counts as seen to: that it is undone, or done again, later is no news. */
export function takeForGranted(branch: Branch, { subject, at }: Item): void {
  branch.put(assumed(subject.type === 'line' ? subject.line.name : nameOf(subject), at), true);
}

/** Takes the item as being in the state, owing nothing. False where that state cannot be taken for granted. */
export function assume(sim: Simulation, branch: Branch, item: Item, state: string): boolean {
  const { subject, at } = item;
  const part = partOf(subject);
  takeForGranted(branch, item);
  if (subject.type === 'built-in' && !SYSTEM_STATES.has(state)) {
    branch.put(named.switched(subject.name, normalValue(sim, subject.name)), state);
    branch.put(named.switchOwed(subject.name), false);
    return true;
  }
  if (POSITIONS.has(state)) {
    if (subject.type === 'joint') assumePosition(branch, subject.joint, at, state);
    else if (subject.type !== 'part') return false;
    else for (const joint of subject.part.joints.values()) assumePosition(branch, joint, at, state);
    return true;
  }
  if (PART_STATES.has(state) && part !== null) {
    assumePart(branch, part, at, state);
    return true;
  }
  switch (state) {
    case 'connected':
    case 'disconnected':
      if (subject.type !== 'line') return false;
      for (const name of subject.end === null ? endsOf(subject.line) : [subject.end]) {
        branch.put(lineItems.connected(subject.line, name, at), state === 'connected');
        branch.put(lineItems.owed(subject.line, name, at), false);
      }
      return true;
    case 'live':
    case 'safe':
      branch.put(named.safe(nameOf(subject)), state === 'safe');
      branch.put(named.safeOwed(nameOf(subject)), false);
      return true;
    case 'full':
    case 'drained':
      branch.put(named.drained(nameOf(subject), at), state === 'drained');
      branch.put(named.drainOwed(nameOf(subject), at), false);
      return true;
    case 'marked':
    case 'pilot':
    case 'size':
      if (subject.type === 'hole') branch.put(work.hole(subject.hole, at), state);
      return subject.type === 'hole';
    case 'raw':
    case 'deburred':
    case 'protected':
      for (const edge of edges(item)) {
        branch.put(work.edge(edge, at), state);
        branch.put(work.edgeOwed(edge, at), false);
      }
      return true;
    case 'held':
      if (part === null) return false;
      branch.put(partItems.assumedHeld(part, at), true);
      return true;
    case 'empty':
      if (part === null) return false;
      branch.put(partItems.pressure(part, at), 'empty');
      branch.put(partItems.pressureOwed(part, at), false);
      return true;
    case 'compressed':
      if (part === null) return false;
      branch.put(partItems.compressed(part, at), true);
      return true;
    case 'recorded':
      branch.put(named.recorded(nameOf(subject), at), true);
      return true;
    default:
      return false;
  }
}
