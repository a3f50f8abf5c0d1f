import { part as partItems } from '../../simulate/items';
import { isHeld } from '../../simulate/spots';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';
import { EACH_OF_SEVERAL_KG, handsWanted } from './handling';

const RULE = 'heavy-part-lifted';

/** A part that is too heavy for those who put it up is carried by an aid. */
export const heavyPartLifted: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['fit'],
    before(sim, branch, event) {
      const { subject, at, operation, step } = event;
      if (subject.type !== 'part' || subject.part.attributes.wheel || subject.part.attributes.axle)
        return undefined;
      const { part } = subject;
      // What was only swung aside hangs on its pivot.
      if (branch.get(partItems.state(part, at)) === 'swung') return undefined;
      ask(sim, branch, event, RULE);
      if (operation.aids.some((aid) => aid.carries || !aid.known)) return undefined;
      if (isHeld(sim, branch, part, at)) return undefined;
      if (part.mass === null) {
        sim.leaveUndecided(RULE, part.name, 'mass');
        return undefined;
      }
      if (part.mass <= step.people * EACH_OF_SEVERAL_KG) return undefined;
      flag(sim, branch, event, RULE, part.name, {
        facts: {
          mass: `${part.mass} kg`,
          hands: handsWanted(part.mass),
          people: step.people === 1 ? 'one person' : `${step.people} people`,
        },
      });
      branch.put(partItems.assumedHeld(part, at), true);
      return undefined;
    },
  }),
};
