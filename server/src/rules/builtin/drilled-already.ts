import { assumed, work } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';
import { ALLOWED_MM } from './drilled-oversize';

/** A hole that has its size is not drilled once more, by a pilot or to the same size. */
export const drilledAlready: Builtin = {
  name: 'drilled-already',
  watch: () => ({
    verbs: ['drill'],
    before(sim, branch, event) {
      const { subject, operation, at } = event;
      if (subject.type !== 'hole') return undefined;
      ask(sim, branch, event, 'drilled-already');
      if (branch.get(work.hole(subject.hole, at)) !== 'size') return undefined;
      const { size, full } = subject.hole;
      if (operation.to !== null && (size === null || operation.to.nominal > size + ALLOWED_MM))
        return undefined;
      if (branch.get(assumed(full, at)) !== true) flag(sim, branch, event, 'drilled-already', full);
      return 'stop';
    },
  }),
};
