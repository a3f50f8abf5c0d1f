/** What of a guide no variant reaches, and conditions that say nothing. */

import type { Place } from '../findings/finding';
import type { Diagram } from '../variants/diagram';
import { firstOf } from './bindings';
import { ConditionJudge } from './judge';
import type { BoundOperation, BoundStep, Model, Target } from './model';
import type { StepOutline } from './outline';
import { inSection, listed } from './report';
import type { Runs } from './runs';
import type { OperationScope } from './scope';
import { itemsAt } from './source';

/**
 * Reports the sections, steps and operations that are done in no variant of `covers`, where the condition stands that makes
 * it so, and conditions that hold wherever they are asked. What lies within something that is never done is not told again.
 * Conditions of sections from elsewhere are for other guides too: of them only a use of nothing is told.
 * @param steps as bound from `runs`, one for one.
 */
export function checkReached(runs: Runs, steps: readonly BoundStep[], scope: OperationScope): void {
  new Reach(runs, steps, scope).check();
}

class Reach {
  private readonly operations = new Map<string, BoundOperation>();
  private readonly used = new Map<string, BoundStep[]>();

  constructor(
    private readonly runs: Runs,
    steps: readonly BoundStep[],
    private readonly scope: OperationScope,
  ) {
    for (const step of steps) {
      const slash = step.path.indexOf('/');
      if (slash < 0) for (const operation of step.operations) this.operations.set(operation.path, operation);
      else {
        const use = step.path.slice(0, slash);
        const known = this.used.get(use);
        if (known === undefined) this.used.set(use, [step]);
        else known.push(step);
      }
    }
  }

  check(): void {
    const { outline } = this.runs.main;
    const { universe } = this.scope;
    const judge = new ConditionJudge(this.runs.main, this.scope);
    const guide = judge.judged(outline.when, universe, 'the guide is never used', '0');
    for (const item of itemsAt(outline.root, 'owes'))
      judge.judged(item.get('when'), guide, 'this is never owed', '0');
    for (const section of outline.sections) {
      const inSection = judge.judged(section.when, guide, 'this section is never done', `${section.number}`);
      for (const step of section.steps) {
        const inStep = judge.judged(step.when, inSection, 'this step is never done', step.path);
        for (const operation of step.operations) {
          const { path, verb } = operation;
          const there = judge.judged(operation.when, inStep, 'this operation is never done', path);
          if (there !== null && there !== 0 && verb === 'use') this.useOf(path, operation.target.place);
        }
        if (inStep !== null && inStep !== 0) this.presence(step);
      }
    }
  }

  /** A `use` of whose section nothing is done. */
  private useOf(path: string, place: Place): void {
    const { universe, world, report } = this.scope;
    const steps = this.used.get(path) ?? [];
    if (steps.length === 0) return;
    // What could not be read may be what is done; sides that leave nothing were told.
    const done = steps.some(
      ({ guard, passes, checked, operations }) =>
        (passes.length > 0 && world.diagrams.intersects(guard, universe)) ||
        (!checked && (operations.length > 0 || passes.length === 0)),
    );
    if (done) return;
    const message = inSection(steps[0]!.uses[0]!.section, 'nothing of it is done here.');
    report.add('never-done', place, message, { severity: 'warning', operation: path });
  }

  /** Targets that are on no vehicle that their operation is done for: each thing once in a step, all of them at its condition. */
  private presence(step: StepOutline): void {
    const { world, universe, report } = this.scope;
    const absent = new Map<string, Place>();
    let present = step.operations.some(({ verb }) => verb === 'use');
    for (const { path } of step.operations) {
      const operation = this.operations.get(path);
      const within = operation === undefined ? 0 : world.diagrams.and(operation.guard, universe);
      if (operation === undefined || within === 0) continue;
      for (const target of operation.targets) {
        const presence = presenceOf(target, world.diagrams);
        const name = wantingIn(target, within, world.diagrams);
        if (presence === null || world.diagrams.intersects(within, presence)) present = true;
        else if (!absent.has(name)) absent.set(name, { uri: operation.place.uri, span: target.span });
      }
    }
    const tell = (place: Place, names: readonly string[]) => {
      const message = `No vehicle that this is done for has ${listed(names)}, so it is never done.`;
      report.add('never-done', place, message, {
        severity: 'warning',
        operation: step.path,
        item: names[0]!,
      });
    };
    if (absent.size > 0 && !present && step.when !== null) tell(step.when.place, [...absent.keys()]);
    else for (const [name, place] of absent) tell(place, [name]);
  }
}

/** What of a target is not there: the part, or what of it is named. */
function wantingIn(target: Target, within: Diagram, diagrams: Model['world']['diagrams']): string {
  const { written } = target;
  if (target.type !== 'joint' && target.type !== 'piece') return firstOf(written);
  return diagrams.intersects(within, target.joint.part.presence) ? written : firstOf(written);
}

/** The variants that have a target; null for what every vehicle has, or is no thing. */
export function presenceOf(target: Target, diagrams: Model['world']['diagrams']): Diagram | null {
  switch (target.type) {
    case 'part':
      return target.part.presence;
    case 'joint':
    case 'piece':
      return diagrams.and(target.joint.presence, target.joint.part.presence);
    case 'end':
      return target.end.part.presence;
    case 'hole':
      return target.hole.part.presence;
    case 'face':
      return target.face.part.presence;
    case 'line':
      return target.lines.reduce((set: Diagram, line) => diagrams.or(set, line.presence), 0);
    default:
      return null;
  }
}
