/** What a silent guide is silent about: steps that have no operations, or some that could not be bound. */

import type { Finding } from '../findings/finding';
import type { BoundStep, Model, Target } from '../model/model';

/** Of steps without operations. */
export const UNCHECKED = 'unchecked-step';

/** A step that was not checked, or not all of it. */
export interface UncheckedStep {
  /** Its number, `2.3`. */
  readonly step: string;
  /** What it names that no file declares; where there is none it has no operations, or some that could not be read. */
  readonly undeclared: readonly string[];
}

/** Steps as written (those of a `use` belong to the guide that writes them), and a finding for each without operations. */
export function stepCoverage(model: Model): {
  steps: number;
  checkedSteps: number;
  unchecked: UncheckedStep[];
  findings: Finding[];
} {
  const byPath = new Map<string, { sound: boolean; readonly undeclared: Set<string> }>();
  const findings: Finding[] = [];
  for (const step of model.steps) {
    const path = step.path.split('/')[0]!.split('.').slice(0, 2).join('.');
    const one = byPath.get(path) ?? { sound: true, undeclared: new Set() };
    byPath.set(path, one);
    // What no variant reaches was not run. Of a used section that may be as it should be.
    const run = model.world.diagrams.intersects(step.guard, model.universe);
    one.sound &&= step.checked && (run || step.path.includes('/'));
    if (!model.withoutVehicle) for (const name of undeclaredIn(step)) one.undeclared.add(name);
    if (step.operations.length > 0 || step.checked || step.path.includes('/') || step.lost) continue;
    findings.push({
      rule: UNCHECKED,
      severity: 'info',
      harm: 'paperwork',
      message: 'This step has no operations, so nothing in it was checked.',
      place: step.place,
      variants: [],
      related: [],
      fixes: [],
      operation: step.path,
    });
  }
  const unchecked = [...byPath].flatMap(([step, { sound, undeclared }]) =>
    sound ? [] : [{ step, undeclared: [...undeclared] }],
  );
  return { steps: byPath.size, checkedSteps: byPath.size - unchecked.length, unchecked, findings };
}

function undeclaredIn({ operations }: BoundStep): string[] {
  return operations.flatMap(({ targets }) => targets.flatMap((target) => undeclaredOf(target) ?? []));
}

/** The thing or joint of a target that no file declares. */
function undeclaredOf(target: Target): string | null {
  switch (target.type) {
    case 'part':
      return target.part.origin === 'implied' ? target.part.name : null;
    case 'joint':
    case 'piece': {
      const { part, full, declared } = target.joint;
      if (part.origin === 'implied') return part.name;
      return declared === null ? full : null;
    }
    case 'end':
      return target.end.part.origin === 'implied' ? target.end.part.name : null;
    case 'line':
      return target.lines.find((line) => line.origin === 'implied')?.name ?? null;
    default:
      return null;
  }
}
