import type { Aid } from '../../model/model';
import { partOf } from '../../model/target';
import type { Event } from '../../simulate/event';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** An aid is used for what it can do. */
export const aidCannot: Builtin = {
  name: 'aid-cannot',
  watch: () => ({
    verbs: ['raise', 'support', 'lower', 'hold', 'compress'],
    before(sim, branch, event) {
      const { operation, verb } = event;
      const asked = verb === 'lower' ? operation.onto.aids : operation.aids;
      for (const aid of asked)
        if (aid.known) {
          ask(sim, branch, event, 'aid-cannot', aid.name);
          if (!can(aid, event))
            flag(sim, branch, event, 'aid-cannot', aid.name, {
              facts: { task: verb === 'lower' ? 'carry' : verb },
            });
        }
      return undefined;
    },
  }),
};

function can(aid: Aid, event: Event): boolean {
  switch (event.verb) {
    case 'raise':
      return aid.raises;
    case 'compress':
      return aid.compresses;
    case 'hold':
      return aid.holds || aid.carries;
    default: {
      const part = partOf(event.subject);
      const plain = part !== null && !part.attributes.axle && !part.attributes.wheel;
      return aid.carries || (plain && aid.holds);
    }
  }
}
