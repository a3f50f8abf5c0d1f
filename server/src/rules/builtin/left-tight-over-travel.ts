import { corner as cornerItems, joint as jointItems, part as partItems } from '../../simulate/items';
import type { Item } from '../../simulate/state';
import type { Builtin } from './builtin';

const RULE = 'left-tight-over-travel';
const TOLD = `told:${RULE}`;
/** How far a tight bonded bush may be turned by its axle, in mm of travel (common practice). */
const OVER_MM = 50;
const told = (name: string): Item => ({ kind: TOLD, of: name, at: '', initial: false });

/** No bonded bush is left tight while its axle goes far below where it hangs. */
export const leftTightOverTravel: Builtin = {
  name: RULE,
  settings: { 'over-mm': 'number' },
  watch: (settings) => ({
    verbs: [],
    sank(sim, event, corner, set) {
      const over = Number(settings.parameter('over-mm') ?? OVER_MM);
      for (const part of sim.corners.everyPart) {
        if (part.joins.length < 2) continue;
        for (const at of part.instances) {
          if (!sim.corners.of(part, at).includes(corner)) continue;
          if (sim.isCounted && [...part.joints.values()].some(({ bushed }) => bushed))
            sim.asks(RULE, event, part.name, at.label, sim.state.diagrams.and(set, part.presence));
          sim.state.explore(sim.state.diagrams.and(set, part.presence), event.run, (branch) => {
            const hang = branch.get(cornerItems.hang(corner));
            if (typeof hang !== 'number' || hang <= over) return;
            if (branch.get(partItems.state(part, at)) !== 'fitted') return;
            const key = `${part.name}${at.key}`;
            if (branch.get(told(key)) === true) return;
            let bushed: string | null = null;
            for (const joint of part.joints.values()) {
              if (!branch.within(joint.presence)) continue;
              const position = branch.get(jointItems.position(joint, at));
              if (position === 'out') return;
              if (bushed === null && joint.bushed && (position === 'tight' || position === 'final'))
                bushed = joint.full;
            }
            if (bushed === null) return;
            branch.put(told(key), true);
            const joint = bushed;
            branch.whenDone((final) =>
              sim.report({
                rule: RULE,
                operation: event.operation.path,
                item: part.name,
                side: at.label,
                set: final,
                event,
                causes: [],
                facts: { joint, hang: `${hang} mm` },
              }),
            );
          });
        }
      }
    },
  }),
};
