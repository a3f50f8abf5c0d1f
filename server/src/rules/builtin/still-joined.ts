import { type Instance, matching } from '../../model/instances';
import type { Part } from '../../model/model';
import type { Event } from '../../simulate/event';
import { assumed, end as endItems, joint as jointItems, part as partItems } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import type { Branch } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** A part does not come away while another that is fitted ties it to something else. */
export const stillJoined: Builtin = {
  name: 'still-joined',
  watch: () => ({
    verbs: ['remove'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'part') return undefined;
      if (sim.lookups.joining(subject.part).length > 0) ask(sim, branch, event, 'still-joined');
      for (const other of tiesOf(sim, branch, subject.part, at)) {
        flag(sim, branch, event, 'still-joined', subject.part.name, { facts: { other: other.name } });
        takeForGranted(branch, event, other);
      }
      return undefined;
    },
  }),
};

/** The other part counts as undone: that it is put back later is no news. */
function takeForGranted(branch: Branch, event: Event, other: Part): void {
  for (const at of matching(other.instances, event.at)) {
    branch.put(assumed(other.name, at), true);
    for (const joint of other.joints.values()) branch.put(assumed(joint.full, at), true);
    for (const end of other.ends.values()) branch.put(assumed(end.full, at), true);
  }
}

/** The fitted parts that tie a part to something else that is on the vehicle, with none of their joints out. */
export function tiesOf(sim: Simulation, branch: Branch, part: Part, at: Instance): Part[] {
  return sim.lookups.joining(part).filter((other) => {
    if (other === part || other.joints.size === 0) return false;
    const elsewhere = other.joins.filter((join) => join !== part);
    if (elsewhere.length === 0 || !branch.within(other.presence)) return false;
    // What the part itself was bolted to by joints that are out does not tie it down.
    if (part.joins.includes(other) && allOut(branch, part, at)) return false;
    return matching(other.instances, at).some((otherAt) => {
      if (branch.get(partItems.state(other, otherAt)) !== 'fitted') return false;
      const tied = elsewhere.some((join) => typeof join === 'string' || isThere(branch, join, otherAt));
      return tied && !isUndone(branch, other, otherAt);
    });
  });
}

function isThere(branch: Branch, part: Part, at: Instance): boolean {
  return matching(part.instances, at).some((partAt) => {
    const state = branch.get(partItems.state(part, partAt));
    return state === 'fitted' || state === 'swung';
  });
}

function isUndone(branch: Branch, part: Part, at: Instance): boolean {
  return (
    [...part.joints.values()].some((joint) => branch.get(jointItems.position(joint, at)) === 'out') ||
    [...part.ends.values()].some((end) => branch.get(endItems.freed(end, at)) === true)
  );
}

function allOut(branch: Branch, part: Part, at: Instance): boolean {
  const joints = [...part.joints.values()].filter((joint) => branch.within(joint.presence));
  return joints.length > 0 && joints.every((joint) => branch.get(jointItems.position(joint, at)) === 'out');
}
