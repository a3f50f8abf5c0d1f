import { endsOf } from '../../simulate/effects-rest';
import { nameOf } from '../../simulate/event';
import {
  end as endItems,
  joint as jointItems,
  line as lineItems,
  part as partItems,
} from '../../simulate/items';
import { flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'do-done';

/** Nothing is done that is done already. */
export const doDone: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['fit', 'start', 'connect', 'seat'],
    before(sim, branch, event) {
      const { subject, at, verb } = event;
      if (event.within !== null) return undefined;
      let done = false;
      if (subject.type === 'joint' && verb === 'start') {
        const position = branch.get(jointItems.position(subject.joint, at));
        done = position === 'started' || position === 'snug' || position === 'final';
      } else if (subject.type === 'part' && verb === 'fit') {
        done = branch.get(partItems.state(subject.part, at)) === 'fitted';
      } else if (subject.type === 'end') done = branch.get(endItems.freed(subject.end, at)) === false;
      else if (subject.type === 'line' && verb === 'connect') {
        const { line, end } = subject;
        const ends = end === null ? endsOf(line) : [end];
        done = ends.every((name) => branch.get(lineItems.connected(line, name, at)) === true);
      }
      if (!done) return undefined;
      flag(sim, branch, event, RULE, nameOf(subject));
      return 'stop';
    },
  }),
};
