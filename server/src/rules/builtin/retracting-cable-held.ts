import { ALONE } from '../../simulate/event';
import { named } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

/** A cable that would draw back into its sleeve is held before it is disconnected. */
export const retractingCableHeld: Builtin = {
  name: 'retracting-cable-held',
  watch: () => ({
    verbs: ['disconnect'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'line' || !subject.line.retracts) return undefined;
      const { line } = subject;
      ask(sim, branch, event, 'retracting-cable-held', line.name);
      const names = [line.name, ...line.ends.map((end) => `${line.name}.${end}`)];
      if (
        names.some(
          (name) => branch.get(named.hold(name, at)) !== '' || branch.get(named.hold(name, ALONE)) !== '',
        )
      )
        return undefined;
      flag(sim, branch, event, 'retracting-cable-held', line.name);
      branch.put(named.hold(line.name, at), 'assumed');
      return undefined;
    },
  }),
};
