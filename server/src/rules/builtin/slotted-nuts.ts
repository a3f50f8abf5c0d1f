import { joint as jointItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** The pin of a slotted nut goes in after the final torque. */
export const pinAfterTorque: Builtin = {
  name: 'pin-after-torque',
  watch: () => ({
    verbs: ['renew'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'piece' || subject.piece !== 'pin') return undefined;
      ask(sim, branch, event, 'pin-after-torque', subject.joint.full);
      const position = branch.get(jointItems.position(subject.joint, at));
      if (position !== 'final' && position !== 'tight')
        flag(sim, branch, event, 'pin-after-torque', subject.joint.full);
      return undefined;
    },
  }),
};

/** A slotted nut goes forward to the next slot, never back. */
export const slottedNutForwardOnly: Builtin = {
  name: 'slotted-nut-forward-only',
  watch: () => ({
    verbs: ['loosen'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'joint' || subject.joint.nut !== 'slotted') return undefined;
      ask(sim, branch, event, 'slotted-nut-forward-only');
      if (branch.get(jointItems.position(subject.joint, at)) !== 'final') return undefined;
      if (branch.get(jointItems.lacksPin(subject.joint, at)) !== true) return undefined;
      flag(sim, branch, event, 'slotted-nut-forward-only', subject.joint.full);
      return 'stop';
    },
  }),
};
