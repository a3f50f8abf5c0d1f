import { assumed, end as endItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** An end that holds by itself (a taper, a press fit) is freed before the part comes off. */
export const freeEndFirst: Builtin = {
  name: 'free-end-first',
  watch: () => ({
    verbs: ['remove'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'part') return undefined;
      for (const end of subject.part.ends.values()) {
        ask(sim, branch, event, 'free-end-first', end.full);
        if (branch.get(endItems.freed(end, at)) === true) continue;
        flag(sim, branch, event, 'free-end-first', end.full);
        branch.put(endItems.freed(end, at), true);
        branch.put(assumed(end.full, at), true);
      }
      return undefined;
    },
  }),
};
