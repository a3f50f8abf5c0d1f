import { assumed } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** How much larger than its size a hole may come out, in mm: what a drill bit wanders (common practice). */
export const ALLOWED_MM = 0.5;

/** A hole is not drilled larger than it is to be. */
export const drilledOversize: Builtin = {
  name: 'drilled-oversize',
  watch: () => ({
    verbs: ['drill'],
    before(sim, branch, event) {
      const { subject, operation, at } = event;
      if (subject.type !== 'hole' || subject.hole.size === null || operation.to === null) return undefined;
      ask(sim, branch, event, 'drilled-oversize');
      if (operation.to.nominal > subject.hole.size + ALLOWED_MM) {
        // That a smaller drill follows is no news.
        branch.put(assumed(subject.hole.full, at), true);
        flag(sim, branch, event, 'drilled-oversize', subject.hole.full, {
          facts: { drilled: `${round(operation.to.nominal)} mm`, size: `${round(subject.hole.size)} mm` },
        });
      }
      return undefined;
    },
  }),
};

const round = (figure: number) => Math.round(figure * 10) / 10;
