import { changeOfTyre } from '../../calc/tyres';
import type { Part } from '../../model/model';
import { nameOf } from '../../simulate/event';
import { part as partItems } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import type { Item } from '../../simulate/state';
import { ask } from '../../simulate/watcher';
import { SAME_SIZE } from '../../units/tyre';
import type { Diagram } from '../../variants/diagram';
import type { Builtin } from './builtin';

const RULE = 'speedometer-not-told';

/** The run of the first operation that puts another size on, -1 where none does. */
const PUT_ON: Item = { kind: 'other-tyre', of: RULE, at: '', initial: -1 };

const LOOKING: ReadonlySet<string> = new Set(['check', 'measure', 'adjust', 'set']);
const SPEEDOMETER = /(?:^|[-. ])(?:speedometer|speedo|tyre-size)(?:$|[-. ])/;

/** Wheels of another size make the speedometer wrong, and the guide says nothing of it: told once, at the first that is fitted. */
export const speedometerNotTold: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['fit'],
    before(sim, branch, event) {
      const { subject, at, step } = event;
      // What is given is not this guide's work.
      if (subject.type !== 'part' || step.path === '0') return undefined;
      const state = branch.get(partItems.state(subject.part, at));
      if (state !== 'boxed' && state !== 'offered') return undefined;
      const old = tyresBefore(subject.part).find(({ presence }) => branch.within(presence));
      if (old !== undefined) ask(sim, branch, event, RULE);
      if (old === undefined || !isOther(old, subject.part) || branch.get(PUT_ON) !== -1) return undefined;
      branch.put(PUT_ON, event.run);
      return undefined;
    },
    ended(sim) {
      const open = sim.state.diagrams.minus(sim.model.universe, looked(sim));
      for (const { value, set } of sim.state.valuesWithin(PUT_ON, open)) {
        const event = value === -1 ? undefined : sim.events[Number(value)];
        if (event?.subject.type !== 'part') continue;
        const { part } = event.subject;
        let rest = set;
        for (const old of tyresBefore(part)) {
          const here = sim.state.diagrams.and(rest, old.presence);
          rest = sim.state.diagrams.minus(rest, old.presence);
          if (here === 0) continue;
          sim.report({
            rule: RULE,
            operation: event.operation.path,
            item: part.name,
            side: '',
            set: here,
            event,
            causes: [],
            facts: factsOf(old, part),
          });
        }
      }
    },
  }),
};

/** What a part replaces that has a tyre, in its order: the first that a variant has counts. */
const tyresBefore = (part: Part): Part[] =>
  part.tyre === null
    ? []
    : part.replaces.filter((old): old is Part => old.type === 'part' && old.tyre !== null);

const isOther = (old: Part, { tyre }: Part): boolean =>
  Math.abs(changeOfTyre(old.tyre!, tyre!).share) > SAME_SIZE;

/** The variants in which the speedometer is seen to, before or after, or handed over. */
function looked(sim: Simulation): Diagram {
  let set: Diagram = 0;
  for (const { verb, subject, guard } of sim.events)
    if (LOOKING.has(verb) && SPEEDOMETER.test(nameOf(subject))) set = sim.state.diagrams.or(set, guard);
  for (const { target, set: handed } of sim.model.owes)
    if (SPEEDOMETER.test(target.written)) set = sim.state.diagrams.or(set, handed);
  return set;
}

function factsOf(old: Part, part: Part): Readonly<Record<string, string>> {
  const { trueSpeed } = changeOfTyre(old.tyre!, part.tyre!);
  return {
    old: old.tyre!.name,
    tyre: part.tyre!.name,
    way: trueSpeed > 1 ? 'low' : 'high',
    speed: `${Math.round(trueSpeed * 100)} km/h`,
  };
}
