import type { Hardware, Part } from '../../model/model';
import { part as partItems } from '../../simulate/items';
import type { Item } from '../../simulate/state';
import { flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'more-than-in-box';
const taken = (name: string): Item => ({ key: `taken:${name}`, initial: 0 });
const told = (name: string): Item => ({ key: `told:${RULE}:${name}`, initial: false });

/** No more is used than the kit holds. */
export const moreThanInBox: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['fit', 'bolt-up', 'start', 'snug', 'torque'],
    before(sim, branch, event) {
      const { subject, at, operation } = event;
      const use = (name: string, count: number, quantity: number) => {
        const sum = Number(branch.get(taken(name))) + count;
        branch.put(taken(name), sum);
        if (sum <= quantity || branch.get(told(name)) === true) return;
        branch.put(told(name), true);
        flag(sim, branch, event, RULE, name, { facts: { quantity: String(quantity), needed: String(sum) } });
      };
      if (subject.type === 'part' && subject.part.origin === 'kit') {
        if (event.verb !== 'fit' && event.verb !== 'bolt-up') return undefined;
        const { part }: { part: Part } = subject;
        const state = branch.get(partItems.state(part, at));
        const counted = event.verb === 'fit' || event.within !== null;
        if (counted && (state === 'boxed' || state === 'offered')) use(part.name, 1, part.quantity);
      }
      if (subject.type === 'joint' && event.within === null)
        for (const piece of operation.newPieces)
          for (const item of hardwareFor(sim.model.hardware, subject.joint.full, piece))
            if (item.quantity !== null) use(item.name, subject.joint.bolts, item.quantity);
      return undefined;
    },
  }),
};

function hardwareFor(hardware: readonly Hardware[], joint: string, piece: string): readonly Hardware[] {
  return hardware.filter((item) =>
    item.serves.some(
      (served) => served.joint.full === joint && (served.piece === null || served.piece === piece),
    ),
  );
}
