import type { Instance } from '../../model/instances';
import type { Joint, Part } from '../../model/model';
import { partOf } from '../../model/target';
import type { Event } from '../../simulate/event';
import { corner as cornerItems, part as partItems } from '../../simulate/items';
import { allLimitersUndone, standIns } from '../../simulate/limiters';
import type { Simulation } from '../../simulate/simulation';
import { isHeld } from '../../simulate/spots';
import type { Branch, Item } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'support-axle-before-shock-removal';

/** Whatever limits the drop of an axle or arm is not undone, on the last side that holds, while nothing holds what would drop. */
export const supportAxleBeforeShockRemoval: Builtin = {
  name: RULE,
  watch: () => {
    const limited = new WeakMap<Simulation, Map<Part, Limited>>();
    /** The axles and arms that what this event acts on limits. */
    const dropping = (sim: Simulation, { subject, at: there }: Event) => {
      const part = partOf(subject);
      if (part === null) return [];
      const known = limited.get(sim) ?? new Map<Part, Limited>();
      limited.set(sim, known);
      const found = known.get(part) ?? limitedBy(sim, part);
      known.set(part, found);
      return found.flatMap(({ part, limiter }) =>
        part.instances
          .filter(({ side }) => side === '' || there.side === '' || side === there.side)
          .map((at) => ({ part, at, limiter })),
      );
    };
    return {
      verbs: ['remove', 'free', 'swing'],
      before(sim, branch, event) {
        leaveOpen(sim, branch, event);
        for (const { part, at } of dropping(sim, event))
          branch.put(held(part, at), allLimitersUndone(sim, branch, part, at) ? 'gone' : 'holding');
        return undefined;
      },
      after(sim, branch, event) {
        for (const { part, at, limiter } of dropping(sim, event)) {
          const before = branch.get(held(part, at));
          branch.put(held(part, at), '');
          if (before !== 'holding') continue;
          ask(sim, branch, event, RULE, limiter);
          if (!allLimitersUndone(sim, branch, part, at)) continue;
          const corners = sim.corners.of(part, at);
          if (!corners.some((corner) => branch.get(cornerItems.carry(corner)) === 'body')) continue;
          if (isHeld(sim, branch, part, at)) continue;
          flag(sim, branch, event, RULE, limiter, {
            facts: { drops: part.name },
            causes: (set) =>
              corners.flatMap((corner) =>
                sim.state
                  .madeBy(cornerItems.carry(corner), set, (value) => value === 'body')
                  .map(({ run }) => run),
              ),
          });
          branch.put(partItems.assumedHeld(part, at), true);
        }
      },
    };
  },
};

/** Only for the time of one event: whether the limiters still held before its effect. */
const held = (part: Part, at: Instance): Item => ({
  kind: 'limited',
  of: part.name,
  at: at.key,
  initial: '',
});

/** A shock that limits nothing that anyone named: what would drop is not known. */
function leaveOpen(sim: Simulation, branch: Branch, event: Event): void {
  const part = partOf(event.subject);
  if (part === null || !part.attributes.limitsDrop || part.origin === 'kit') return;
  if (
    sim.lookups.limited.some((other) =>
      other.limitedBy.some((chain) => chain.some((it) => ownerOf(it) === part)),
    )
  )
    return;
  if (sim.corners.ofOrAll(part, event.at).some((corner) => branch.get(cornerItems.carry(corner)) === 'body'))
    sim.leaveUndecided(RULE, part.name, 'limited-by');
}

/** Axles and arms, each with the name of what of a part limits it. */
type Limited = readonly { readonly part: Part; readonly limiter: string }[];

/** The axles and arms that a part limits. */
function limitedBy(sim: Simulation, acted: Part): Limited {
  return sim.lookups.limited.flatMap((part) => {
    const limiter = part.limitedBy
      .flat()
      .flatMap((one) => standIns(sim, one))
      .find((stand) => ownerOf(stand) === acted);
    if (limiter === undefined) return [];
    return [{ part, limiter: limiter.type === 'joint' ? limiter.full : limiter.name }];
  });
}

const ownerOf = (limiter: Part | Joint): Part => (limiter.type === 'joint' ? limiter.part : limiter);
