import { part as partItems } from '../../simulate/items';
import { flag } from '../../simulate/watcher';
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
      if (state !== 'fitted' && state !== 'off') return undefined;
      if (branch.get(partItems.compressed(part, at)) === true) return undefined;
      flag(sim, branch, event, 'compress-before-top-nut', subject.joint.full);
      branch.put(partItems.compressed(part, at), true);
      return undefined;
    },
  }),
};
