import { corner as cornerItems, isOn, joint as jointItems, part as partItems } from '../../simulate/items';
import { bodySpot } from '../../simulate/spots';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'body-held-before-spring';

/**
 * While the axle or the wheels carry, the springs hold the body up: a leaf spring is not let go with nothing under the body.
 * Springs that store energy at droop have a rule of their own.
 */
export const bodyHeldBeforeSpring: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['remove'],
    before(sim, branch, event) {
      const { subject, at } = event;
      const part =
        subject.type === 'joint' ? subject.joint.part : subject.type === 'part' ? subject.part : null;
      if (part === null || !part.kinds.includes('leaf-spring')) return undefined;
      if (!isOn(branch.get(partItems.state(part, at)))) return undefined;
      if (subject.type === 'part' && part.joints.size > 0) return undefined;
      // Told at the first joint that goes; the spring holds nothing any more after that.
      if ([...part.joints.values()].some((joint) => branch.get(jointItems.position(joint, at)) === 'out'))
        return undefined;
      ask(sim, branch, event, RULE, part.name);
      const bare = sim.corners
        .of(part, at)
        .filter(
          (corner) =>
            branch.get(cornerItems.carry(corner)) !== 'body' && branch.get(bodySpot(corner).aids) === '',
        );
      if (bare.length > 0) flag(sim, branch, event, RULE, part.name);
      return undefined;
    },
  }),
};
