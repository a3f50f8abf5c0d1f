/** What comes in pairs and is set, or renewed, on one side alone. */

import type { Diagram } from '../variants/diagram';
import type { BoundOperation, BoundStep, Side, Target } from './model';
import { shown } from './report';
import type { RunStep, Runs } from './runs';
import type { OperationScope } from './scope';
import { thingOfTarget } from './target';

const RULE = 'one-side-alone';

/** What is done alike on the left and on the right, or the vehicle stands and works unevenly; in words. */
const ALIKE: Readonly<Record<string, string>> = {
  inflate: 'inflated',
  adjust: 'adjusted',
  renew: 'renewed',
};

/** Verbs that leave a thing as it is. */
const LOOKS: ReadonlySet<string> = new Set(['check', 'measure', 'record', 'mark']);

interface Done {
  readonly operation: BoundOperation;
  readonly guard: Diagram;
  /** Its place in the running order. */
  readonly order: number;
  readonly mayReport: boolean;
}

/**
 * Reports settings and new pieces of a sided thing that `side:` of a step or an operation gives to one side, where nothing
 * gives them to the other: neither another operation with the other side, nor one of both sides later on. What is found bad,
 * renewed if needed or done in a guide, or a section, for one side is meant so; and so where nothing is done to the other one.
 * @param told paths of operations of which the words of their step said so already.
 */
export function checkOneSided(
  runs: Runs,
  steps: readonly BoundStep[],
  scope: OperationScope,
  told: ReadonlySet<string>,
): void {
  const { diagrams } = scope.world;
  const byThing = new Map<string, Done[]>();
  const worked = new Set<string>();
  runs.steps.forEach((run, order) => {
    for (const operation of steps[order]?.operations ?? []) {
      const { verb, targets, sides } = operation;
      for (const target of LOOKS.has(verb) ? [] : targets)
        for (const side of sides) worked.add(sideOf(target, side));
      if (!(verb in ALIKE)) continue;
      const guard = diagrams.and(operation.guard, scope.universe);
      const mayReport = !isMeant(run, operation) && !told.has(operation.path);
      for (const target of targets) {
        const key = `${verb} ${target.written}`;
        const all = byThing.get(key) ?? [];
        byThing.set(key, all);
        if (isSided(target)) all.push({ operation, guard, order, mayReport });
      }
    }
  });
  for (const all of byThing.values())
    for (const one of all) {
      const { sideSaid, sides, targets } = one.operation;
      if (!one.mayReport || !sideSaid || sides.length > 1) continue;
      const other = sides[0] === 'left' ? 'right' : 'left';
      if (targets.some((target) => worked.has(sideOf(target, other)))) judge(one, all, scope);
    }
}

const sideOf = (target: Target, side: Side): string => `${thingOfTarget(target)?.name} ${side}`;

/** Whether there is a reason for one side. */
function isMeant({ frame, step }: RunStep, { ifNeeded, foundNames }: BoundOperation): boolean {
  if (frame.use !== null || step.section.side !== null || frame.outline.side !== null) return true;
  return step.optional || ifNeeded || foundNames.length > 0;
}

function judge(one: Done, all: readonly Done[], { world, universe, report }: OperationScope): void {
  const { operation, guard, order } = one;
  const { place, path, verb, sides, targets } = operation;
  const [side] = sides;
  const others = all.filter(
    (it) => !it.operation.sides.includes(side!) || (it.operation.sides.length > 1 && it.order > order),
  );
  const left = others.reduce((set: Diagram, it) => world.diagrams.minus(set, it.guard), guard);
  if (left === 0) return;
  const item = targets[0]!.written;
  report.add(
    RULE,
    place,
    `${shown(item)} is ${ALIKE[verb]} on the ${side} alone.`,
    { severity: 'info', variants: world.cubesOf(left, universe), operation: path, item },
    path,
  );
}

function isSided(target: Target): boolean {
  if (target.type === 'line') return target.lines.some(({ sided }) => sided);
  return thingOfTarget(target)?.sided === true;
}
