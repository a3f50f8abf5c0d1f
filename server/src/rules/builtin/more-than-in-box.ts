import type { Instance } from '../../model/instances';
import type { Hardware, Joint, Part } from '../../model/model';
import type { Event } from '../../simulate/event';
import { part as partItems } from '../../simulate/items';
import type { Item } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'more-than-in-box';
const TOLD = `told:${RULE}`;
/** How many pieces of a kind of hardware were used up. */
const usedUp = (name: string): Item => ({ kind: 'hardware', of: name, at: '', initial: 0 });
const supplied = (joint: string, piece: string, at: Instance): Item => ({
  kind: 'supplied',
  of: `${joint}.${piece}`,
  at: at.key,
  initial: false,
});
const told = (name: string): Item => ({ kind: TOLD, of: name, at: '', initial: false });

/** No more is used than the kit holds. */
export const moreThanInBox: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['fit', 'bolt-up', 'remove', 'start', 'snug', 'torque'],
    before(sim, branch, event) {
      const { subject, at, operation } = event;
      const use = (name: string, sum: number, quantity: number, side: string) => {
        ask(sim, branch, event, RULE, name, side);
        if (sum <= quantity || branch.get(told(name)) === true) return;
        branch.put(told(name), true);
        flag(sim, branch, event, RULE, name, {
          side,
          facts: { quantity: String(quantity), needed: String(sum) },
        });
      };
      if (subject.type === 'part' && subject.part.origin === 'kit') {
        const { part }: { part: Part } = subject;
        const state = branch.get(partItems.state(part, at));
        const counted = event.verb === 'fit';
        if (counted && (state === 'boxed' || state === 'offered'))
          use(part.name, Number(branch.get(partItems.taken(part))) + 1, part.quantity, at.label);
      }
      if (subject.type === 'joint' && event.verb === 'remove')
        for (const item of sim.model.hardware)
          for (const { joint, piece } of item.serves)
            if (joint === subject.joint)
              for (const name of piece === null ? ['nut', 'bolt', 'pin', ...joint.stack] : [piece])
                branch.put(supplied(joint.full, name, at), false);
      for (const joint of event.within === null ? supplies(event) : [])
        for (const piece of operation.newPieces) {
          if (!branch.within(joint.presence)) continue;
          // A piece that was named at `start` and again at `torque` is one piece.
          if (branch.get(supplied(joint.full, piece, at)) === true) continue;
          branch.put(supplied(joint.full, piece, at), true);
          for (const item of hardwareFor(sim.model.hardware, joint.full, piece)) {
            const sum = Number(branch.get(usedUp(item.name))) + joint.bolts;
            branch.put(usedUp(item.name), sum);
            if (item.quantity !== null) use(item.name, sum, item.quantity, '');
          }
        }
      return undefined;
    },
  }),
};

/** The joints that an operation brings pieces to by `new:`. */
function supplies({ subject, verb }: Event): readonly Joint[] {
  if (subject.type === 'joint') return [subject.joint];
  const whole = subject.type === 'part' && (verb === 'fit' || verb === 'bolt-up');
  return whole ? [...subject.part.joints.values()] : [];
}

function hardwareFor(hardware: readonly Hardware[], joint: string, piece: string): readonly Hardware[] {
  return hardware.filter((item) =>
    item.serves.some(
      (served) => served.joint.full === joint && (served.piece === null || served.piece === piece),
    ),
  );
}
