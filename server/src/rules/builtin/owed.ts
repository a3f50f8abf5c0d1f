/** What is owed at the end (schemas/semantics.md §6): helpers, and the debts of joints, parts and ends. */

import type { Harm, Place } from '../../findings/finding';
import { type Instance, matching } from '../../model/instances';
import type { Part } from '../../model/model';
import { BEFORE } from '../../simulate/given';
import { end as endItems, isOn, joint as jointItems, part as partItems } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import type { Item, Value } from '../../simulate/state';
import type { Diagram } from '../../variants/diagram';
import type { Builtin } from './builtin';
import { linesOff } from './lines-off';

/** One thing owed: in these variants, for this item, since this run (-1: from before the guide). */
export interface Debt {
  readonly rule: string;
  readonly item: string;
  readonly side: string;
  readonly since: number;
  readonly set: Diagram;
  readonly facts: Readonly<Record<string, string>>;
  readonly place?: Place;
  readonly harm?: Harm;
}

/** What a kind of debt amounts to in the present state: asked after each step by the trace, at the end by the rules. */
export type Ledger = (sim: Simulation) => Debt[];

/** A debt kept as a flag item, counted in `within`, since its last writing. */
export function flagged(
  sim: Simulation,
  rule: string,
  name: string,
  at: Instance,
  flag: Item,
  within: Diagram,
  facts: Readonly<Record<string, string>> = {},
): Debt[] {
  return since(sim, rule, name, at.label, flag, within, (value) => value === true, facts);
}

/** A debt by the value of an item, since the writing that made it so. */
export function since(
  sim: Simulation,
  rule: string,
  name: string,
  side: string,
  item: Item,
  within: Diagram,
  owes: (value: Value) => boolean,
  facts: Readonly<Record<string, string>> = {},
): Debt[] {
  return sim.state
    .madeBy(item, within, owes)
    .filter(({ run }) => run !== BEFORE && sim.events[run]?.step.path !== '0')
    .map(({ run, set }) => ({ rule, item: name, side, since: run, set, facts }));
}

/** A debt as a rule: found when the guide ends, at the operation that opened it, save what `leaves` excuses. */
export function owedAtEnd(name: string, ledger: Ledger): Builtin & { ledger: Ledger } {
  return {
    name,
    ledger,
    watch: () => ({
      verbs: [],
      ended(sim) {
        for (const debt of ledger(sim)) {
          const set = sim.state.diagrams.minus(debt.set, excused(sim, debt));
          if (set === 0) continue;
          const event = sim.events[debt.since] ?? null;
          sim.report({
            rule: name,
            operation: event?.operation.path ?? '0',
            item: debt.item,
            side: debt.side,
            set,
            event,
            causes: [],
            facts: debt.facts,
            ...(debt.harm === undefined ? {} : { harm: debt.harm }),
            ...((debt.place ?? (event === null ? guidePlace(sim) : null))
              ? { place: debt.place ?? guidePlace(sim)! }
              : {}),
          });
        }
      },
    }),
  };
}

const guidePlace = (sim: Simulation): Place | undefined => sim.model.follows?.place;

/** The variants in which `leaves` names the item of a debt in the state that is owed; whether it is so is another rule's matter. */
function excused(sim: Simulation, debt: Debt): Diagram {
  let set: Diagram = 0;
  for (const entry of sim.model.leaves) {
    const { target } = entry;
    const sideFits =
      debt.side === '' ||
      entry.sides.some((side) => debt.side.split('/').includes(side)) ||
      entry.sides.length === 2;
    const part = target.type === 'part' ? target.part.name : null;
    const named = target.written === debt.item || (part !== null && part === debt.item);
    // A line in its box is not connected either.
    const inBox = debt.rule === 'left-unused' && target.type === 'line' && entry.state === 'disconnected';
    if (named && sideFits && (debt.facts.state === entry.state || inBox))
      set = sim.state.diagrams.or(set, entry.set);
  }
  return set;
}

