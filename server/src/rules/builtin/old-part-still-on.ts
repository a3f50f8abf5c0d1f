import { matching } from '../../model/instances';
import { assumePart } from '../../simulate/effects-parts';
import { isOn, part as partItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** A new part goes where the old one was: that must be off. */
export const oldPartStillOn: Builtin = {
  name: 'old-part-still-on',
  watch: () => ({
    verbs: ['fit', 'bolt-up'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'part' || event.within !== null) return undefined;
      for (const old of subject.part.replaces) {
        if (old.type !== 'part' || !branch.within(old.presence)) continue;
        ask(sim, branch, event, 'old-part-still-on');
        const places = matching(old.instances, at);
        // A piece without sides goes where one side's old part was taken out.
        const isOff = places.some((place) => !isOn(branch.get(partItems.state(old, place))));
        if (!subject.part.sided && old.sided && isOff) continue;
        for (const oldAt of places) {
          if (!isOn(branch.get(partItems.state(old, oldAt)))) continue;
          flag(sim, branch, event, 'old-part-still-on', subject.part.name, { facts: { old: old.name } });
          assumePart(branch, old, oldAt, 'discarded');
        }
      }
      return undefined;
    },
  }),
};
