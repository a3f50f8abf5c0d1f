import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** Air goes only into what a file says is filled with air, or has a pressure. */
export const holdsNoAir: Builtin = {
  name: 'holds-no-air',
  watch: () => ({
    verbs: ['inflate', 'deflate'],
    before(sim, branch, event) {
      const { subject } = event;
      if (subject.type !== 'part') return undefined;
      const { name, declared, kind, pressure, attributes } = subject.part;
      if (declared === null || kind === null) return undefined;
      ask(sim, branch, event, 'holds-no-air');
      if (pressure !== null) return undefined;
      if (!attributes.inflates && !attributes.wheel) flag(sim, branch, event, 'holds-no-air', name);
      return undefined;
    },
  }),
};
