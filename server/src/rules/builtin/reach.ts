import { matching } from '../../model/instances';
import { partOf } from '../../model/target';
import { assumePart } from '../../simulate/effects-parts';
import { part as partItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const NOT_REACHED = new Set([
  'check',
  'measure',
  'mark',
  'record',
  'raise',
  'lower',
  'support',
  'unsupport',
  'discard',
  // Fluids and air go in and out elsewhere.
  'drain',
  'fill',
  'inflate',
  'deflate',
]);

/** These bring a part, or its fastenings, to its place. */
const PLACING = new Set(['fit', 'bolt-up', 'offer', 'start', 'snug', 'torque', 'transfer']);
const isThere = (state: unknown) => state !== 'off' && state !== 'discarded' && state !== 'boxed';

/** What is inside, under or behind another part is worked on only while that is off. */
export const reach: Builtin = {
  name: 'reach',
  watch: () => ({
    verbs: ['*'],
    before(sim, branch, event) {
      const { subject, at } = event;
      const part = partOf(subject);
      if (part === null || NOT_REACHED.has(event.verb)) return undefined;
      if (!['part', 'joint', 'piece', 'end'].includes(subject.type)) return undefined;
      // What lies on the bench is worked on there.
      if (!PLACING.has(event.verb) && !isThere(branch.get(partItems.state(part, at)))) return undefined;
      const joint = subject.type === 'joint' || subject.type === 'piece' ? subject.joint : null;
      // A joint that says what covers it is not covered by what covers its part.
      const covers = joint?.ownCover ? joint.coveredBy : [...part.coveredBy, ...(joint?.coveredBy ?? [])];
      for (const { part: cover, how } of covers) {
        if (!branch.within(cover.presence)) continue;
        ask(sim, branch, event, 'reach', part.name);
        for (const coverAt of matching(cover.instances, at)) {
          if (branch.get(partItems.state(cover, coverAt)) !== 'fitted') continue;
          flag(sim, branch, event, 'reach', part.name, { facts: { cover: cover.name, how } });
          assumePart(branch, cover, coverAt, 'off');
        }
      }
      return undefined;
    },
  }),
};
