import { onGround } from '../../simulate/spots';
import { flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** A joint that must be slackened with the vehicle on the ground is. */
export const loosenFirst: Builtin = {
  name: 'loosen-first',
  watch: () => ({
    verbs: ['loosen'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'joint' || subject.joint.loosenFirst !== 'on-ground') return undefined;
      const corners = sim.corners.ofOrAll(subject.joint.part, at);
      if (!corners.every((corner) => onGround(sim, branch, corner)))
        flag(sim, branch, event, 'loosen-first', subject.joint.full);
      return undefined;
    },
  }),
};
