import { assumePosition } from '../../simulate/effects-joints';
import { assumePart } from '../../simulate/effects-parts';
import { endsOf } from '../../simulate/effects-rest';
import { assumed, isOn, line as lineItems, part as partItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** What still sits on the vehicle cannot be scrapped. */
export const discardFitted: Builtin = {
  name: 'discard-fitted',
  watch: () => ({
    verbs: ['discard'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type === 'line' || subject.type === 'part') ask(sim, branch, event, 'discard-fitted');
      if (subject.type === 'line') {
        const { line } = subject;
        const ends = endsOf(line).filter((name) => branch.get(lineItems.connected(line, name, at)) === true);
        if (ends.length === 0 || branch.get(lineItems.state(line, at)) !== 'fitted') return undefined;
        flag(sim, branch, event, 'discard-fitted', line.name);
        branch.put(assumed(line.name, at), true);
        return undefined;
      }
      if (subject.type !== 'part' || !isOn(branch.get(partItems.state(subject.part, at)))) return undefined;
      flag(sim, branch, event, 'discard-fitted', subject.part.name);
      assumePart(branch, subject.part, at, 'off');
      for (const joint of subject.part.joints.values()) assumePosition(branch, joint, at, 'out');
      return undefined;
    },
  }),
};
