/** Under which conditions and on which sides each step of a guide runs. */

import type { Place } from '../findings/finding';
import type { Condition } from '../variants/condition';
import type { DeclaredVariable } from '../variants/world';
import { type Branches, type ConditionReader, doneVariable, foundVariable } from './conditions';
import type { Side } from './model';
import { nearestName } from './nearest';
import type { OperationOutline, StepOutline } from './outline';
import { type Frame, type RunStep, type Runs, sideOf } from './runs';
import { type Cursor, itemsAt, textAt } from './source';

const YES = ['yes'] as const;

/** Reads every condition of a guide once, and knows which branches they speak of. */
export class Guards {
  private readonly measured = new Set<string>();
  private readonly spokenOf = new Set<string>();
  private readonly read = new Map<Frame, Map<Cursor, Condition>>();
  private readonly branches = new Map<Frame, Branches>();

  constructor(
    private readonly reader: ConditionReader,
    private readonly runs: Runs,
  ) {
    for (const { operations } of runs.steps) {
      for (const { cursor, verb } of operations) {
        const name = verb === 'check' || verb === 'measure' ? textAt(cursor, 'else') : null;
        if (name !== null) this.measured.add(name);
      }
    }
  }

  /** A condition in the words of a frame. */
  condition(frame: Frame, when: Cursor | null): Condition {
    if (when === null) return { all: [] };
    const known = this.read.get(frame) ?? new Map<Cursor, Condition>();
    this.read.set(frame, known);
    const before = known.get(when);
    if (before !== undefined) return before;
    const made = this.reader.condition(when, this.branchesOf(frame));
    known.set(when, made);
    return made;
  }

  /** Everything that must hold for a step to run; the guide's own condition included. */
  step(frame: Frame, step: StepOutline): Condition {
    return { all: [this.frame(frame), this.ownStep(frame, step)] };
  }

  operation(frame: Frame, step: StepOutline, operation: OperationOutline): Condition {
    return { all: [this.step(frame, step), this.condition(frame, operation.when)] };
  }

  /** The guide's condition, and those of the uses that led to a frame. */
  frame(frame: Frame): Condition {
    if (frame.use === null) return this.condition(frame, frame.outline.when);
    return this.operation(frame.use.frame, frame.use.step, frame.use.operation);
  }

  /** The optional steps and found branches, as variables in the order in which they stand. */
  variables(): DeclaredVariable[] {
    const done = new Set<string>();
    for (const { frame, step } of this.runs.steps) if (step.optional) done.add(this.doneName(frame, step));
    const found = new Set([...this.measured, ...this.spokenOf]);
    return [
      ...[...done].map((name) => ({ name, values: ['no', 'yes'], kind: 'optional-step' as const })),
      ...[...found].map((name) => ({
        name: foundVariable(name),
        values: ['no', 'yes'],
        kind: 'found' as const,
      })),
    ];
  }

  /** The names under `found` in all that must hold for a step to run: its own condition and those around it. */
  foundAround(frame: Frame, step: StepOutline): { readonly name: string; readonly place: Place }[] {
    const outside =
      frame.use === null
        ? this.foundIn(frame.outline.when)
        : [...this.foundAround(frame.use.frame, frame.use.step), ...this.foundIn(frame.use.operation.when)];
    return [...outside, ...this.foundIn(step.section.when), ...this.foundIn(step.when)];
  }

  /** The names under `found` in a condition that nothing else reports. */
  foundIn(when: Cursor | null): { readonly name: string; readonly place: Place }[] {
    const names: { name: string; place: Place }[] = [];
    const visit = (cursor: Cursor, depth: number): void => {
      if (depth > 40) return;
      if (cursor.isList) for (const item of cursor.items()) visit(item, depth + 1);
      for (const [key, value] of cursor.entries()) {
        if (key === 'not') visit(value, depth + 1);
        if (key !== 'found') continue;
        for (const item of value.items()) {
          if (item.text !== null && this.spokenOf.has(item.text))
            names.push({ name: item.text, place: item.place });
        }
      }
    };
    if (when !== null) visit(when, 0);
    return names;
  }

