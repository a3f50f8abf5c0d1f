import { type Instance, matching } from '../../model/instances';
import type { Part } from '../../model/model';
import { part as partItems } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import type { Branch } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** The nut that holds a spring in is undone only with the spring held compressed. */
export const compressBeforeTopNut: Builtin = {
  name: 'compress-before-top-nut',
  watch: () => ({
    verbs: ['loosen', 'remove'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'joint' || !subject.joint.holdsSpring) return undefined;
      const { part } = subject.joint;
      const state = branch.get(partItems.state(part, at));
      if (state !== 'fitted' && state !== 'off' && !String(state).startsWith('with:')) return undefined;
      ask(sim, branch, event, 'compress-before-top-nut');
      if (isCompressed(sim, branch, part, at)) return undefined;
      flag(sim, branch, event, 'compress-before-top-nut', subject.joint.full);
      branch.put(partItems.compressed(part, at), true);
      for (const spring of springsOf(sim, part))
        for (const springAt of matching(spring.instances, at))
          branch.put(partItems.compressed(spring, springAt), true);
      return undefined;
    },
  }),
};

/** Both join the same part: the strut that a spring and its insert sit in. */
const shareNeighbour = (spring: Part, part: Part) =>
  spring.joins.some((join) => typeof join !== 'string' && !join.attributes.axle && part.joins.includes(join));

/** The part itself, or a spring that it joins or that joins it, is held compressed. */
function isCompressed(sim: Simulation, branch: Branch, part: Part, at: Instance): boolean {
  if (branch.get(partItems.compressed(part, at)) === true) return true;
  return springsOf(sim, part).some((spring) =>
    matching(spring.instances, at).some(
      (springAt) => branch.get(partItems.compressed(spring, springAt)) === true,
    ),
  );
}

function springsOf(sim: Simulation, part: Part): readonly Part[] {
  return sim.corners.everyPart.filter(
    (spring) =>
      spring.attributes.storesEnergy &&
      (spring.joins.includes(part) || part.joins.includes(spring) || shareNeighbour(spring, part)),
  );
}
