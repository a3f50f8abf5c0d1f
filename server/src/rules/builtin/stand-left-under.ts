import { listAids, removeAids, UNNAMED_JACK } from '../../simulate/aids';
import { axleSpot, bodySpot } from '../../simulate/spots';
import type { Builtin } from './builtin';

const RULE = 'stand-left-under';

/** No jack or stand is left beneath a vehicle that comes down. */
export const standLeftUnder: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: [],
    landed(sim, event, corner, set) {
      if (event.verb !== 'lower') return;
      for (const { aids } of [bodySpot(corner), axleSpot(corner)]) {
        sim.state.explore(set, event.run, (branch) => {
          const left = listAids(branch.get(aids));
          if (left.length === 0) return;
          branch.put(
            aids,
            removeAids(branch.get(aids), () => true),
          );
          branch.whenDone((final) => {
            for (const aid of left.filter((name) => name !== UNNAMED_JACK.name))
              sim.report({
                rule: RULE,
                operation: event.operation.path,
                item: aid,
                side: '',
                set: final,
                event,
                causes: sim.state
                  .madeBy(aids, final, (value) => listAids(value).includes(aid))
                  .map(({ run }) => run),
                facts: {},
              });
          });
        });
      }
    },
  }),
};
