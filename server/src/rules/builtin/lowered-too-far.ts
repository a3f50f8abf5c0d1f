import { corner as cornerItems } from '../../simulate/items';
import type { Builtin } from './builtin';

const RULE = 'lowered-too-far';
/** What a tape measure under a vehicle may be out by, in mm (common practice). */
const ALLOWED_MM = 5;

/** An axle is not let down farther than it goes. */
export const loweredTooFar: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: [],
    sank(sim, event, corner, set) {
      const { axle } = corner.group;
      const drop = axle?.drop ?? null;
      if (axle === null || drop === null) return;
      sim.asks(RULE, event, axle.name, corner.group.at.label, set);
      sim.state.explore(set, event.run, (branch) => {
        const hang = branch.get(cornerItems.hang(corner));
        if (typeof hang !== 'number' || hang <= drop + ALLOWED_MM) return;
        branch.put(cornerItems.hang(corner), drop);
        branch.whenDone((final) =>
          sim.report({
            rule: RULE,
            operation: event.operation.path,
            item: axle.name,
            side: corner.group.at.label,
            set: final,
            event,
            causes: [],
            facts: { hang: `${hang} mm`, drop: `${drop} mm` },
          }),
        );
      });
    },
  }),
};
