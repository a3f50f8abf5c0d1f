/** The ledger of a guide: what each step changes, and what is open after it. */

import type { Cube, Place } from '../findings/finding';
import type { BoundStep, Model } from '../model/model';
import { DEBTS } from '../rules/builtin/registry';
import type { Rulebook } from '../rules/rulebook';
import { runGuide } from '../simulate/run';
import type { Simulation } from '../simulate/simulation';
import type { Diagram } from '../variants/diagram';
import { changeInWords } from './changes';
import { cubesOf, sentence } from './sentences';

export interface TraceChange {
  readonly item: string;
  readonly side: string;
  readonly from: string;
  readonly to: string;
  readonly variants: readonly Cube[];
}

export interface TraceOpen {
  readonly rule: string;
  readonly item: string;
  readonly side: string;
  /** Path of the operation that opened it; `0` where it was open before. */
  readonly since: string;
  readonly message: string;
  readonly variants: readonly Cube[];
}

export interface TraceStep {
  /** `section.step`. */
  readonly path: string;
  readonly id: string | null;
  readonly title: string;
  readonly place: Place;
  readonly changes: readonly TraceChange[];
  readonly open: readonly TraceOpen[];
}

export interface Ledger {
  /** What `given` and `follows` make other than the vehicle's file says, and what is owed for it. */
  readonly given: Pick<TraceStep, 'changes' | 'open'>;
  readonly steps: readonly TraceStep[];
}

/**
 * Runs a guide and notes every step.
 * @param within the variants that are looked at; cubes are told relative to the guide's universe.
 * @param wanted the steps to note; the open list costs most of the time.
 */
export function* traceGuide(
  model: Model,
  rulebook: Rulebook,
  within: Diagram,
  wanted: (step: BoundStep) => boolean = () => true,
): Generator<undefined, Ledger> {
  let given: Ledger['given'] = { changes: [], open: [] };
  const steps: TraceStep[] = [];
  let before: readonly Diagram[] = [];
  const { diagrams } = model.world;
  const inside = diagrams.and(within, model.universe);
  yield* runGuide(model, rulebook.watchers, {
    given(sim) {
      given = { changes: changesSince(sim, before, inside), open: openList(sim, rulebook, inside) };
      before = sim.state.snapshot();
    },
    step(sim, step, last) {
      if (!last) return;
      const shown = diagrams.and(inside, step.guard);
      if (shown !== 0 && wanted(step))
        steps.push({
          path: step.path,
          id: step.id,
          title: step.title,
          place: step.place,
          changes: changesSince(sim, before, inside),
          open: openList(sim, rulebook, inside),
        });
      before = sim.state.snapshot();
    },
  });
  return { given, steps };
}

function changesSince(sim: Simulation, before: readonly Diagram[], within: Diagram): TraceChange[] {
  return sim.state.changedSince(before, within).flatMap(({ key, from, to, set }) => {
    const change = changeInWords(key, from, to);
    return change === null ? [] : [{ ...change, variants: cubesWithin(sim, set, within) }];
  });
}

/** What is owed now, oldest first. Things of the box that wait for their step are not told. */
/** How many things are open after a step: left and right of one are one, in whatever variants. */
export const countOpen = ({ open }: Pick<TraceStep, 'open'>): number =>
  new Set(open.map(({ rule, item }) => `${rule} ${item}`)).size;

export function openList(sim: Simulation, rulebook: Rulebook, within: Diagram): TraceOpen[] {
  const open = DEBTS.filter(({ name }) => name !== 'left-unused' && rulebook.on.has(name)).flatMap(
    ({ name, ledger }) =>
      ledger(sim).flatMap((debt) => {
        const set = sim.state.diagrams.and(debt.set, within);
        const rule = rulebook.rules.get(name);
        if (set === 0 || rule === undefined) return [];
        const event = sim.events[debt.since] ?? null;
        const since = event?.operation.path ?? '0';
        const raw = {
          rule: name,
          operation: since,
          item: debt.item,
          side: debt.side,
          set,
          event,
          causes: [],
          facts: debt.facts,
        };
        const sides = debt.side === '' ? [] : [debt.side];
        return [
          {
            run: debt.since,
            rule: name,
            item: debt.item,
            side: debt.side,
            since,
            message: sentence(rule.says, raw, sides),
            set,
          },
        ];
      }),
  );
  const united = new Map<string, (typeof open)[number]>();
  for (const one of open) {
    const key = [one.rule, one.item, one.side, one.since].join('\n');
    const known = united.get(key);
    united.set(key, known === undefined ? one : { ...known, set: sim.state.diagrams.or(known.set, one.set) });
  }
  return [...united.values()]
    .sort((a, b) => a.run - b.run)
    .map(({ run: _run, set, ...one }) => ({ ...one, variants: cubesWithin(sim, set, within) }));
}

function cubesWithin(sim: Simulation, set: Diagram, within: Diagram): readonly Cube[] {
  if (sim.state.diagrams.implies(within, set)) return [];
  return cubesOf(sim.model, set);
}
