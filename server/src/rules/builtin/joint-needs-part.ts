import { assumePart } from '../../simulate/effects-parts';
import { assumed, part as partItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const IN_WORDS: Readonly<Record<string, string>> = {
  off: 'off the vehicle',
  discarded: 'scrapped',
  boxed: 'still in the box',
  offered: 'only offered up',
};
const AWAY = new Set<unknown>(['off', 'discarded', 'boxed', 'offered']);

/** A joint is tightened only when its part is in place. */
export const jointNeedsPart: Builtin = {
  name: 'joint-needs-part',
  watch: () => ({
    verbs: ['start', 'snug', 'torque'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'joint') return undefined;
      ask(sim, branch, event, 'joint-needs-part');
      const state = partItems.state(subject.joint.part, at);
      const now = branch.get(state);
      if (!AWAY.has(now)) return undefined;
      // What another finding took to be out of the way was never gone.
      if (branch.get(assumed(subject.joint.part.name, at)) === true) {
        assumePart(branch, subject.joint.part, at, 'fitted');
        return undefined;
      }
      flag(sim, branch, event, 'joint-needs-part', subject.joint.full, {
        facts: { state: IN_WORDS[String(now)] ?? 'not there' },
        causes: (set) => sim.state.madeBy(state, set, (value) => value === now).map(({ run }) => run),
      });
      assumePart(branch, subject.joint.part, at, 'fitted');
      return undefined;
    },
  }),
};
