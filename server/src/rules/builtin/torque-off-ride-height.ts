import { corner as cornerItems, joint as jointItems } from '../../simulate/items';
import { atRideHeight } from '../../simulate/spots';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** A bonded bush gets its final torque at ride height. */
export const torqueOffRideHeight: Builtin = {
  name: 'torque-off-ride-height',
  watch: () => ({
    verbs: ['torque'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'joint' || event.within !== null || !subject.joint.bushed) return undefined;
      if (branch.get(jointItems.touched(subject.joint, at)) !== true) return undefined;
      ask(sim, branch, event, 'torque-off-ride-height');
      const corners = sim.corners.ofOrAll(subject.joint.part, at);
      const hanging = corners.filter((corner) => !atRideHeight(branch, corner));
      if (hanging.length === 0) return undefined;
      flag(sim, branch, event, 'torque-off-ride-height', subject.joint.full, {
        causes: (set) =>
          hanging.flatMap((corner) =>
            sim.state
              .madeBy(cornerItems.hang(corner), set, (value) => value !== 'ride')
              .map(({ run }) => run),
          ),
      });
      for (const corner of hanging) branch.put(cornerItems.assumedRide(corner), true);
      return undefined;
    },
  }),
};
