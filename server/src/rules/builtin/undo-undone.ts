import { endsOf } from '../../simulate/effects-rest';
import { nameOf } from '../../simulate/event';
import {
  assumed,
  end as endItems,
  joint as jointItems,
  line as lineItems,
  part as partItems,
} from '../../simulate/items';
import { flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'undo-undone';
const GONE = new Set<unknown>(['off', 'discarded', 'boxed', 'offered']);

/** Nothing is undone twice. */
export const undoUndone: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['remove', 'loosen', 'unbolt', 'swing', 'disconnect', 'free'],
    before(sim, branch, event) {
      const { subject, at, verb } = event;
      if (event.within !== null) return undefined;
      let undone = false;
      if (subject.type === 'joint') undone = branch.get(jointItems.position(subject.joint, at)) === 'out';
      else if (subject.type === 'part') undone = GONE.has(branch.get(partItems.state(subject.part, at)));
      else if (subject.type === 'end') undone = branch.get(endItems.freed(subject.end, at)) === true;
      else if (subject.type === 'line' && verb === 'disconnect') {
        const { line, end } = subject;
        const ends = end === null ? endsOf(line) : [end];
        undone = ends.every((name) => branch.get(lineItems.connected(line, name, at)) === false);
      } else if (subject.type === 'line') undone = GONE.has(branch.get(lineItems.state(subject.line, at)));
      if (!undone) return undefined;
      const thing = subject.type === 'line' ? subject.line.name : nameOf(subject);
      if (branch.get(assumed(thing, at)) === true) return 'stop';
      flag(sim, branch, event, RULE, nameOf(subject));
      return 'stop';
    },
  }),
};