/** Every joint that was undone gets its final torque, while its part is on the vehicle. */
export const leftLoose = owedAtEnd('left-loose', (sim) => {
  const debts: Debt[] = [];
  const { state } = sim;
  for (const part of sim.corners.everyPart)
    for (const at of part.instances) {
      const on = state.where(partItems.state(part, at), universe(sim, part.presence), isOn);
      if (on === 0) continue;
      for (const joint of part.joints.values()) {
        const there = state.diagrams.and(on, joint.presence);
        const position = jointItems.position(joint, at);
        for (const { value, set } of state.valuesWithin(position, there)) {
          if (value === 'tight' || value === 'final') continue;
          debts.push(
            ...flagged(sim, 'left-loose', joint.full, at, jointItems.owed(joint, at), set, {
              state: String(value),
            }),
          );
        }
      }
    }
  return debts;
});

/** A slotted nut has its pin. */
export const leftWithoutPin = owedAtEnd('left-without-pin', (sim) => {
  const debts: Debt[] = [];
  const { state } = sim;
  for (const part of sim.corners.everyPart)
    for (const at of part.instances)
      for (const joint of part.joints.values()) {
        if (joint.nut !== 'slotted') continue;
        let set = state.where(partItems.state(part, at), universe(sim, part.presence), isOn);
        set = state.where(jointItems.position(joint, at), set, (value) => value === 'final');
        set = state.where(jointItems.lacksPin(joint, at), set, (value) => value === true);
        debts.push(...flagged(sim, 'left-without-pin', joint.full, at, jointItems.pinOwed(joint, at), set));
      }
  return debts;
});

const partDebt = (rule: string, wanted: string) =>
  owedAtEnd(rule, (sim) => {
    const debts: Debt[] = [];
    const { state } = sim;
    for (const part of sim.corners.everyPart)
      for (const at of part.instances) {
        const set = state.where(
          partItems.state(part, at),
          universe(sim, part.presence),
          (value) => value === wanted,
        );
        if (set === 0) continue;
        const flag = wanted === 'swung' ? partItems.swungOwed(part, at) : partItems.owed(part, at);
        debts.push(...flagged(sim, rule, part.name, at, flag, set, { state: wanted }));
      }
    return debts;
  });

/** What came off is back, replaced, handed over or scrapped. */
const partsOff = partDebt('left-off', 'off');
export const leftOff = owedAtEnd('left-off', (sim) => [
  ...partsOff.ledger(sim).flatMap((debt) => asReplaced(sim, debt)),
  ...linesOff(sim),
]);

/** Where a new part is in its place, what becomes of the old one is plain, and only not said. */
function asReplaced(sim: Simulation, debt: Debt): Debt[] {
  const { diagrams } = sim.state;
  const part = sim.model.things.get(debt.item);
  const at = part?.instances.find(({ label }) => label === debt.side);
  if (part?.type !== 'part' || at === undefined) return [debt];
  const replaced = diagrams.and(debt.set, newInPlace(sim, part, at));
  const bare = diagrams.minus(debt.set, replaced);
  return [
    ...(replaced === 0 ? [] : [{ ...debt, set: replaced, harm: 'paperwork' as const }]),
    ...(bare === 0 ? [] : [{ ...debt, set: bare }]),
  ];
}

/** The variants in which a part that replaces this one is on. */
export function newInPlace(sim: Simulation, part: Part, at: Instance): Diagram {
  let set: Diagram = 0;
  for (const other of sim.lookups.replacing(part))
    for (const otherAt of matching(other.instances, at)) {
      const there = universe(sim, other.presence);
      set = sim.state.diagrams.or(set, sim.state.where(partItems.state(other, otherAt), there, isOn));
    }
  return set;
}
/** What was swung aside is swung back. */
export const leftSwung = partDebt('left-swung', 'swung');

/** An end that was freed is seated when its part is on. */
export const leftUnseated = owedAtEnd('left-unseated', (sim) => {
  const debts: Debt[] = [];
  for (const part of sim.corners.everyPart)
    for (const at of part.instances) {
      const on = sim.state.where(
        partItems.state(part, at),
        universe(sim, part.presence),
        (value) => value === 'fitted',
      );
      for (const end of part.ends.values()) {
        const set = sim.state.where(endItems.freed(end, at), on, (value) => value === true);
        debts.push(
          ...flagged(sim, 'left-unseated', end.full, at, endItems.owed(end, at), set, { state: 'freed' }),
        );
      }
    }
  return debts;
});

/** The covered variants in which something exists. */
export function universe(sim: Simulation, presence: Diagram): Diagram {
  return sim.state.diagrams.and(sim.model.universe, presence);
}
