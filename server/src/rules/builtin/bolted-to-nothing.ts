import { type Instance, matching } from '../../model/instances';
import type { Part } from '../../model/model';
import { isOn, part as partItems } from '../../simulate/items';
import type { Branch } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const IN_THE_BOX = new Set<unknown>(['boxed', 'offered']);

/** What a part is bolted to is there. With fewer joints than neighbours it only touches some of them. */
export const boltedToNothing: Builtin = {
  name: 'bolted-to-nothing',
  watch: () => ({
    verbs: ['bolt-up'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'part') return undefined;
      const { part } = subject;
      const joints = [...part.joints.values()].filter((joint) => branch.within(joint.presence));
      if (joints.length < neighbours(part)) return undefined;
      const joined = part.joins.filter(
        (other): other is Part => typeof other !== 'string' && branch.within(other.presence),
      );
      if (joined.length > 0) ask(sim, branch, event, 'bolted-to-nothing');
      const missing = joined.find(
        (other) => isBoxed(branch, other, at) && !other.replaces.some((old) => isThere(branch, old, at)),
      );
      if (missing === undefined) return undefined;
      const elsewhere =
        part.joins.some((other) => typeof other === 'string') ||
        joined.some((other) => isThere(branch, other, at));
      if (elsewhere)
        flag(sim, branch, event, 'bolted-to-nothing', part.name, { facts: { other: missing.name } });
      return undefined;
    },
  }),
};

/** How many things it joins; what takes another's place in it is none of its own. */
const neighbours = ({ joins }: Part): number =>
  joins.filter(
    (other) => typeof other === 'string' || !other.replaces.some((old) => joins.includes(old as Part)),
  ).length;

const isBoxed = (branch: Branch, part: Part, at: Instance): boolean =>
  matching(part.instances, at).every((one) => IN_THE_BOX.has(branch.get(partItems.state(part, one))));

const isThere = (branch: Branch, thing: Part['replaces'][number], at: Instance): boolean =>
  thing.type === 'part' &&
  branch.within(thing.presence) &&
  matching(thing.instances, at).some((one) => isOn(branch.get(partItems.state(thing, one))));
