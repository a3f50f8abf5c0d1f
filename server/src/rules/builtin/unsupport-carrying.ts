import type { Instance } from '../../model/instances';
import type { Part } from '../../model/model';
import { listAids } from '../../simulate/aids';
import { type Event, nameOf } from '../../simulate/event';
import { corner as cornerItems, isOn, joint as jointItems, part as partItems } from '../../simulate/items';
import { allLimitersUndone } from '../../simulate/limiters';
import type { Simulation } from '../../simulate/simulation';
import { axleSpot, bodySpot, isHeld, type Spot } from '../../simulate/spots';
import type { Branch } from '../../simulate/state';
import { setCarry } from '../../simulate/support';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';
import { liftedByHand } from './handling';

const RULE = 'unsupport-carrying';

/** An aid that still carries is not taken away. */
export const unsupportCarrying: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['unsupport', 'release'],
    after(sim, branch, event) {
      if (event.verb !== 'release' || event.subject.type !== 'part') return;
      ask(sim, branch, event, RULE);
      partLeft(sim, branch, event, event.subject.part, event.at);
    },
    afterSpot(sim, branch, event, spot) {
      ask(sim, branch, event, RULE);
      if (branch.get(spot.aids) !== '') return;
      if (spot.level === 'part') partLeft(sim, branch, event, spot.part, spot.at);
      else cornerLeft(sim, branch, event, spot);
    },
  }),
};

/** A part whose last support went: it falls where its joints are out, or drops where nothing limits it any more. */
function partLeft(sim: Simulation, branch: Branch, event: Event, part: Part, at: Instance): void {
  if (!isOn(branch.get(partItems.state(part, at)))) return;
  if (!falls(branch, event, part, at) && !drops(sim, branch, part, at)) return;
  if (isHeld(sim, branch, part, at)) return;
  flag(sim, branch, event, RULE, nameOf(event.subject));
  branch.put(partItems.assumedHeld(part, at), true);
}

function falls(branch: Branch, event: Event, part: Part, at: Instance): boolean {
  if (part.joints.size === 0 || liftedByHand(part, event)) return false;
  for (const joint of part.joints.values())
    if (branch.within(joint.presence) && branch.get(jointItems.position(joint, at)) !== 'out') return false;
  return true;
}

function drops(sim: Simulation, branch: Branch, part: Part, at: Instance): boolean {
  if (part.attributes.axle || !allLimitersUndone(sim, branch, part, at)) return false;
  return sim.corners.of(part, at).some((corner) => branch.get(cornerItems.carry(corner)) === 'body');
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
