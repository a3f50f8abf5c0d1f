/** Where an aid stands: under the body or the axle at a corner, or under a part of its own. */

import type { Instance } from '../model/instances';
import type { BoundOperation, Part, Side } from '../model/model';
import { partOf } from '../model/target';
import { aidNamed, listAids } from './aids';
import type { Corner } from './corners';
import type { Subject } from './event';
import { corner as cornerItems, named, part as partItems, spot } from './items';
import type { Simulation } from './simulation';
import type { Branch, Item } from './state';

export type Spot =
  | { readonly level: 'body' | 'axle'; readonly corner: Corner; readonly aids: Item }
  | { readonly level: 'part'; readonly part: Part; readonly at: Instance; readonly aids: Item };

export const bodySpot = (corner: Corner): Spot => ({
  level: 'body',
  corner,
  aids: spot.aids(`body@${corner.key}`),
});
export const axleSpot = (corner: Corner): Spot => ({
  level: 'axle',
  corner,
  aids: spot.aids(`axle@${corner.key}`),
});
export const partSpot = (part: Part, at: Instance): Spot => ({
  level: 'part',
  part,
  at,
  aids: spot.aids(`part:${part.name}${at.key}`),
});

const BODY = new Set(['vehicle', 'body', 'frame']);

/** Corners that a support verb works, of those of its target: with a side said, that side's. */
function sidesOf(
  corners: readonly Corner[],
  operation: BoundOperation,
  pass: readonly Side[],
): readonly Corner[] {
  if (!operation.sideSaid) return corners.filter((corner) => pass.length > 1 || pass.includes(corner.side));
  return corners.filter((corner) => operation.sides.includes(corner.side) && pass.includes(corner.side));
}

/** The spots that `raise`, `lower`, `support` and `unsupport` of a target concern. */
export function spotsOf(
  sim: Simulation,
  subject: Subject,
  at: Instance,
  operation: BoundOperation,
  pass: readonly Side[],
): readonly Spot[] {
  if (subject.type === 'built-in') {
    if (BODY.has(subject.name)) return sidesOf(sim.corners.all, operation, pass).map(bodySpot);
    if (subject.name === 'front' || subject.name === 'rear')
      return sidesOf(sim.corners.atEnd(subject.name), operation, pass).map(bodySpot);
    return [];
  }
  const part = partOf(subject);
  if (part === null) return [];
  if (part.attributes.axle || part.attributes.wheel)
    return sidesOf(sim.corners.of(part, at), operation, pass).map(axleSpot);
  return [partSpot(part, at)];
}

/** Whether a `hold` holds a part up: a wire or a clamp does for what one may lift by hand, a sling or a jack for anything. */
function isHung(sim: Simulation, part: Part, value: unknown): boolean {
  const aids = listAids(value);
  if (aids.length === 0) return false;
  return part.mass === null || part.mass <= 15 || aids.some((name) => aidNamed(sim.model, name).carries);
}

/** Whether a part is held: by an aid, a hold, what its axle stands on, or a finding's assumption (§3). */
export function isHeld(sim: Simulation, branch: Branch, part: Part, at: Instance): boolean {
  if (branch.get(partItems.assumedHeld(part, at)) === true) return true;
  if (isHung(sim, part, branch.get(named.hold(part.name, at)))) return true;
  if (branch.get(spot.aids(`part:${part.name}${at.key}`)) !== '') return true;
  if (!part.attributes.axle) return false;
  for (const corner of sim.corners.of(part, at)) {
    if (listAids(branch.get(axleSpot(corner).aids)).length > 0) return true;
    if (branch.get(cornerItems.carry(corner)) !== 'body') return true;
    for (const arm of sim.lookups.arms)
      for (const armAt of arm.instances)
        if (sim.corners.of(arm, armAt).includes(corner) && branch.get(partSpot(arm, armAt).aids) !== '')
          return true;
  }
  return false;
}

/** Whether a corner is at ride height (§3). */
export function atRideHeight(branch: Branch, corner: Corner): boolean {
  if (branch.get(cornerItems.carry(corner)) !== 'body' || branch.get(cornerItems.hang(corner)) === 'ride')
    return true;
  return branch.get(cornerItems.assumedRide(corner)) === true;
}

/** Whether a corner stands on the ground: on its wheel, and that on no lift. */
export function onGround(sim: Simulation, branch: Branch, corner: Corner): boolean {
  if (branch.get(cornerItems.carry(corner)) !== 'wheel') return false;
  return !listAids(branch.get(bodySpot(corner).aids)).some((name) => sim.model.aids.get(name)?.takesWheels);
}
