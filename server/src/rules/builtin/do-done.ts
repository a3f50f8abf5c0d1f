import type { Instance } from '../../model/instances';
import type { Part } from '../../model/model';
import { endsOf } from '../../simulate/effects-rest';
import { nameOf } from '../../simulate/event';
import {
  assumed,
  end as endItems,
  isSeated,
  joint as jointItems,
  line as lineItems,
  part as partItems,
} from '../../simulate/items';
import type { Branch } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'do-done';

/** Nothing is done that is done already. */
export const doDone: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['fit', 'bolt-up', 'offer', 'start', 'connect', 'seat'],
    before(sim, branch, event) {
      const { subject, at, verb } = event;
      if (event.within !== null) return undefined;
      if (verb === 'bolt-up' && subject.type === 'part' && !isBolted(branch, subject.part, at))
        return undefined;
      if (subject.type !== 'words') ask(sim, branch, event, RULE);
      let done = false;
      if (subject.type === 'joint' && verb === 'start') {
        const position = branch.get(jointItems.position(subject.joint, at));
        done = position === 'started' || position === 'snug' || position === 'final';
      } else if (subject.type === 'part') {
        done = isSeated(branch.get(partItems.state(subject.part, at)));
      } else if (subject.type === 'end') done = branch.get(endItems.freed(subject.end, at)) === false;
      else if (subject.type === 'line' && verb === 'connect') {
        const { line, end } = subject;
        const ends = end === null ? endsOf(line) : [end];
        done = ends.every((name) => branch.get(lineItems.connected(line, name, at)) === true);
      }
      if (!done) return undefined;
      const thing = subject.type === 'line' ? subject.line.name : nameOf(subject);
      if (branch.get(assumed(thing, at)) === true) return 'stop';
      if (verb === 'bolt-up' && subject.type === 'part')
        for (const joint of subject.part.joints.values())
          if (branch.within(joint.presence) && branch.get(assumed(joint.full, at)) === true) return 'stop';
      flag(sim, branch, event, RULE, nameOf(subject));
      return 'stop';
    },
  }),
};

/** Whether a part has joints and none of them is out: then bolting it up is no work. */
function isBolted(branch: Branch, part: Part, at: Instance): boolean {
  const joints = [...part.joints.values()].filter((joint) => branch.within(joint.presence));
  return joints.length > 0 && joints.every((joint) => branch.get(jointItems.position(joint, at)) !== 'out');
}
