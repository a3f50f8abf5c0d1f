/** What limits the drop of an axle or arm, and whether it still does (design §2.4, schemas/semantics.md §5). */

import { type Instance, matching } from '../model/instances';
import type { Joint, Part, Side } from '../model/model';
import type { Corner } from './corners';
import { end, isOn, joint as jointItems, part as partItems } from './items';
import type { Simulation } from './simulation';
import type { Branch } from './state';

/** Whether one limiter, at one instance, is undone: off, a joint out, an end freed. A limiter not there in this variant is. */
export function limiterUndone(branch: Branch, limiter: Part | Joint, at: Instance): boolean {
  const part = limiter.type === 'joint' ? limiter.part : limiter;
  if (!branch.within(part.presence)) return true;
  if (!isOn(branch.get(partItems.state(part, at)))) return true;
  if (limiter.type === 'joint') return branch.get(jointItems.position(limiter, at)) === 'out';
  for (const joint of part.joints.values())
    if (branch.within(joint.presence) && branch.get(jointItems.position(joint, at)) === 'out') return true;
  for (const it of part.ends.values()) if (branch.get(end.freed(it, at)) === true) return true;
  return false;
}

/**
 * Whether all that limits the drop of a part (an axle, an arm) is undone: every entry of `limited-by`, at every instance
 * that belongs with it. Kit parts that replace a limiter limit in its stead.
 */
export function allLimitersUndone(
  sim: Simulation,
  branch: Branch,
  part: Part,
  at: Instance,
  side: Side = '',
): boolean {
  const limiters = part.limitedBy;
  if (limiters.length === 0) return false;
  return limiters.every((chain) => {
    const all = new Set(chain.flatMap((limiter) => matching(partOf(limiter).instances, at)));
    const instances = [...all].filter(
      (instance) => side === '' || instance.side === '' || instance.side === side,
    );
    return instances.every((instance) =>
      chain.some((limiter) =>
        standIns(sim, limiter).every((stand) => limiterUndone(branch, stand, instance)),
      ),
    );
  });
}

/** Whether something still limits how far this corner may drop; with a side, only what limits it there. */
export function holdingLimiters(sim: Simulation, branch: Branch, corner: Corner, side: Side): boolean {
  return sim.lookups.limited.some((part) =>
    part.instances.some(
      (at) =>
        (part.attributes.axle || part.attributes.arm) &&
        sim.corners.of(part, at).includes(corner) &&
        !allLimitersUndone(sim, branch, part, at, side),
    ),
  );
}

/** A limiter and the kit parts that replace it. */
export function standIns(sim: Simulation, limiter: Part | Joint): readonly (Part | Joint)[] {
  const old = partOf(limiter);
  const found: (Part | Joint)[] = [limiter];
  for (const part of sim.lookups.replacing(old)) {
    if (limiter.type === 'part') found.push(part);
    else {
      const taken = part.joints.get(limiter.name);
      found.push(taken ?? part);
    }
  }
  return found;
}

const partOf = (limiter: Part | Joint): Part => (limiter.type === 'joint' ? limiter.part : limiter);
