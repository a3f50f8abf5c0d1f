import { part as partItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import { SAME_SIZE } from '../../units/tyre';
import type { Builtin } from './builtin';

const RULE = 'tyre-too-large';

/** A wheel of a kit has no larger tyre than the kits' clearances have for the variant. */
export const tyreTooLarge: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['fit'],
    before(sim, branch, event) {
      const { subject, at, step } = event;
      // What is given is not this guide's work.
      if (subject.type !== 'part' || step.path === '0') return undefined;
      const { part } = subject;
      if (part.tyre === null || part.origin !== 'kit' || sim.model.clearances.length === 0) return undefined;
      const state = branch.get(partItems.state(part, at));
      if (state !== 'boxed' && state !== 'offered') return undefined;
      ask(sim, branch, event, RULE);
      const rows = [...sim.model.clearances].sort((a, b) => b.value.diameter - a.value.diameter);
      const most = rows.find(({ set }) => branch.within(set))?.value;
      if (most === undefined || part.tyre.diameter <= most.diameter * (1 + SAME_SIZE)) return undefined;
      flag(sim, branch, event, RULE, part.name, {
        facts: {
          tyre: part.tyre.name,
          most: most.name,
          more: `${Math.round(part.tyre.diameter - most.diameter)} mm`,
        },
      });
      return undefined;
    },
  }),
};
