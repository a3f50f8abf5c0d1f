import { named } from '../../simulate/items';
import type { Builtin } from './builtin';

const RULE = 'found-without-measure';

/** A branch on what was found asks that it was measured. */
export const foundWithoutMeasure: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['*'],
    before(sim, branch, event) {
      for (const { name, place } of event.operation.foundNames) {
        if (branch.get(named.measured(name)) === true) continue;
        branch.put(named.measured(name), true);
        branch.whenDone((set) =>
          sim.report({
            rule: RULE,
            operation: event.operation.path,
            item: name,
            side: '',
            set,
            event,
            causes: [],
            facts: {},
            place,
          }),
        );
      }
      return undefined;
    },
  }),
};
