import { joint as jointItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** `new-locking-nut`, `new-seal` and `new-stretch-bolt`: what is used up once undone is new when the joint gets its final torque. */
function freshAtTorque(name: string, concerns: (piece: string) => boolean): Builtin {
  return {
    name,
    watch: () => ({
      verbs: ['torque'],
      before(sim, branch, event) {
        const { subject, at } = event;
        if (subject.type !== 'joint' || event.within !== null) return undefined;
        const { joint } = subject;
        const position = branch.get(jointItems.position(joint, at));
        if (position === 'tight' && branch.get(jointItems.touched(joint, at)) !== true) return undefined;
        for (const piece of joint.singleUse.keys()) {
          if (!concerns(piece)) continue;
          ask(sim, branch, event, name);
          if (branch.get(jointItems.spent(joint, piece, at)) !== true) continue;
          flag(sim, branch, event, name, joint.full, {
            facts: { piece },
            causes: (set) =>
              sim.state
                .madeBy(jointItems.spent(joint, piece, at), set, (value) => value === true)
                .map(({ run }) => run),
          });
          branch.put(jointItems.spent(joint, piece, at), false);
        }
        return undefined;
      },
    }),
  };
}

export const newLockingNut = freshAtTorque('new-locking-nut', (piece) => piece === 'nut');
export const newStretchBolt = freshAtTorque('new-stretch-bolt', (piece) => piece === 'bolt');
export const newSeal = freshAtTorque('new-seal', (piece) => !['nut', 'bolt', 'pin'].includes(piece));
