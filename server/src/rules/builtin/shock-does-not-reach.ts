import type { Part } from '../../model/model';
import { corner as cornerItems } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'shock-does-not-reach';
/** How far below where its axle hangs a shock still reaches where no file says, in mm: the vehicle's own, and one from a kit (common practice). */
const OWN_MM = 5;
const KIT_MM = 100;

/** What limits an axle's drop is no longer than that: it is bolted up with the axle raised to it. */
export const shockDoesNotReach: Builtin = {
  name: RULE,
  settings: { kinds: 'words', 'own-mm': 'number', 'kit-mm': 'number' },
  watch: (settings) => {
    const usual = (kit: boolean) =>
      Number((kit ? settings.parameter('kit-mm') : settings.parameter('own-mm')) ?? (kit ? KIT_MM : OWN_MM));
    return {
      verbs: ['bolt-up'],
      before(sim, branch, event) {
        const { subject, at } = event;
        if (subject.type !== 'part') return undefined;
        const { part } = subject;
        const kinds = settings.parameter('kinds');
        if (!Array.isArray(kinds) || !part.kinds.some((kind) => kinds.includes(kind))) return undefined;
        if (!limits(sim, part)) return undefined;
        ask(sim, branch, event, RULE);
        const reach = saidOf(part) ?? usual(part.replaces.length > 0);
        for (const corner of sim.corners.of(part, at)) {
          if (branch.get(cornerItems.carry(corner)) !== 'body') continue;
          const hang = branch.get(cornerItems.hang(corner));
          if (typeof hang !== 'number' || hang <= reach) continue;
          flag(sim, branch, event, RULE, part.name, { facts: { hang: `${hang} mm` } });
          return undefined;
        }
        return undefined;
      },
    };
  },
};

/** How far a file says that it lets its axle go; what it took over from the shorter one in whose place it comes says nothing of it. */
const saidOf = (part: Part): number | null =>
  part.replaces.some((old) => old.type === 'part' && old.drop === part.drop) ? null : part.drop;

/** Whether it, or what it replaces, keeps something from dropping. */
function limits(sim: Simulation, part: Part): boolean {
  return sim.lookups.limited.some(({ limitedBy }) =>
    limitedBy.some((chain) =>
      chain.some((limiter) => {
        const one = limiter.type === 'joint' ? limiter.part : limiter;
        return one === part || part.replaces.includes(one);
      }),
    ),
  );
}
