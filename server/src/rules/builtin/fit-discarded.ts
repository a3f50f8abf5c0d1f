import { assumePart } from '../../simulate/effects-parts';
import { part as partItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** What was scrapped does not come back. */
export const fitDiscarded: Builtin = {
  name: 'fit-discarded',
  watch: () => ({
    verbs: ['fit', 'bolt-up'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'part' || event.within !== null) return undefined;
      ask(sim, branch, event, 'fit-discarded');
      const state = partItems.state(subject.part, at);
      if (branch.get(state) !== 'discarded') return undefined;
      flag(sim, branch, event, 'fit-discarded', subject.part.name, {
        causes: (set) => sim.state.madeBy(state, set, (value) => value === 'discarded').map(({ run }) => run),
      });
      assumePart(branch, subject.part, at, 'off');
      return undefined;
    },
  }),
};
