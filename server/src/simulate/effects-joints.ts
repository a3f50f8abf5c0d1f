/** What the verbs do to joints and their pieces (schemas/semantics.md §4). */

import type { Instance } from '../model/instances';
import type { Joint } from '../model/model';
import type { Event } from './event';
import { assumed, joint as items } from './items';
import type { Branch } from './state';

/** Moves a joint by `loosen remove start snug torque`. */
export function moveJoint(branch: Branch, event: Event, joint: Joint, at: Instance): void {
  const position = branch.get(items.position(joint, at));
  switch (event.verb) {
    case 'loosen':
      undo(branch, joint, at);
      if (position === 'tight' || position === 'final' || position === 'snug')
        set(branch, joint, at, 'loose');
      else owe(branch, joint, at);
      spend(branch, joint, at, 'slackened');
      break;
    case 'remove':
      undo(branch, joint, at);
      set(branch, joint, at, 'out');
      spend(branch, joint, at, 'slackened');
      spend(branch, joint, at, 'out');
      break;
    case 'start':
      if (position === 'out') set(branch, joint, at, 'started');
      else if (position !== 'tight') owe(branch, joint, at);
      break;
    case 'snug':
      if (position === 'out' || position === 'started' || position === 'loose') {
        if (joint.handTight) tighten(branch, joint, at, false);
        else set(branch, joint, at, 'snug');
      }
      break;
    case 'torque':
      tighten(branch, joint, at, position === 'tight' && branch.get(items.touched(joint, at)) !== true);
      break;
  }
}

/** Makes the pieces named in `new:` fresh: before the rules speak. */
export function freshen(branch: Branch, joint: Joint, at: Instance, pieces: readonly string[]): void {
  for (const piece of pieces) {
    if (joint.singleUse.has(piece)) branch.put(items.spent(joint, piece, at), false);
    if (piece === 'pin') {
      branch.put(items.lacksPin(joint, at), false);
      branch.put(items.pinOwed(joint, at), false);
    }
  }
}

/** A joint that a finding takes as being in a position, owing nothing. */
export function assumePosition(branch: Branch, joint: Joint, at: Instance, position: string): void {
  branch.put(items.position(joint, at), position);
  branch.put(items.owed(joint, at), false);
  branch.put(items.touched(joint, at), true);
  branch.put(assumed(joint.full, at), true);
}

/** Its pieces are as spent as the old joint's, save those that come new with the kit. */
export function takeOver(branch: Branch, joint: Joint, at: Instance, oldAt: Instance): void {
  const taken = joint.takesOver;
  if (taken === null) return;
  for (const piece of joint.singleUse.keys()) {
    const spent =
      taken.joint.singleUse.has(piece) && branch.get(items.spent(taken.joint, piece, oldAt)) === true;
    branch.put(items.spent(joint, piece, at), spent && !taken.newPieces.has(piece));
  }
}

function set(branch: Branch, joint: Joint, at: Instance, position: string): void {
  branch.put(items.position(joint, at), position);
  owe(branch, joint, at);
}

function owe(branch: Branch, joint: Joint, at: Instance): void {
  branch.put(items.touched(joint, at), true);
  const position = branch.get(items.position(joint, at));
  if (position !== 'tight' && position !== 'final') branch.put(items.owed(joint, at), true);
}

function undo(branch: Branch, joint: Joint, at: Instance): void {
  if (joint.nut !== 'slotted') return;
  branch.put(items.lacksPin(joint, at), true);
  branch.put(items.pinOwed(joint, at), true);
}

function spend(branch: Branch, joint: Joint, at: Instance, when: 'out' | 'slackened'): void {
  for (const [piece, used] of joint.singleUse)
    if (used === when) branch.put(items.spent(joint, piece, at), true);
}

function tighten(branch: Branch, joint: Joint, at: Instance, check: boolean): void {
  if (check) return;
  branch.put(items.position(joint, at), 'final');
  branch.put(items.touched(joint, at), true);
  branch.put(items.owed(joint, at), false);
  if (joint.nut === 'slotted' && branch.get(items.lacksPin(joint, at)) === true)
    branch.put(items.pinOwed(joint, at), true);
}
