import { matching } from '../../model/instances';
import { corner as cornerItems, isOn, part as partItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';
import { toldLoaded } from './spring-loaded';

const RULE = 'spring-needs-room';

/** A spring goes in only where the axle is far enough down, or while it is held compressed. */
export const springNeedsRoom: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['fit'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'part' || subject.part.freeAt === null) return undefined;
      const { part } = subject;
      const { storesEnergy, inflates, adjusted } = part.attributes;
      if (!storesEnergy || inflates || adjusted) return undefined;
      if (branch.get(partItems.compressed(part, at)) === true) return undefined;
      // Into a strut on the bench it goes otherwise.
      const seats = new Map<string, boolean>();
      for (const other of part.joins) {
        if (typeof other === 'string' || !branch.within(other.presence)) continue;
        const there = matching(other.instances, at).some((one) =>
          isOn(branch.get(partItems.state(other, one))),
        );
        const place = other.replaces.find((old) => part.joins.includes(old as never))?.name ?? other.name;
        seats.set(place, there || seats.get(place) === true);
      }
      if ([...seats.values()].includes(false)) return undefined;
      ask(sim, branch, event, RULE);
      const corners = sim.corners.ofOrAll(part, at);
      if (corners.some((corner) => branch.get(toldLoaded(corner)) === true)) return undefined;
      const hangs = corners.map((corner) => branch.get(cornerItems.hang(corner)));
      if (hangs.some((hang) => typeof hang === 'number' && hang >= part.freeAt!)) return undefined;
      const hang = hangs.find((value) => typeof value === 'number');
      flag(sim, branch, event, RULE, part.name, {
        facts: {
          where: hang === undefined ? 'stands at ride height' : `hangs ${hang} mm down`,
          free: `${part.freeAt} mm`,
        },
      });
      return undefined;
    },
  }),
};
