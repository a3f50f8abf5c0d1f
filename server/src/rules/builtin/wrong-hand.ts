import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** A handed piece goes on its own side. */
export const wrongHand: Builtin = {
  name: 'wrong-hand',
  watch: () => ({
    verbs: ['fit', 'bolt-up'],
    before(sim, branch, event) {
      const { subject, at, operation } = event;
      if (subject.type !== 'part' || event.within !== null || !subject.part.handed) return undefined;
      ask(sim, branch, event, 'wrong-hand');
      if (operation.article !== '' && at.side !== '' && operation.article !== at.side)
        flag(sim, branch, event, 'wrong-hand', subject.part.name, {
          facts: { article: operation.article, side: at.side },
        });
      return undefined;
    },
  }),
};
