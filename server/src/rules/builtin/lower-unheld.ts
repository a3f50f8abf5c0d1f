import { corner as cornerItems, part as partItems } from '../../simulate/items';
import { isHeld } from '../../simulate/spots';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** An axle is let down on something: not one that hangs with nothing under it. */
export const lowerUnheld: Builtin = {
  name: 'lower-unheld',
  watch: () => ({
    verbs: ['lower'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'part' || !subject.part.attributes.axle) return undefined;
      const corners = sim.corners.of(subject.part, at);
      const hangs =
        corners.length > 0 && corners.every((corner) => branch.get(cornerItems.carry(corner)) === 'body');
      if (hangs) ask(sim, branch, event, 'lower-unheld');
      if (!hangs || isHeld(sim, branch, subject.part, at)) return undefined;
      flag(sim, branch, event, 'lower-unheld', subject.part.name);
      branch.put(partItems.assumedHeld(subject.part, at), true);
      return undefined;
    },
  }),
};
