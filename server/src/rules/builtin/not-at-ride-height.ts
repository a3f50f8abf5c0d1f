import { corner as cornerItems, joint as jointItems } from '../../simulate/items';
import { atRideHeight } from '../../simulate/spots';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** What says `at: ride-height` is done there. A bonded bush has its own rule. */
export const notAtRideHeight: Builtin = {
  name: 'not-at-ride-height',
  watch: () => ({
    verbs: ['torque'],
    before(sim, branch, event) {
      const { subject, at, operation } = event;
      if (subject.type !== 'joint' || event.within !== null || operation.words.get('at') !== 'ride-height')
        return undefined;
      if (subject.joint.bushed && branch.get(jointItems.touched(subject.joint, at)) === true)
        return undefined;
      ask(sim, branch, event, 'not-at-ride-height');
      const corners = sim.corners.ofOrAll(subject.joint.part, at);
      const hanging = corners.filter((corner) => !atRideHeight(branch, corner));
      if (hanging.length > 0) flag(sim, branch, event, 'not-at-ride-height', subject.joint.full);
      for (const corner of hanging) branch.put(cornerItems.assumedRide(corner), true);
      return undefined;
    },
  }),
};
