import type { End, Joint } from '../../model/model';
import { joint as jointItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const TIGHT = new Set<unknown>(['tight', 'snug', 'final']);

/** A taper is parted only when its nut no longer draws it in. */
export const nutStillOn: Builtin = {
  name: 'nut-still-on',
  watch: () => ({
    verbs: ['free'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'end' || subject.end.seat !== 'taper') return undefined;
      const nuts = nutsOf(subject.end);
      if (nuts.length > 0) ask(sim, branch, event, 'nut-still-on');
      const nut = nuts.find(
        (joint) => branch.within(joint.presence) && TIGHT.has(branch.get(jointItems.position(joint, at))),
      );
      if (nut !== undefined)
        flag(sim, branch, event, 'nut-still-on', subject.end.full, { facts: { joint: nut.full } });
      return undefined;
    },
  }),
};

const firstWord = (name: string) => name.split('-')[0];

/** The joints that draw an end in: called as it is, or the only one beside the only end. */
function nutsOf(end: End): Joint[] {
  const { joints, ends } = end.part;
  if (joints.size === 1 && ends.size === 1) return [...joints.values()];
  return [...joints.values()].filter(({ name }) => firstWord(name) === firstWord(end.name));
}
