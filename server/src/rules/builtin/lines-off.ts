import { line as lineItems } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import { type Debt, since } from './owed';

/** A line that was taken off is back or scrapped: the same rule as for parts. */
export function linesOff(sim: Simulation): Debt[] {
  const debts: Debt[] = [];
  const { state, model } = sim;
  for (const line of sim.corners.everyLine) {
    const there = state.diagrams.and(model.universe, line.presence);
    for (const at of line.instances)
      debts.push(
        ...since(
          sim,
          'left-off',
          line.name,
          at.label,
          lineItems.state(line, at),
          there,
          (value) => value === 'off',
          { state: 'off' },
        ),
      );
  }
  return debts;
}
