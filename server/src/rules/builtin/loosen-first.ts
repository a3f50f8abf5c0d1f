import { joint as jointItems } from '../../simulate/items';
import { onGround } from '../../simulate/spots';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const isSet = (position: unknown) => position === 'tight' || position === 'final' || position === 'snug';

/** A joint that must be slackened on its own, with the vehicle on the ground, is. */
export const loosenFirst: Builtin = {
  name: 'loosen-first',
  watch: () => ({
    verbs: ['loosen', 'remove'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'joint' || subject.joint.loosenFirst !== 'on-ground') return undefined;
      if (!isSet(branch.get(jointItems.position(subject.joint, at)))) return undefined;
      ask(sim, branch, event, 'loosen-first');
      const corners = sim.corners.ofOrAll(subject.joint.part, at);
      const grounded = event.verb === 'loosen' && corners.every((corner) => onGround(sim, branch, corner));
      if (!grounded) flag(sim, branch, event, 'loosen-first', subject.joint.full);
      return undefined;
    },
  }),
};
