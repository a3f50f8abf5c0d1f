import { nameOf } from '../../simulate/event';
import { named } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** What is set back to a recorded value was recorded. */
export const recordedFirst: Builtin = {
  name: 'recorded-first',
  watch: () => ({
    verbs: ['set', 'adjust'],
    before(sim, branch, event) {
      if (event.operation.words.get('to') !== 'recorded') return undefined;
      const name = nameOf(event.subject);
      ask(sim, branch, event, 'recorded-first', name);
      if (branch.get(named.recorded(name, event.at)) === true) return undefined;
      flag(sim, branch, event, 'recorded-first', name);
      branch.put(named.recorded(name, event.at), true);
      return undefined;
    },
  }),
};
