/** What comes in pairs and is set, or renewed, on one side alone. */

import type { Diagram } from '../variants/diagram';
import type { BoundOperation, BoundStep, Target } from './model';
import { type Report, shown } from './report';
import type { Runs } from './runs';
import type { OperationScope } from './scope';

const RULE = 'one-side-alone';

/** What is done alike on the left and on the right, or the vehicle stands and works unevenly; in words. */
const ALIKE: Readonly<Record<string, string>> = {
  inflate: 'inflated',
  adjust: 'adjusted',
  renew: 'renewed',
};

interface Done {
  readonly operation: BoundOperation;
  readonly guard: Diagram;
  /** Its place in the running order. */
  readonly order: number;
  readonly mayReport: boolean;
}

/**
 * Reports settings and new pieces of a sided thing that `side:` of a step or an operation gives to one side, where nothing
 * gives them to the other: neither another operation with the other side, nor one of both sides later on. What is found bad, renewed if needed or done
 * in a guide or a section for one side is meant so.
 * @param told paths of operations of which the words of their step said so already.
 */
export function checkOneSided(
  runs: Runs,
  steps: readonly BoundStep[],
  { world, universe, report }: OperationScope,
  told: ReadonlySet<string>,
): void {
  const { diagrams } = world;
  const byThing = new Map<string, Done[]>();
  runs.steps.forEach((run, index) => {
    const aside = run.frame.use !== null || run.step.section.side !== null || run.frame.outline.side !== null;
    const found = run.step.optional || (steps[index]?.operations[0]?.foundNames.length ?? 0) > 0;
    for (const operation of steps[index]?.operations ?? []) {
      if (!(operation.verb in ALIKE)) continue;
      const guard = diagrams.and(operation.guard, universe);
      const mayReport =
        !aside &&
        !found &&
        !operation.ifNeeded &&
        operation.foundNames.length === 0 &&
        !told.has(operation.path);
      for (const target of operation.targets) {
        if (!isSided(target)) continue;
        const key = `${operation.verb} ${target.written}`;
        const all = byThing.get(key) ?? [];
        byThing.set(key, all);
        all.push({ operation, guard, order: index, mayReport });
      }
    }
  });
  for (const all of byThing.values())
    for (const one of all)
      if (one.mayReport && isAlone(one)) judge(one, all, diagrams, world, universe, report);
}

const isAlone = ({ operation }: Done): boolean => operation.sideSaid && operation.sides.length === 1;

function judge(
  one: Done,
  all: readonly Done[],
  diagrams: OperationScope['world']['diagrams'],
  world: OperationScope['world'],
  universe: Diagram,
  report: Report,
): void {
  const { operation, guard, order } = one;
  const [side] = operation.sides;
  const other = all.filter(
    (it) => !it.operation.sides.includes(side!) || (it.operation.sides.length > 1 && it.order > order),
  );
  const left = other.reduce((set: Diagram, it) => diagrams.minus(set, it.guard), guard);
  if (left === 0) return;
  const written = shown(operation.targets[0]!.written);
  report.add(
    RULE,
    operation.place,
    `${written} is ${ALIKE[operation.verb]} on the ${side} alone.`,
    {
      severity: 'info',
      variants: world.cubesOf(left, universe),
      operation: operation.path,
      item: operation.targets[0]!.written,
    },
    operation.path,
  );
}

function isSided(target: Target): boolean {
  switch (target.type) {
    case 'part':
      return target.part.sided;
    case 'line':
      return target.lines.some(({ sided }) => sided);
    case 'joint':
    case 'piece':
      return target.joint.part.sided;
    default:
      return false;
  }
}
