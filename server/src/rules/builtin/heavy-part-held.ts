import { end as endItems, isOn, joint as jointItems, part as partItems } from '../../simulate/items';
import { isHeld } from '../../simulate/spots';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';
import { BY_HAND_KG, handsWanted, liftedByHand } from './handling';
import { tiesOf } from './still-joined';

const RULE = 'heavy-part-held';
/** Kinds that clamp another part in place when its own bolts are out. */
const CLAMPS = new Set(['u-bolt', 'clamp', 'strap']);

/** A part too heavy for the hand is held when its last joint goes. */
export const heavyPartHeld: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['remove'],
    before(sim, branch, event) {
      const { subject, at } = event;
      const part =
        subject.type === 'joint' ? subject.joint.part : subject.type === 'part' ? subject.part : null;
      if (part === null || part.attributes.wheel || part.attributes.axle) return undefined;
      if (subject.type === 'part' && part.joints.size > 0) return undefined;
      if (!isOn(branch.get(partItems.state(part, at)))) return undefined;
      for (const end of part.ends.values())
        if (branch.get(endItems.freed(end, at)) !== true) return undefined;
      if (subject.type === 'joint') {
        if (branch.get(jointItems.position(subject.joint, at)) === 'out') return undefined;
        for (const joint of part.joints.values())
          if (joint !== subject.joint && branch.within(joint.presence))
            if (branch.get(jointItems.position(joint, at)) !== 'out') return undefined;
      }
      ask(sim, branch, event, RULE, part.name);
      if (isHeld(sim, branch, part, at) || liftedByHand(part, event)) return undefined;
      if (tiesOf(sim, branch, part, at).some((tie) => tie.kinds.some((kind) => CLAMPS.has(kind))))
        return undefined;
      if (part.mass === null) {
        sim.leaveUndecided(RULE, part.name, 'mass');
        return undefined;
      }
      if (part.mass <= BY_HAND_KG) return undefined;
      flag(sim, branch, event, RULE, part.name, {
        facts: { mass: `${part.mass} kg`, hands: handsWanted(part.mass) },
      });
      branch.put(partItems.assumedHeld(part, at), true);
      return undefined;
    },
  }),
};
