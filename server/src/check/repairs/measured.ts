/** `found-without-measure`: the step that measures comes first. */

import { type Fault, outerStep, type Plan, stepsInOrder } from './repair';

/** Moves of the step that measures before what waits for it, or of that behind. */
export function* measuredFirst(fault: Fault): Generator<Plan | null> {
  const name = fault.finding.item ?? '';
  const measuring = fault.model.steps
    .filter(({ operations }) => operations.some(({ words }) => words.get('else') === name))
    .map(({ path }) => outerStep(path))
    .filter((step) => step !== null);
  const here = fault.step;
  if (here === null) return;
  const order = stepsInOrder(fault.model);
  for (const step of measuring) {
    if (order.indexOf(step) <= order.indexOf(here)) continue;
    // Where a whole section waits for it, before that.
    const head = order.find((one) => one.split('.')[0] === here.split('.')[0])!;
    const above = order[order.indexOf(head) - 1];
    const ways: (readonly [string, string, 'before' | 'behind'])[] = [[step, here, 'before']];
    if (above !== undefined) ways.push([step, above, 'behind']);
    ways.push([here, step, 'behind']);
    for (const [from, to, side] of ways) {
      const edits = fault.guide.moveSteps(from, 1, to, side);
      const title = `Move step ${from} ${side} step ${to}, where it is needed`;
      yield edits === null ? null : { kind: 'move', title, edits, drafts: 0 };
    }
  }
}
