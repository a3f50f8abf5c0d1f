import { type Instance, matching } from '../../model/instances';
import type { Part } from '../../model/model';
import { end as endItems, joint as jointItems, part as partItems } from '../../simulate/items';
import type { Branch } from '../../simulate/state';
import { flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** A part does not come away while another that is fitted ties it to something else. */
export const stillJoined: Builtin = {
  name: 'still-joined',
  watch: () => ({
    verbs: ['remove'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'part') return undefined;
      const { part } = subject;
      for (const other of sim.corners.everyPart) {
        if (other === part || !other.joins.includes(part) || other.joints.size === 0) continue;
        if (!branch.within(other.presence)) continue;
        const elsewhere = other.joins.filter((join) => join !== part);
        if (elsewhere.length === 0) continue;
        // What the part itself was bolted to by joints that are out does not tie it down.
        if (part.joins.includes(other) && allOut(branch, part, at)) continue;
        for (const otherAt of matching(other.instances, at)) {
          if (branch.get(partItems.state(other, otherAt)) !== 'fitted') continue;
          const tied = elsewhere.some(
            (join) =>
              typeof join === 'string' ||
              matching(join.instances, otherAt).some((joinAt) => {
                const state = branch.get(partItems.state(join, joinAt));
                return state === 'fitted' || state === 'swung';
              }),
          );
          if (!tied) continue;
          const undone =
            [...other.joints.values()].some(
              (joint) => branch.get(jointItems.position(joint, otherAt)) === 'out',
            ) || [...other.ends.values()].some((end) => branch.get(endItems.freed(end, otherAt)) === true);
          if (!undone) flag(sim, branch, event, 'still-joined', part.name, { facts: { other: other.name } });
        }
      }
      return undefined;
    },
  }),
};

function allOut(branch: Branch, part: Part, at: Instance): boolean {
  const joints = [...part.joints.values()].filter((joint) => branch.within(joint.presence));
  return joints.length > 0 && joints.every((joint) => branch.get(jointItems.position(joint, at)) === 'out');
}
