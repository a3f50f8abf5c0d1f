/** Settings that differ by a figure of the vehicle: that their ranges neither leave a gap nor lie over one another. */

import type { Place } from '../findings/finding';
import { type Condition, leavesOf } from '../variants/condition';
import type { Diagram } from '../variants/diagram';
import type { BoundOperation, BoundStep, Target } from './model';
import type { OperationOutline, StepOutline } from './outline';
import { LAST_COUNTS, ReplacedSettings, rangeOf } from './replaced-settings';
import type { Runs } from './runs';
import type { OperationScope } from './scope';
import type { Cursor } from './source';

/** One of several alternatives: done within a range of one numeric trait or option. */
interface Alternative {
  readonly verb: string;
  readonly thing: string;
  /** The thing and the sides on which it is set. */
  readonly key: string;
  /** Its condition on the trait, and the places of the trait's values that it is for, in order. */
  readonly place: Place;
  readonly values: ReadonlySet<number>;
  /** What it sets, as written. */
  readonly setting: string;
  readonly path: string;
}

/** Alternatives that differ in their range alone: one verb, one target, one trait, all else that is asked the same. */
interface Choice {
  readonly variable: number;
  /** All else that is asked. */
  readonly rest: Diagram;
  readonly alternatives: Alternative[];
}

/** Values of a trait for which some settings say nothing: between two of their ranges, or above all. */
interface Gap {
  readonly variable: number;
  readonly rest: Diagram;
  readonly values: readonly number[];
  readonly earlier: Alternative;
  readonly later: Alternative;
  readonly above: boolean;
}

/** What an operation sets, and to what. */
const SETTINGS = ['to', 'by', 'expect', 'amount', 'stages', 'then'];

/**
 * Reports gaps and overlaps of settings by a numeric trait, in the guide's own sections. Only what is plainly one choice is
 * judged: the same verb on the same thing with a figure of its own each time, in one section, with nothing else done to the
 * thing in between. A gap lies between two ranges, or above ranges that begin with the least figure; what lies below all of
 * them needs no setting. No gap is what another range fills elsewhere in the guide. One range
 * within another is taken as a special case, unless the wider one comes last and so undoes it.
 */
export function checkChoices(runs: Runs, steps: readonly BoundStep[], scope: OperationScope): void {
  const judge = new Choices(scope);
  let section = 0;
  runs.steps.forEach((run, index) => {
    if (run.frame.use !== null) return;
    if (run.step.section.number !== section) judge.close();
    section = run.step.section.number;
    const bound = new Map(steps[index]!.operations.map((operation) => [operation.path, operation]));
    for (const outline of run.operations) {
      const operation = bound.get(outline.path);
      if (operation !== undefined) judge.operation(operation, outline, run.step, runs);
    }
  });
  judge.close();
  judge.tellGaps();
}

class Choices {
  /** Of each thing, the choices that are open. */
  private open = new Map<string, Map<string, Choice>>();
  private readonly replaced: ReplacedSettings;
  /** Where ranges set a thing, by verb, thing and sides, anywhere in the guide. */
  private readonly ranged = new Map<string, Diagram>();
  private readonly gaps: Gap[] = [];

  constructor(private readonly scope: OperationScope) {
    this.replaced = new ReplacedSettings(scope);
  }

  operation(operation: BoundOperation, outline: OperationOutline, step: StepOutline, { main }: Runs): void {
    const { world, universe, guards } = this.scope;
    const guard = world.diagrams.and(operation.guard, universe);
    if (guard === 0) return;
    const setting = settingOf(outline.cursor);
    const whens = [step.when, outline.when].flatMap((when) => when ?? []);
    const ranges =
      setting === '' ? [] : this.ranges(whens.map((when) => [when, guards.condition(main, when)]));
    for (const target of operation.targets) this.target(target, operation, guard, setting, ranges);
  }

