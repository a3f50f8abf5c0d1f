/** The effect of an event: which of the effects of joints, parts, lines, metal and the rest a verb has. */

import type { Instance } from '../model/instances';
import type { Corner } from './corners';
import { freshen } from './effects-joints';
import { fromGiven, movePart } from './effects-parts';
import { endsOf, moveEnd, moveLine, moveNamed, workMetal } from './effects-rest';
import type { Event, Subject } from './event';
import {
  corner as cornerItems,
  end as endItems,
  isTight,
  joint as jointItems,
  line as lineItems,
  part as partItems,
} from './items';
import type { Simulation } from './simulation';
import type { Branch } from './state';

/** Does to the state what every verb but those of joints, support, `unbolt` and `bolt-up` does. */
export function applyEffect(sim: Simulation, branch: Branch, event: Event): void {
  const { subject, at, verb, operation } = event;
  touchGiven(branch, subject, at);
  switch (verb) {
    case 'chock':
    case 'unchock':
      for (const corner of cornersChocked(sim, subject, at))
        branch.put(cornerItems.chocked(corner), verb === 'chock');
      return;
    case 'free':
    case 'seat':
      moveEnd(branch, event, at);
      return;
    case 'renew':
      if (subject.type === 'piece') freshen(branch, subject.joint, at, [subject.piece]);
      else if (subject.type === 'joint')
        freshen(branch, subject.joint, at, [...subject.joint.singleUse.keys(), 'pin']);
      return;
  }
  if (subject.type === 'line') moveLine(branch, event, subject.line, subject.end, at);
  if (subject.type === 'part') {
    movePart(sim, branch, event, subject.part, at);
    if (verb === 'fit')
      for (const joint of subject.part.joints.values()) freshen(branch, joint, at, operation.newPieces);
  }
  moveNamed(sim, branch, event, at);
  workMetal(branch, event, at);
}

/** What `given` says is off, undone, swung, compressed, empty or disconnected owes from the first operation on it. */
export function touchGiven(branch: Branch, subject: Subject, at: Instance): void {
  if (subject.type === 'joint' || subject.type === 'end') {
    touchGivenHold(branch, subject, at);
    return;
  }
  const thing = subject.type === 'part' ? subject.part : subject.type === 'line' ? subject.line : null;
  if (thing === null || branch.get(fromGiven(`${thing.name}${at.key}`)) !== true) return;
  branch.put(fromGiven(`${thing.name}${at.key}`), false);
  if (thing.type === 'part') {
    const state = branch.get(partItems.state(thing, at));
    if (state === 'off') branch.put(partItems.owed(thing, at), true);
    if (state === 'swung') branch.put(partItems.swungOwed(thing, at), true);
    if (branch.get(partItems.compressed(thing, at)) === true)
      branch.put(partItems.compressorOwed(thing, at), true);
    if (thing.origin !== 'kit' && branch.get(partItems.pressure(thing, at)) === 'empty')
      branch.put(partItems.pressureOwed(thing, at), true);
    return;
  }
  for (const name of endsOf(thing))
    if (branch.get(lineItems.connected(thing, name, at)) !== true)
      branch.put(lineItems.owed(thing, name, at), true);
  if (branch.get(lineItems.clipped(thing, at)) !== true) branch.put(lineItems.clipOwed(thing, at), true);
}

function touchGivenHold(branch: Branch, subject: Subject & { type: 'joint' | 'end' }, at: Instance): void {
  const { full } = subject.type === 'joint' ? subject.joint : subject.end;
  if (branch.get(fromGiven(`${full}${at.key}`)) !== true) return;
  if (subject.type === 'end') {
    if (branch.get(endItems.freed(subject.end, at)) === true)
      branch.put(endItems.owed(subject.end, at), true);
  } else if (!isTight(branch.get(jointItems.position(subject.joint, at))))
    branch.put(jointItems.owed(subject.joint, at), true);
}

/** The corners whose wheels `chock` and `unchock` mean. */
export function cornersChocked(sim: Simulation, subject: Subject, at: Instance): readonly Corner[] {
  if (subject.type === 'built-in')
    return subject.name === 'front' || subject.name === 'rear'
      ? sim.corners.atEnd(subject.name)
      : sim.corners.all;
  return subject.type === 'part' ? sim.corners.of(subject.part, at) : [];
}
