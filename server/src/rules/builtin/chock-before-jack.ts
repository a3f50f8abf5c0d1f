import { nameOf } from '../../simulate/event';
import { corner as cornerItems } from '../../simulate/items';
import { onGround, spotsOf } from '../../simulate/spots';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** Wheels that stay on the ground are chocked before a jack raises one end. */
export const chockBeforeJack: Builtin = {
  name: 'chock-before-jack',
  watch: () => ({
    verbs: ['raise'],
    before(sim, branch, event) {
      const { operation } = event;
      if (!operation.aids.some((aid) => aid.jack)) return undefined;
      const raised = new Set(
        spotsOf(sim, event.subject, event.at, operation, event.pass).flatMap((spot) =>
          spot.level === 'part' ? [] : [spot.corner],
        ),
      );
      if (![...raised].some((corner) => onGround(sim, branch, corner))) return undefined;
      const staying = sim.corners.all.filter(
        (corner) => !raised.has(corner) && onGround(sim, branch, corner),
      );
      if (staying.length === 0) return undefined;
      ask(sim, branch, event, 'chock-before-jack');
      if (staying.some((corner) => branch.get(cornerItems.chocked(corner)) === true)) return undefined;
      flag(sim, branch, event, 'chock-before-jack', nameOf(event.subject));
      for (const corner of staying) branch.put(cornerItems.chocked(corner), true);
      return undefined;
    },
  }),
};
