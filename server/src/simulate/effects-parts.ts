/** What the verbs do to parts, their ends, and lines as things (schemas/semantics.md §4). */

import { type Instance, matching } from '../model/instances';
import type { Part } from '../model/model';
import { takeOver } from './effects-joints';
import type { Event } from './event';
import { assumed, end as endItems, isTight, part as items, joint as jointItems } from './items';
import type { Simulation } from './simulation';
import type { Branch, Item } from './state';

/** Set for joints that `given` named: they owe from the first operation on. */
export const fromGiven = (key: string): Item => ({ kind: 'from-given', of: key, at: '', initial: false });

/** Does `remove swing fit discard transfer offer withdraw` to a part. */
export function movePart(sim: Simulation, branch: Branch, event: Event, part: Part, at: Instance): void {
  const state = branch.get(items.state(part, at));
  switch (event.verb) {
    case 'remove':
    case 'unbolt':
      takeOff(sim, branch, part, at);
      branch.put(items.owed(part, at), true);
      break;
    case 'swing':
      branch.put(items.state(part, at), 'swung');
      branch.put(items.swungOwed(part, at), true);
      break;
    case 'fit':
    case 'bolt-up':
      putOn(sim, branch, part, at);
      break;
    case 'discard':
      branch.put(items.state(part, at), 'discarded');
      branch.put(items.owed(part, at), false);
      for (const rider of ridersOf(sim, branch, part, at)) {
        branch.put(items.state(rider.part, rider.at), 'discarded');
        branch.put(items.owed(rider.part, rider.at), false);
      }
      break;
    case 'transfer':
      branch.put(items.state(part, at), 'fitted');
      branch.put(items.owed(part, at), false);
      break;
    case 'offer':
      if (state !== 'boxed' && state !== 'off') break;
      branch.put(beforeOffer(part, at), state);
      branch.put(items.state(part, at), 'offered');
      break;
    case 'withdraw':
      if (state === 'offered') branch.put(items.state(part, at), branch.get(beforeOffer(part, at)));
      break;
  }
}

/** A part that a finding takes as being in a state, owing nothing. */
export function assumePart(branch: Branch, part: Part, at: Instance, state: string): void {
  branch.put(items.state(part, at), state);
  branch.put(items.owed(part, at), false);
  branch.put(items.swungOwed(part, at), false);
  branch.put(assumed(part.name, at), true);
}

/** Off the vehicle: ends free, what joins only it goes along. */
export function takeOff(sim: Simulation, branch: Branch, part: Part, at: Instance): void {
  branch.put(items.state(part, at), 'off');
  branch.put(items.swungOwed(part, at), false);
  for (const it of part.ends.values()) branch.put(endItems.freed(it, at), true);
  goAlong(sim, branch, part, part, at);
}

/** What joins only this part goes off with it, and what joins only that. */
function goAlong(sim: Simulation, branch: Branch, root: Part, from: Part, at: Instance): void {
  for (const rider of sim.corners.joinedOnlyTo(from))
    for (const instance of matching(rider.instances, at)) {
      if (rider === root || branch.get(items.state(rider, instance)) !== 'fitted') continue;
      branch.put(items.state(rider, instance), `with:${root.name}`);
      goAlong(sim, branch, root, rider, instance);
    }
}

/** On the vehicle: what went with it comes back, its open joints and ends begin to owe. */
export function putOn(sim: Simulation, branch: Branch, part: Part, at: Instance): void {
  const before = branch.get(items.state(part, at));
  const fresh = before === 'boxed' || (before === 'offered' && branch.get(beforeOffer(part, at)) === 'boxed');
  if (fresh && part.origin === 'kit')
    branch.put(items.taken(part), Number(branch.get(items.taken(part))) + 1);
  branch.put(items.state(part, at), 'fitted');
  branch.put(items.owed(part, at), false);
  branch.put(items.swungOwed(part, at), false);
  for (const rider of ridersOf(sim, branch, part, at))
    branch.put(items.state(rider.part, rider.at), 'fitted');
  for (const joint of part.joints.values()) {
    if (!branch.within(joint.presence)) continue;
    const old = joint.takesOver?.joint.part;
    if (fresh && old !== undefined)
      for (const instance of matching(old.instances, at).slice(0, 1)) takeOver(branch, joint, at, instance);
    const given = branch.get(fromGiven(`${joint.full}${at.key}`)) === true;
    if ((fresh || given) && !isTight(branch.get(jointItems.position(joint, at))))
      branch.put(jointItems.owed(joint, at), true);
  }
  for (const it of part.ends.values()) {
    const given = branch.get(fromGiven(`${it.full}${at.key}`)) === true;
    if ((fresh || given) && branch.get(endItems.freed(it, at)) === true)
      branch.put(endItems.owed(it, at), true);
  }
}

const beforeOffer = (part: Part, at: Instance): Item => ({
  kind: 'before-offer',
  of: part.name,
  at: at.key,
  initial: 'off',
});

function ridersOf(sim: Simulation, branch: Branch, part: Part, at: Instance): { part: Part; at: Instance }[] {
  return sim.corners.goWith(part).flatMap((other) => {
    return matching(other.instances, at)
      .filter((instance) => branch.get(items.state(other, instance)) === `with:${part.name}`)
      .map((instance) => ({ part: other, at: instance }));
  });
}
