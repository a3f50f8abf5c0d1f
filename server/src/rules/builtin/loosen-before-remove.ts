import { assumePosition } from '../../simulate/effects-joints';
import type { Event } from '../../simulate/event';
import { isOn, joint as jointItems, part as partItems } from '../../simulate/items';
import type { Branch } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'loosen-before-remove';
const isSet = (position: unknown) => position === 'tight' || position === 'final' || position === 'snug';

/** A part comes off only when every joint that holds it is out, and swings only when its pivot is loose and the others are out. */
export const loosenBeforeRemove: Builtin = {
  name: RULE,
  watch: (settings) => ({
    verbs: ['remove', 'swing'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type === 'joint') {
        if (settings.strictLoosening && event.within === null) ask(sim, branch, event, RULE);
        if (
          settings.strictLoosening &&
          event.within === null &&
          isSet(branch.get(jointItems.position(subject.joint, at)))
        )
          flag(sim, branch, event, RULE, subject.joint.full, { facts: { slackened: 'being slackened' } });
        return undefined;
      }
      if (subject.type !== 'part') return undefined;
      // What came off with its axle is taken from that as from the vehicle.
      const state = branch.get(partItems.state(subject.part, at));
      if (!isOn(state) && !String(state).startsWith('with:')) return undefined;
      if (subject.part.joints.size > 0) ask(sim, branch, event, RULE);
      const held = holding(branch, event);
      if (held.length === 0) return undefined;
      const names = held.map((joint) => joint.full).join(', ');
      if (event.verb === 'swing') {
        const loose = branch.get(jointItems.position(held[0]!, at));
        const pivots = held.length === 1 && !isSetForSwing(loose);
        if (!pivots) flag(sim, branch, event, RULE, subject.part.name, { facts: { joints: names } });
        return undefined;
      }
      flag(sim, branch, event, RULE, subject.part.name, { facts: { joints: names } });
      for (const joint of held) assumePosition(branch, joint, at, 'out');
      return undefined;
    },
  }),
};

const isSetForSwing = (position: unknown) => position === 'tight' || position === 'final';

function holding(branch: Branch, { subject, at }: Event) {
  if (subject.type !== 'part') return [];
  return [...subject.part.joints.values()].filter(
    (joint) => branch.within(joint.presence) && branch.get(jointItems.position(joint, at)) !== 'out',
  );
}