  private target(
    target: Target,
    operation: BoundOperation,
    guard: Diagram,
    setting: string,
    ranges: readonly { readonly variable: number; readonly place: Place }[],
  ): void {
    const { world } = this.scope;
    const { diagrams } = world;
    const { verb, path } = operation;
    const thing = nameOf(target);
    const key = `${thing} ${operation.sides.join()}`;
    const open = this.open.get(key) ?? new Map<string, Choice>();
    this.open.set(key, open);
    this.replaced.operation(key, thing, operation, { guard, setting, byRange: ranges.length > 0 });
    if (ranges.length > 0) {
      const settled = `${verb} ${key}`;
      this.ranged.set(settled, diagrams.or(this.ranged.get(settled) ?? 0, guard));
    }
    const joined = new Set<Choice>();
    for (const { variable, place } of ranges) {
      const rest = diagrams.forget(guard, world.levelAt(variable));
      const values = new Set(
        world.variables[variable]!.values.flatMap((_, value) =>
          diagrams.intersects(guard, world.literalAt(variable, [value])) ? [value] : [],
        ),
      );
      // Only where the range does not depend on anything else.
      if (diagrams.and(rest, world.literalAt(variable, [...values])) !== guard) continue;
      const kind = [verb, variable, rest].join();
      let choice = open.get(kind);
      if (choice?.alternatives.some((other) => sameSet(other.values, values))) {
        // The same range once more: another setting, later in the job.
        this.judge(choice);
        choice = undefined;
      }
      choice ??= { variable, rest, alternatives: [] };
      open.set(kind, choice);
      choice.alternatives.push({ verb, thing, key, place, values, setting, path });
      joined.add(choice);
    }
    for (const [kind, choice] of open) {
      if (joined.has(choice) || !diagrams.intersects(choice.rest, guard)) continue;
      this.judge(choice);
      open.delete(kind);
    }
  }

  /** Nothing more can belong to the choices so far. */
  close(): void {
    for (const open of this.open.values()) for (const choice of open.values()) this.judge(choice);
    this.open = new Map();
    this.replaced.close();
  }

  /** The numeric traits and options that conditions hold against bounds, each with where. */
  private ranges(whens: readonly (readonly [Cursor, Condition])[]): { variable: number; place: Place }[] {
    const { world, reader } = this.scope;
    const found = new Map<number, Place>();
    for (const [when, condition] of whens)
      for (const leaf of leavesOf(condition)) {
        const variable = world.indexOf(leaf.variable);
        if (variable === undefined || 'values' in leaf || world.variables[variable]!.numeric === undefined)
          continue;
        const part = reader.partsOf(when).find(({ cursor }) => cursor.keyText === leaf.variable);
        if (!found.has(variable)) found.set(variable, part?.cursor.place ?? when.place);
      }
    return [...found].map(([variable, place]) => ({ variable, place }));
  }

  private judge({ variable, rest, alternatives }: Choice): void {
    if (alternatives.length < 2) return;
    const { world, universe } = this.scope;
    const { diagrams } = world;
    const around = diagrams.and(rest, universe);
    const there = (value: number) => diagrams.intersects(around, world.literalAt(variable, [value]));
    const values = world.variables[variable]!.values.map((_, value) => value).filter(there);
    const has = (value: number) => alternatives.filter((one) => one.values.has(value));
    const covered = values.map((value) => has(value).length > 0);
    const [first, last] = [covered.indexOf(true), covered.lastIndexOf(true)];
    let gap: number[] = [];
    for (let at = first; at <= last; at++) {
      if (has(values[at]!).length === 0) gap.push(values[at]!);
      else if (gap.length > 0) {
        const below = has(values[at - gap.length - 1]!)[0]!;
        this.gap(variable, rest, gap, [below, has(values[at]!)[0]!]);
        gap = [];
      }
    }
    // Settings from the least figure on that stop before the greatest: with more of it, more would be wanted.
    const above = values.slice(last + 1);
    if (
      first === 0 &&
      above.length > 0 &&
      !has(values[last]!).some((one) => one.values.has(values[0]!)) &&
      LAST_COUNTS.has(alternatives[0]!.verb) &&
      !this.scope.withoutVehicle
    ) {
      const [earlier, later] = alternatives.slice(-2) as [Alternative, Alternative];
      this.gaps.push({ variable, rest, values: above, earlier, later, above: true });
    }
    alternatives.forEach((later, index) => {
      for (const earlier of alternatives.slice(0, index)) this.overlap(variable, rest, earlier, later);
    });
  }

