import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** Gauges read to about 2 % (common practice). */
const ALLOWED = 1.02;

/** An air spring is not filled beyond its pressure. */
export const overInflated: Builtin = {
  name: 'over-inflated',
  watch: () => ({
    verbs: ['inflate'],
    before(sim, branch, event) {
      const { subject, operation } = event;
      if (subject.type !== 'part' || subject.part.pressure === null || operation.to === null)
        return undefined;
      ask(sim, branch, event, 'over-inflated');
      if (operation.to.nominal > subject.part.pressure.high * ALLOWED)
        flag(sim, branch, event, 'over-inflated', subject.part.name, {
          facts: { to: bar(operation.to.nominal), most: bar(subject.part.pressure.high) },
        });
      return undefined;
    },
  }),
};

const bar = (kPa: number) => `${Math.round(kPa) / 100} bar`;
