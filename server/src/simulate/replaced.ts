import { type Instance, matching } from '../model/instances';
import type { Part } from '../model/model';
import { isOn, part as partItems } from './items';
import type { Simulation } from './simulation';
import type { Branch } from './state';

/** Whether a part that replaces this one is on in its place. */
export function isReplaced(sim: Simulation, branch: Branch, part: Part, at: Instance): boolean {
  return sim.lookups
    .replacing(part)
    .some(
      (other) =>
        branch.within(other.presence) &&
        matching(other.instances, at).some((otherAt) => isOn(branch.get(partItems.state(other, otherAt)))),
    );
}