  private gap(
    variable: number,
    rest: Diagram,
    gap: number[],
    [below, above]: [Alternative, Alternative],
  ): void {
    const [earlier, later] = isBefore(below, above) ? [below, above] : [above, below];
    this.gaps.push({ variable, rest, values: gap, earlier, later, above: false });
  }

  /** Reports the gaps that no other range of the guide fills. */
  tellGaps(): void {
    const { world } = this.scope;
    for (const { variable, rest, values, earlier, later, above } of this.gaps) {
      const filled = this.ranged.get(`${later.verb} ${later.key}`) ?? 0;
      const open = values.filter(
        (value) =>
          !world.diagrams.intersects(world.diagrams.and(rest, world.literalAt(variable, [value])), filled),
      );
      if (open.length === 0) continue;
      const message = above
        ? `Above this range and ${rangeOf(earlier, later)} nothing is said of ${later.thing}.`
        : `This range and ${rangeOf(earlier, later)} leave a gap, in which nothing is said of ${later.thing}.`;
      this.add('choice-gap', variable, rest, open, earlier, later, message);
    }
  }

  private overlap(variable: number, rest: Diagram, earlier: Alternative, later: Alternative): void {
    const both = [...later.values].filter((value) => earlier.values.has(value));
    if (both.length === 0 || both.length === later.values.size) return;
    const undoes = LAST_COUNTS.has(later.verb) && earlier.setting !== later.setting;
    if (both.length === earlier.values.size && !undoes) return;
    const message = `This range and ${rangeOf(earlier, later)} lie over one another: ${later.thing} gets both there.`;
    this.add('choice-overlap', variable, rest, both, earlier, later, message);
  }

  private add(
    rule: string,
    variable: number,
    rest: Diagram,
    values: readonly number[],
    earlier: Alternative,
    later: Alternative,
    message: string,
  ): void {
    const { world, universe, report } = this.scope;
    const set = world.diagrams.and(rest, world.literalAt(variable, values));
    report.add(
      rule,
      later.place,
      message,
      {
        // A gap is asked about; what is given twice is done twice.
        severity: rule === 'choice-gap' ? 'info' : 'warning',
        variants: world.cubesOf(set, universe),
        related: [{ place: earlier.place, message: `${rangeOf(earlier, later)}` }],
        operation: later.path,
      },
      earlier.path,
    );
  }
}

/** The figures of an operation as they are written; empty where it has none. */
function settingOf(cursor: Cursor): string {
  const said = SETTINGS.flatMap((key) => {
    const value = cursor.get(key);
    return value === null ? [] : [`${key} ${JSON.stringify(value.value)}`];
  });
  return said.join('\n');
}

const nameOf = (target: Target): string =>
  target.type === 'line' && target.end === null
    ? target.lines.map((line) => line.name).join()
    : target.written;
function isBefore(a: Alternative, b: Alternative): boolean {
  const [ours, theirs] = [a.path, b.path].map((path) => path.split('.').map(Number));
  const at = ours!.findIndex((number, index) => number !== theirs![index]);
  return at >= 0 && ours![at]! < theirs![at]!;
}

const sameSet = (a: ReadonlySet<number>, b: ReadonlySet<number>): boolean =>
  a.size === b.size && [...a].every((one) => b.has(one));
