import { listAids, removeAids, UNNAMED_JACK } from '../../simulate/aids';
import { corner as cornerItems } from '../../simulate/items';
import { axleSpot, bodySpot } from '../../simulate/spots';
import type { Builtin } from './builtin';

const RULE = 'stand-left-under';

/** No jack or stand is left beneath a vehicle that comes down. */
export const standLeftUnder: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: [],
    landed(sim, event, corner, set) {
      const moves = event.verb === 'move';
      // A lift that the vehicle stands on with its wheels is driven off.
      const stays = (name: string) => moves && sim.model.aids.get(name)?.takesWheels === true;
      sim.asks(RULE, event, 'vehicle', '', set);
      for (const { aids } of [bodySpot(corner), axleSpot(corner)]) {
        sim.state.explore(set, event.run, (branch) => {
          // What still carries as the vehicle is moved is told by another rule.
          if (moves && branch.get(cornerItems.carry(corner)) !== 'wheel') return;
          const left = listAids(branch.get(aids)).filter((name) => !stays(name));
          if (left.length === 0) return;
          branch.put(
            aids,
            removeAids(branch.get(aids), (name) => !stays(name)),
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
                facts: { goes: moves ? 'is moved' : 'comes down' },
              });
          });
        });
      }
    },
  }),
};
