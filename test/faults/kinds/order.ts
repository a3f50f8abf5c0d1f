/** Steps that stand in the wrong order: neighbours swapped, or one that went up to ten places up or down. */
import type { Document, YAMLSeq } from 'yaml';
import type { Fault, FaultKind, GuideView, StepView } from '../fault';

const FARTHEST = 10;

/** Takes a step out and puts it where another one stands, or behind it. */
function move(from: StepView, to: StepView, behind: boolean): Fault['change'] {
  return (document: Document) => {
    const node = document.getIn(from.path, true);
    const sameList = from.section === to.section;
    const [fromAt, toAt] = [Number(from.path.at(-1)), Number(to.path.at(-1))];
    document.deleteIn(from.path);
    const steps = document.getIn(to.path.slice(0, -1)) as YAMLSeq;
    steps.items.splice(toAt + (behind ? 1 : 0) - (sameList && fromAt < toAt ? 1 : 0), 0, node);
  };
}

export const swapSteps: FaultKind = {
  name: 'swap neighbouring steps',
  faults: ({ steps }: GuideView) =>
    steps.flatMap((step, at) => {
      const next = steps[at + 1];
      if (next === undefined || next.section !== step.section) return [];
      return [{ where: step.where, says: `after ${next.where}`, change: move(step, next, true) }];
    }),
};

export const moveStep: FaultKind = {
  name: 'move a step',
  faults: ({ steps }, random) =>
    steps.flatMap((step, at) =>
      [-1, 1].flatMap((direction) => {
        const far = 2 + random.below(FARTHEST - 1);
        const to = steps[at + direction * far];
        if (to === undefined) return [];
        const says = `${far} places ${direction < 0 ? 'up, before' : 'down, after'} ${to.where}`;
        return [{ where: step.where, says, change: move(step, to, direction > 0) }];
      }),
    ),
};