  /** What must hold for a step beside what stands around its frame: of its section, its own, and that it was chosen. */
  ownStep(frame: Frame, step: StepOutline): Condition {
    const parts = [this.condition(frame, step.section.when), this.condition(frame, step.when)];
    if (step.optional) parts.push({ variable: this.doneName(frame, step), values: YES });
    return { all: parts };
  }

  private doneName(frame: Frame, step: StepOutline): string {
    return doneVariable(`${frame.prefix}${step.id ?? step.path}`);
  }

  private branchesOf(frame: Frame): Branches {
    const known = this.branches.get(frame);
    if (known !== undefined) return known;
    const open = new Set<StepOutline>();
    const made: Branches = {
      // A step was done where it is run: where its conditions hold, and the fitter chose it if it is optional.
      done: (id) => {
        const step = frame.outline.byId.get(id);
        if (step === undefined) return null;
        if (open.has(step)) return { all: [] };
        open.add(step);
        const condition = this.ownStep(frame, step);
        open.delete(step);
        return condition;
      },
      found: (name) => {
        if (!this.measured.has(name) && nearestName(name, this.measured) !== null) return null;
        this.spokenOf.add(name);
        return { variable: foundVariable(name), values: YES };
      },
      stepIds: frame.outline.byId.keys(),
      foundNames: this.measured,
    };
    this.branches.set(frame, made);
    return made;
  }
}

export interface Sides {
  readonly left: readonly Side[];
  /** Some `side` stands there. */
  readonly said: boolean;
  /** `side: each`: the step is run for one side after the other. */
  readonly each: boolean;
  /** The `side` that leaves nothing, null where something is left. */
  readonly emptied: Cursor | null;
  /** What says that one side alone is left: the outermost that does; empty where both are. */
  readonly by: Around | '';
}

/** What stands around an operation and may say a side. */
export type Around = 'guide' | 'section' | 'step' | 'operation';

export const BOTH: Sides = { left: ['left', 'right'], said: false, each: false, emptied: null, by: '' };

/** Narrows by one more `side`, from outside inwards. */
export function narrowed(sides: Sides, cursor: Cursor | null, what: Around): Sides {
  const mayRepeat = what !== 'operation';
  const said = sideOf(cursor);
  if (said === null || sides.emptied !== null) return sides;
  if (said === 'both' || said === 'each') return { ...sides, said: true, each: mayRepeat && said === 'each' };
  const left = sides.left.filter((side) => side === said);
  const emptied = left.length === 0 ? cursor : null;
  return { left, said: true, each: sides.each && mayRepeat, emptied, by: sides.by || what };
}

/** The sides of a step, after guide, sections and uses. */
export function stepSides(run: RunStep): Sides {
  const sides = sidesIn(run.frame, run.step);
  if (run.only === null) return sides;
  const left = sides.left.filter((side) => side === run.only);
  return { ...sides, left, said: true, each: false, by: sides.by || 'step' };
}

function sidesIn(frame: Frame, step: StepOutline): Sides {
  return narrowed(narrowed(sidesAround(frame), step.section.side, 'section'), step.side, 'step');
}

/** The sides of a guide, or those that are left at the `use` of a section. */
export function sidesAround(frame: Frame): Sides {
  const { use } = frame;
  return use === null
    ? narrowed(BOTH, frame.outline.side, 'guide')
    : narrowed(sidesIn(use.frame, use.step), use.operation.side, 'step');
}

/** Everything in an operation that names something of the model beside its target. */
export const namedBeside = (operation: OperationOutline): Cursor[] =>
  operation.verb === 'fit' || operation.verb === 'bolt-up'
    ? itemsAt(operation.cursor, 'onto')
    : operation.verb === 'apply' || operation.verb === 'transfer'
      ? itemsAt(operation.cursor, 'to')
      : [];
