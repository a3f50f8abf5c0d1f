import type { Corner } from '../../simulate/corners';
import { corner as cornerItems, isOn, part as partItems } from '../../simulate/items';
import type { Item } from '../../simulate/state';
import { flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'spring-loaded';
/** It was told of a spring there: that the next one has no room either is no news. */
export const toldLoaded = ({ key }: Corner): Item => ({
  kind: `told:${RULE}`,
  of: key,
  at: '',
  initial: false,
});

/** A spring comes out only when it is free, held compressed, unloaded or empty. */
export const springLoaded: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['remove'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'part' || !subject.part.attributes.storesEnergy) return undefined;
      const { part } = subject;
      const state = branch.get(partItems.state(part, at));
      const benched = String(state).startsWith('with:');
      if (!isOn(state) && !benched) return undefined;
      if (branch.get(partItems.compressed(part, at)) === true) return undefined;
      if (branch.get(partItems.unloaded(part, at)) === true) return undefined;
      if (branch.get(partItems.pressure(part, at)) === 'empty') return undefined;
      const corners = sim.corners.ofOrAll(part, at);
      // However far it hangs, the air is in it.
      const free = (hang: unknown) =>
        !benched &&
        !part.attributes.inflates &&
        typeof hang === 'number' &&
        (part.freeAt === null ? hang > 0 : hang >= part.freeAt);
      if (corners.every((corner) => free(branch.get(cornerItems.hang(corner))))) return undefined;
      const hang = corners
        .map((corner) => branch.get(cornerItems.hang(corner)))
        .find((value) => !free(value));
      for (const corner of corners) branch.put(toldLoaded(corner), true);
      flag(sim, branch, event, RULE, part.name, {
        facts: {
          hang: typeof hang === 'number' ? `${hang} mm` : '',
          free: part.freeAt === null ? '' : `${part.freeAt} mm`,
        },
      });
      return undefined;
    },
  }),
};
