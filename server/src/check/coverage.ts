/** What a silent guide is silent about: steps that have no operations, or some that could not be bound. */

import type { Finding } from '../findings/finding';
import type { Model } from '../model/model';

/** Steps as written (those of a `use` belong to the guide that writes them), and a finding for each without operations. */
export function stepCoverage(model: Model): {
  steps: number;
  checkedSteps: number;
  /** Numbers of the steps that were not checked, `2.3`. */
  unchecked: string[];
  findings: Finding[];
} {
  const checked = new Map<string, boolean>();
  const findings: Finding[] = [];
  for (const step of model.steps) {
    const path = step.path.split('/')[0]!.split('.').slice(0, 2).join('.');
    checked.set(path, (checked.get(path) ?? true) && step.checked);
    if (step.operations.length > 0 || step.checked || step.path.includes('/') || step.lost) continue;
    findings.push({
      rule: 'unchecked-step',
      severity: 'info',
      harm: 'paperwork',
      message: 'This step has no operations, so nothing in it was checked.',
      place: step.place,
      variants: [],
      related: [],
      fixes: [],
    });
  }
  const unchecked = [...checked].flatMap(([path, sound]) => (sound ? [] : [path]));
  return { steps: checked.size, checkedSteps: checked.size - unchecked.length, unchecked, findings };
}
