import { listAids } from '../../simulate/aids';
import { type Event, nameOf } from '../../simulate/event';
import { corner as cornerItems, isOn, joint as jointItems, part as partItems } from '../../simulate/items';
import { allLimitersUndone } from '../../simulate/limiters';
import type { Simulation } from '../../simulate/simulation';
import { axleSpot, bodySpot, isHeld, type Spot } from '../../simulate/spots';
import type { Branch } from '../../simulate/state';
import { setCarry } from '../../simulate/support';
import { flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';
import { liftedByHand } from './handling';

const RULE = 'unsupport-carrying';

/** An aid that still carries is not taken away. */
export const unsupportCarrying: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['unsupport'],
    afterSpot(sim, branch, event, spot) {
      if (branch.get(spot.aids) !== '') return;
      if (spot.level === 'part') partLeft(sim, branch, event, spot);
      else cornerLeft(sim, branch, event, spot);
    },
  }),
};

function partLeft(sim: Simulation, branch: Branch, event: Event, spot: Spot & { level: 'part' }): void {
  const { part, at } = spot;
  if (!isOn(branch.get(partItems.state(part, at))) || part.joints.size === 0) return;
  for (const joint of part.joints.values())
    if (branch.within(joint.presence) && branch.get(jointItems.position(joint, at)) !== 'out') return;
  if (liftedByHand(part, event) || isHeld(sim, branch, part, at)) return;
  flag(sim, branch, event, RULE, nameOf(event.subject));
  branch.put(partItems.assumedHeld(part, at), true);
}

function cornerLeft(
  sim: Simulation,
  branch: Branch,
  event: Event,
  spot: Spot & { level: 'body' | 'axle' },
): void {
  const { corner } = spot;
  const carry = branch.get(cornerItems.carry(corner));
  if (spot.level === 'body') {
    if (carry !== 'body') return;
    if (branch.get(axleSpot(corner).aids) !== '') {
      setCarry(branch, corner, 'axle');
      return;
    }
    flag(sim, branch, event, RULE, nameOf(event.subject));
    setCarry(branch, corner, 'wheel');
    branch.put(cornerItems.hang(corner), 'ride');
    return;
  }
  if (carry === 'axle') {
    const body = listAids(branch.get(bodySpot(corner).aids));
    if (body.some((name) => sim.model.aids.get(name)?.takesWheels)) {
      setCarry(branch, corner, 'wheel');
      branch.put(cornerItems.hang(corner), 'ride');
      return;
    }
    if (body.length > 0) {
      setCarry(branch, corner, 'body');
      branch.put(cornerItems.hang(corner), 0);
      return;
    }
    flag(sim, branch, event, RULE, nameOf(event.subject));
    setCarry(branch, corner, 'wheel');
    branch.put(cornerItems.hang(corner), 'ride');
    return;
  }
  const { axle, at } = corner.group;
  if (carry !== 'body' || axle === null || !allLimitersUndone(sim, branch, axle, at)) return;
  if (isHeld(sim, branch, axle, at)) return;
  flag(sim, branch, event, RULE, nameOf(event.subject));
  branch.put(partItems.assumedHeld(axle, at), true);
}
