import { named } from '../../simulate/items';
import { ask } from '../../simulate/watcher';
import type { Diagram } from '../../variants/diagram';
import type { Builtin } from './builtin';

const RULE = 'found-without-measure';

/** A branch on what was found asks that it was measured. */
export const foundWithoutMeasure: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['*'],
    before(sim, branch, event) {
      for (const { name, place, onStep } of event.operation.foundNames) {
        ask(sim, branch, event, RULE, name, '');
        if (branch.get(named.measured(name)) === true) continue;
        branch.put(named.measured(name), true);
        // Whether it is found or not, nobody looked.
        const variable = sim.model.world.indexOf(`found:${name}`);
        const either = (set: Diagram) =>
          variable === undefined ? set : sim.state.diagrams.forget(set, sim.model.world.levelAt(variable));
        branch.whenDone((set) =>
          sim.report({
            rule: RULE,
            operation: onStep ? event.step.path : event.operation.path,
            item: name,
            side: '',
            set: either(set),
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
