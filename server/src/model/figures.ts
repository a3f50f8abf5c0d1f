/** Figures by variant: `to: [{ when: { wheelbase: long }, is: 140 N·m }, { is: 120 N·m }]`, of which the first that fits counts. */

import { type Condition, leavesOf } from '../variants/condition';
import type { Diagram } from '../variants/diagram';
import { ConditionJudge } from './judge';
import type { BoundOperation, BoundStep, Joint } from './model';
import type { OperationOutline } from './outline';
import type { Runs } from './runs';
import type { OperationScope } from './scope';
import type { Cursor } from './source';
import { OTHER } from './traits';

/**
 * Reports figures that are never used, and vehicles that several figures by one trait leave out. A single figure for some
 * vehicles is an exception to the data, and so is what says more than one thing; where there are no data a rule speaks.
 */
export function checkFigures(runs: Runs, steps: readonly BoundStep[], scope: OperationScope): void {
  runs.steps.forEach((run, index) => {
    if (run.frame.use !== null) return;
    const bound = new Map(steps[index]!.operations.map((operation) => [operation.path, operation]));
    for (const outline of run.operations) {
      const to = outline.cursor.get('to');
      const operation = bound.get(outline.path);
      if (outline.verb !== 'torque' || to === null || !to.isList || operation === undefined) continue;
      checkOne(to, outline, operation, runs, scope);
    }
  });
}

function checkOne(
  to: Cursor,
  { path }: OperationOutline,
  operation: BoundOperation,
  runs: Runs,
  scope: OperationScope,
): void {
  const { world, universe, guards, reader, report } = scope;
  const { diagrams } = world;
  const joints = jointsOf(operation);
  const presence = joints.reduce(
    (set: Diagram, joint) => diagrams.or(set, diagrams.and(joint.presence, joint.part.presence)),
    0,
  );
  const around = diagrams.and(diagrams.and(operation.guard, universe), presence);
  if (around === 0) return;
  const judge = new ConditionJudge(runs.main, scope);
  const conditions: Condition[] = [];
  let left = around;
  for (const item of to.items()) {
    const when = item.isMap ? item.get('when') : null;
    const condition = guards.condition(runs.main, when);
    const { set, understood } = reader.set(world, condition, null);
    if (!understood) return;
    if (when !== null) {
      conditions.push(condition);
      if (judge.judged(when, around, 'this figure is never used', path) === 0) continue;
      if (!diagrams.intersects(left, set))
        report.add(
          'figure-never-used',
          when.place,
          'The figures before this one are for all of these vehicles.',
          {
            severity: 'warning',
            operation: path,
          },
        );
    }
    left = diagrams.minus(left, set);
  }
  if (left === 0 || conditions.length < 2 || joints.some((joint) => joint.torque === null)) return;
  if (!isLeftOut(conditions, left, scope)) return;
  report.add('figure-gap', to.keyPlace, 'Some vehicles get none of these figures, and so that of the data.', {
    severity: 'warning',
    variants: world.cubesOf(left, universe),
    operation: path,
  });
}

function jointsOf({ targets }: BoundOperation): Joint[] {
  return targets.flatMap((target) =>
    target.type === 'joint' ? [target.joint] : target.type === 'part' ? [...target.part.joints.values()] : [],
  );
}

/** Whether vehicles are left out by figures that differ by one trait or option alone, and such vehicles are known to be. */
function isLeftOut(
  conditions: readonly Condition[],
  left: Diagram,
  { world, withoutVehicle }: OperationScope,
): boolean {
  const names = new Set(conditions.flatMap((condition) => leavesOf(condition).map((leaf) => leaf.variable)));
  const [name] = names;
  const index = name === undefined || names.size > 1 ? undefined : world.indexOf(name);
  if (index === undefined) return false;
  const { kind, values, numeric } = world.variables[index]!;
  if (!withoutVehicle || kind !== 'trait') return true;
  // Without a vehicle file nobody knows what else a trait may be.
  const out = values.map((_, value) => world.diagrams.intersects(left, world.literalAt(index, [value])));
  if (numeric === undefined) return values.some((value, at) => out[at] && value !== OTHER);
  return out.slice(out.indexOf(false), out.lastIndexOf(false)).includes(true);
}
