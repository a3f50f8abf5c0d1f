/** What every rule was asked in one run: for the check record, which says how often each duty was looked at. */

import { DEBTS } from '../rules/builtin/registry';
import type { Rulebook } from '../rules/rulebook';
import type { RunObserver } from '../simulate/run';
import type { Question, RawFinding, Simulation } from '../simulate/simulation';
import type { Diagram } from '../variants/diagram';

/** What one rule was asked. */
export interface Asked {
  /** How often: an item, on one side, at one operation, is once, in however many variants. */
  readonly times: number;
  /** How many items, left and right of one being one. */
  readonly items: number;
  /** Paths of the steps in which it was asked; those of a `use` are the steps there. */
  readonly steps: ReadonlySet<string>;
  /** The variants in which it was asked at least once. */
  readonly set: Diagram;
}

interface Count {
  readonly keys: Set<string>;
  readonly items: Set<string>;
  readonly steps: Set<string>;
  set: Diagram;
}

/** Looks on at a run and counts. What is owed is asked after every operation that leaves something open. */
export class AskedCounter implements RunObserver {
  private readonly counts = new Map<string, Count>();
  private sim: Simulation | null = null;

  constructor(private readonly rulebook: Rulebook) {}

  given(sim: Simulation): void {
    // No rule looks on before this. A run that a rule broke off is run again without it.
    this.counts.clear();
    this.sim = sim;
    this.owed(sim);
  }

  operation(sim: Simulation): void {
    this.owed(sim);
  }

  asked({ rule, item, side, event, set }: Question): void {
    const count = this.counts.get(rule) ?? { keys: new Set(), items: new Set(), steps: new Set(), set: 0 };
    this.counts.set(rule, count);
    count.keys.add([event?.operation.path ?? '0', item, side].join('\n'));
    count.items.add(item);
    if (event !== null) count.steps.add(event.step.path);
    if (this.sim !== null) count.set = this.sim.state.diagrams.or(count.set, set);
  }

  /** By id of the rule; a rule that was never asked is not in it. Asked for once the run is over. */
  result(): ReadonlyMap<string, Asked> {
    return new Map(
      [...this.counts].map(([rule, { keys, items, steps, set }]) => [
        rule,
        { times: keys.size, items: items.size, steps, set },
      ]),
    );
  }

  /** Findings that a caution of their step covers, which the check passes over. */
  covered(): readonly RawFinding[] {
    return (this.sim?.findings ?? []).filter(({ event, rule }) => event?.step.covered.has(rule) === true);
  }

  private owed(sim: Simulation): void {
    for (const { name, ledger } of DEBTS) {
      if (!this.rulebook.on.has(name)) continue;
      for (const { item, side, since, set } of ledger(sim)) {
        const within = sim.state.diagrams.and(set, sim.model.universe);
        const event = sim.events[since] ?? null;
        if (within !== 0) this.asked({ rule: name, item, side, event, set: within });
      }
    }
  }
}
