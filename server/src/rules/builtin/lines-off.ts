import { line as lineItems } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import type { Debt } from './owed';

/** A line that was taken off is back or scrapped: the same rule as for parts. */
export function linesOff(sim: Simulation): Debt[] {
  const debts: Debt[] = [];
  const { state, model } = sim;
  for (const line of sim.corners.everyLine) {
    const there = state.diagrams.and(model.universe, line.presence);
    for (const at of line.instances)
      for (const { run, set } of state.madeBy(lineItems.state(line, at), there, (value) => value === 'off'))
        debts.push({
          rule: 'left-off',
          item: line.name,
          side: at.label,
          since: run,
          set,
          facts: { state: 'off' },
        });
  }
  return debts;
}
