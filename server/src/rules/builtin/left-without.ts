import { matching } from '../../model/instances';
import { isOn, part as partItems } from '../../simulate/items';
import type { Builtin, Settings } from './builtin';
import type { Ledger } from './owed';
import { type Debt, owedAtEnd, since, universe } from './owed';

const RULE = 'left-without';

/** A part that the vehicle needs is not thrown away with nothing in its place. The pack says which kinds those are. */
export const leftWithout: Builtin = {
  name: RULE,
  watch: (settings) => owedAtEnd(RULE, ledger(settings)).watch(settings),
};

function ledger(settings: Settings): Ledger {
  const kinds = settings.parameter('kinds');
  const needed = new Set(Array.isArray(kinds) ? kinds.map(String) : []);
  return (sim) => {
    const debts: Debt[] = [];
    for (const part of sim.corners.everyPart) {
      if (part.origin === 'kit' || !part.kinds.some((kind) => needed.has(kind))) continue;
      for (const at of part.instances) {
        let set = sim.state.where(
          partItems.state(part, at),
          universe(sim, part.presence),
          (value) => value === 'discarded',
        );
        if (set === 0) continue;
        if (part.origin === 'implied') {
          // Which other name goes in its place, only a kit file says.
          sim.leaveUndecided(RULE, part.name, 'replaces');
          continue;
        }
        for (const other of sim.corners.everyPart)
          if (other.replaces.includes(part))
            for (const otherAt of matching(other.instances, at)) {
              const there = sim.state.diagrams.and(set, other.presence);
              const on = sim.state.where(partItems.state(other, otherAt), there, isOn);
              set = sim.state.diagrams.minus(set, on);
            }
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
