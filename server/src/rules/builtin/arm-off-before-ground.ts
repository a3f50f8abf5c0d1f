import { assumed, part as partItems } from '../../simulate/items';
import { isReplaced } from '../../simulate/replaced';
import type { Builtin } from './builtin';

const RULE = 'arm-off-before-ground';

/** A vehicle does not come down on a wheel whose arm lies on the floor, with nothing in its place. */
export const armOffBeforeGround: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: [],
    landed(sim, event, corner, set) {
      for (const { part, at } of sim.corners.runningGear(corner)) {
        if (!part.attributes.arm || part.attributes.hub || part.origin === 'kit') continue;
        const there = sim.state.diagrams.and(set, part.presence);
        if (there === 0) continue;
        sim.asks(RULE, event, part.name, at.label, there);
        sim.state.explore(there, event.run, (branch) => {
          const state = branch.get(partItems.state(part, at));
          if (state !== 'off' && state !== 'discarded') return;
          if (isReplaced(sim, branch, part, at) || branch.get(assumed(`${part.name} on`, at)) === true)
            return;
          branch.put(assumed(`${part.name} on`, at), true);
          branch.whenDone((final) => {
            const made = sim.state.madeBy(partItems.state(part, at), final, (value) => value === state);
            sim.report({
              rule: RULE,
              operation: event.operation.path,
              item: part.name,
              side: at.label,
              set: final,
              event,
              causes: made.map(({ run }) => run),
              facts: {},
            });
          });
        });
      }
    },
  }),
};
