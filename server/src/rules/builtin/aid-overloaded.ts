import { partOf } from '../../model/target';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** An aid is not loaded beyond its rating. */
export const aidOverloaded: Builtin = {
  name: 'aid-overloaded',
  watch: () => ({
    verbs: ['raise', 'support'],
    before(sim, branch, event) {
      const mass = partOf(event.subject)?.mass ?? null;
      if (mass === null) return undefined;
      for (const aid of event.operation.aids)
        if (aid.rating !== null) {
          ask(sim, branch, event, 'aid-overloaded', aid.name);
          if (mass > aid.rating)
            flag(sim, branch, event, 'aid-overloaded', aid.name, {
              facts: { mass: `${mass} kg`, rating: `${aid.rating} kg`, part: partOf(event.subject)!.name },
            });
        }
      return undefined;
    },
  }),
};
