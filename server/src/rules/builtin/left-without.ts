import type { Part } from '../../model/model';
import { part as partItems } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import type { Diagram } from '../../variants/diagram';
import type { Builtin, Settings } from './builtin';
import type { Ledger } from './owed';
import { type Debt, newInPlace, owedAtEnd, since, universe } from './owed';

const RULE = 'left-without';

/** A part that the vehicle needs is not thrown away with nothing in its place. The pack says which kinds those are. */
export const leftWithout: Builtin = {
  name: RULE,
  settings: { kinds: 'words' },
  watch: (settings) => owedAtEnd(RULE, ledger(settings)).watch(settings),
};

/** Where none of the parts that replace it is in the box; nowhere, where no part replaces it at all. */
function notReplaced(sim: Simulation, part: Part): Diagram {
  const others = sim.lookups.replacing(part);
  if (others.length === 0) return 0;
  return others.reduce((set: Diagram, other) => sim.state.diagrams.minus(set, other.presence), 1);
}

function ledger(settings: Settings): Ledger {
  const kinds = settings.parameter('kinds');
  const needed = new Set(Array.isArray(kinds) ? kinds.map(String) : []);
  return (sim) => {
    const debts: Debt[] = [];
    for (const part of sim.corners.everyPart) {
      if (part.origin === 'kit') continue;
      // What a kit replaces in some variants only is needed in the others.
      const asked = part.kinds.some((kind) => needed.has(kind)) ? 1 : notReplaced(sim, part);
      for (const at of part.instances) {
        let set = sim.state.where(
          partItems.state(part, at),
          sim.state.diagrams.and(asked, universe(sim, part.presence)),
          (value) => value === 'discarded',
        );
        if (set === 0) continue;
        sim.asks(RULE, null, part.name, at.label, set);
        if (part.origin === 'implied') {
          // Which other name goes in its place, only a kit file says.
          sim.leaveUndecided(RULE, part.name, 'replaces');
          continue;
        }
        set = sim.state.diagrams.minus(set, newInPlace(sim, part, at));
        debts.push(
          ...since(
            sim,
            RULE,
            part.name,
            at.label,
            partItems.state(part, at),
            set,
            (value) => value === 'discarded',
            {
              state: 'discarded',
            },
          ),
        );
      }
    }
    return debts;
  };
}
