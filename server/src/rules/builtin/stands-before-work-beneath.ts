import { partOf } from '../../model/target';
import { corner as cornerItems, part as partItems } from '../../simulate/items';
import { mayWorkUnder } from '../../simulate/support';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'stands-before-work-beneath';
const NOT_BENEATH = new Set([
  'raise',
  'lower',
  'support',
  'unsupport',
  'discard',
  'transfer',
  'wait',
  'record',
]);
const AWAY = new Set<unknown>(['off', 'boxed', 'discarded']);
const BRINGS = new Set(['fit', 'bolt-up', 'offer']);

/** Nobody works beneath what stands on a jack alone. */
export const standsBeforeWorkBeneath: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['*'],
    before(sim, branch, event) {
      const part = partOf(event.subject);
      if (part === null || NOT_BENEATH.has(event.verb)) return undefined;
      if (part.attributes.wheel || part.attributes.reach === 'outside') return undefined;
      const { at } = event;
      const state = branch.get(partItems.state(part, at));
      const away = AWAY.has(state) || String(state).startsWith('with:');
      if (away && !BRINGS.has(event.verb) && event.within === null) return undefined;
      const bare = sim.corners.ofOrAll(part, at).filter((corner) => {
        if (branch.get(cornerItems.carry(corner)) === 'wheel') return false;
        ask(sim, branch, event, RULE, part.name);
        if (branch.get(cornerItems.assumedBlocked(corner)) === true) return false;
        const may = mayWorkUnder(sim, branch, corner);
        if (may === 'unknown') sim.leaveUndecided(RULE, part.name, 'with');
        return may === 'no';
      });
      if (bare.length === 0) return undefined;
      flag(sim, branch, event, RULE, part.name, {
        causes: (set) =>
          bare.flatMap((corner) =>
            sim.state
              .madeBy(cornerItems.carry(corner), set, (value) => value !== 'wheel')
              .map(({ run }) => run),
          ),
      });
      for (const corner of bare) branch.put(cornerItems.assumedBlocked(corner), true);
      return undefined;
    },
  }),
};
