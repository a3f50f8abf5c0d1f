/** Condition maps to conditions, and what is wrong with them in words. */

import type { Place } from '../findings/finding';
import { type Dimension, parseQuantity } from '../units/quantity';
import type {
  BoundCondition,
  Condition,
  ConditionProblem,
  NumericBounds,
  ValueCondition,
} from '../variants/condition';
import type { Diagram } from '../variants/diagram';
import type { Variable, World } from '../variants/world';
import { nearestName } from './nearest';
import { listed, type Report, shown, suggestion } from './report';
import type { Cursor } from './source';
import { ANY_DIMENSION } from './variables';

type Leaf = ValueCondition | BoundCondition;

/** Deeper conditions are not read; nobody writes them and recursion must end. */
const DEEPEST = 40;
const ALWAYS: Condition = { all: [] };
const BOUNDS: Readonly<Record<string, keyof NumericBounds>> = {
  'at-least': 'atLeast',
  above: 'above',
  'at-most': 'atMost',
  below: 'below',
};

/** What `done` and `found` stand for in the guide that a condition is written in. */
export interface Branches {
  /** The condition under which a step was done, null where there is no such step. */
  done(id: string): Condition | null;
  /** The condition under which something was found, null where it is taken as not written. */
  found(name: string): Condition | null;
  /** Ids of steps, to guess from. */
  readonly stepIds: Iterable<string>;
  readonly foundNames: Iterable<string>;
}

/** A key of a condition map with its value, or a map of a list, as a condition of its own. */
export interface ConditionPart {
  readonly cursor: Cursor;
  readonly condition: Condition;
}

export const NO_BRANCHES: Branches = { done: () => null, found: () => null, stepIds: [], foundNames: [] };

/** Reads conditions and remembers where each part of them is written. */
export class ConditionReader {
  /** Every condition read, for the cuts and the order of variables. */
  readonly conditions: Condition[] = [];
  private readonly written = new Map<Leaf, Cursor>();
  private readonly parts = new Map<Cursor, readonly ConditionPart[]>();
  private readonly wrongFigures: { readonly cursor: Cursor; readonly dimension: Dimension }[] = [];
  private readonly unknownBranches: { rule: string; cursor: Cursor; name: string; branches: Branches }[] = [];

  /** @param dimensions of the numeric traits, so that a figure is read as what the trait measures. */
  constructor(private readonly dimensions: ReadonlyMap<string, Dimension> = new Map()) {}

  /** The condition at a cursor; null is always. */
  condition(cursor: Cursor | null, branches: Branches = NO_BRANCHES): Condition {
    if (cursor === null) return ALWAYS;
    const made = this.anyOf(cursor, branches, 0);
    this.conditions.push(made);
    return made;
  }

  /** The keys of a condition that is a map, or the maps of a list of which any is enough; of a condition that was read. */
  partsOf(when: Cursor): readonly ConditionPart[] {
    return this.parts.get(when) ?? [];
  }

  /** `covers`: as a condition, but `any` says nothing. */
  covers(cursor: Cursor | null): Condition {
    if (cursor === null || !cursor.isMap) return ALWAYS;
    const parts = cursor.entries().map(([key, value]) => ({
      cursor: value,
      condition: { all: value.text === 'any' ? [] : this.pair(key, value, NO_BRANCHES, 0, true) },
    }));
    this.parts.set(cursor, parts);
    const made: Condition = { all: parts.flatMap(({ condition }) => condition.all) };
    this.conditions.push(made);
    return made;
  }

  /** The set in which a condition holds, and whether all of it was understood. Reports what was not, where `report` is given.
   * @param complete false where there may be variables beside the world's: unknown ones are then not reported. */
  set(
    world: World,
    condition: Condition,
    report: Report | null,
    complete = true,
  ): { readonly set: Diagram; readonly understood: boolean } {
    const { set, problems, tooWide } = world.set(condition);
    for (const problem of report === null ? [] : problems) {
      // What `done` and `found` do not find was told when it was read.
      const silent = problem.why === 'unknown-variable' && (!complete || isBranch(problem.variable));
      if (!silent) this.report(world, problem, report!);
    }
    return { set, understood: problems.length === 0 && !tooWide };
  }

  /** Reports what needs no world to be wrong, in one document: steps and findings that are not there, figures of the wrong sort. */
  reportWords(report: Report, uri: string): void {
    for (const { cursor, dimension } of this.wrongFigures) {
      if (cursor.document.uri !== uri) continue;
      report.add(
        'unknown-trait-value',
        cursor.place,
        `"${shown(cursor.text ?? '')}" is no ${dimension} to compare with.`,
      );
    }
    for (const { rule, cursor, name, branches } of this.unknownBranches) {
      if (cursor.document.uri !== uri) continue;
      const names = rule === 'unknown-step' ? branches.stepIds : branches.foundNames;
      const { hint, fixes } = suggestion(cursor.place, nearestName(name, names));
      const what =
        rule === 'unknown-step'
          ? `No step has the id "${shown(name)}"`
          : `Nothing in this guide finds "${shown(name)}"`;
      report.add(rule, cursor.place, `${what}${hint}`, { fixes });
    }
  }

  private anyOf(cursor: Cursor, branches: Branches, depth: number): Condition {
    if (depth > DEEPEST) return ALWAYS;
    if (!cursor.isList) return this.allOf(cursor, branches, depth);
    const parts = cursor
      .items()
      .map((item) => ({ cursor: item, condition: this.allOf(item, branches, depth + 1) }));
    this.parts.set(cursor, parts);
    return { any: parts.map(({ condition }) => condition) };
  }

  private allOf(cursor: Cursor, branches: Branches, depth: number): Condition {
    const parts = cursor.entries().map(([key, value]) => ({
      cursor: value,
      condition: { all: this.pair(key, value, branches, depth, false) },
    }));
    this.parts.set(cursor, parts);
    return { all: parts.flatMap(({ condition }) => condition.all) };
  }

  /** One key of a condition map: a list of none or one condition. */
  private pair(key: string, value: Cursor, branches: Branches, depth: number, covers: boolean): Condition[] {
    if (!covers) {
      if (key === 'not') return [{ not: this.anyOf(value, branches, depth + 1) }];
      if (key === 'done' || key === 'found') return this.branch(key, value, branches);
    }
    if (value.isMap) return this.bounds(key, value);
    if (value.text === 'any') return [];
    const values = value.texts;
    const leaf: ValueCondition = { variable: key, values };
    this.written.set(leaf, value);
    return [leaf];
  }

  private branch(key: 'done' | 'found', value: Cursor, branches: Branches): Condition[] {
    const parts = value.items().flatMap((item): Condition[] => {
      const name = item.text;
      if (name === null) return [];
      const known = key === 'done' ? branches.done(name) : branches.found(name);
      if (known !== null) return [known];
      this.unknownBranches.push({
        rule: key === 'done' ? 'unknown-step' : 'unknown-found',
        cursor: item,
        name,
        branches,
      });
      // A variable that no world has: it counts as not written, and the condition as not understood.
      return [{ variable: `${key}:?${name}`, values: ['yes'] }];
    });
    return parts.length === 0 ? [] : [{ any: parts }];
  }

  private bounds(key: string, value: Cursor): Condition[] {
    const bounds: { -readonly [bound in keyof NumericBounds]: number } = {};
    for (const [word, cursor] of value.entries()) {
      const bound = BOUNDS[word];
      if (bound === undefined || cursor.text === null) continue;
      const dimension = this.dimensions.get(key);
      const figure = parseQuantity(cursor.text, dimension ?? ANY_DIMENSION);
      if (figure.ok) bounds[bound] = figure.quantity.nominal;
      else if (dimension !== undefined) this.wrongFigures.push({ cursor, dimension });
    }
    const leaf: BoundCondition = { variable: key, ...bounds };
    this.written.set(leaf, value);
    return [leaf];
  }

  private report(world: World, problem: ConditionProblem, report: Report): void {
    const cursor = this.written.get(problem.leaf);
    if (cursor === undefined) return;
    const variable = world.variables.find((one) => one.name === problem.variable);
    if (variable === undefined) {
      reportVariable(world, problem.variable, cursor.keyPlace, report);
      return;
    }
    if (problem.why === 'not-numeric') {
      const message = `${variable.name} is no figure: it is ${listed(variable.values)}.`;
      report.add('unknown-trait-value', cursor.place, message);
      return;
    }
    if (problem.why !== 'unknown-value' || problem.value === undefined) return;
    const at = cursor.items().find((item) => item.text === problem.value) ?? cursor;
    reportValue(variable, problem.value, at.place, report);
  }
}

/** The names under which a step's being done and a thing's being found are variables of the world. */
export const doneVariable = (id: string): string => `done:${id}`;
export const foundVariable = (name: string): string => `found:${name}`;
const isBranch = (variable: string): boolean => variable.startsWith('done:') || variable.startsWith('found:');

function reportVariable(world: World, name: string, place: Place, report: Report): void {
  const known = world.variables.filter((one) => one.kind === 'trait' || one.kind === 'option');
  const near = nearestName(
    name,
    known.map((one) => one.name),
  );
  const option = known.find((one) => one.name === near)?.kind === 'option';
  const { hint, fixes } = suggestion(place, near);
  const rule = option ? 'unknown-option' : 'unknown-trait';
  const what = option ? 'an option of the kit' : 'a trait of the vehicle or an option of the kit';
  report.add(rule, place, `"${shown(name)}" is not ${what}${hint}`, { fixes });
}

function reportValue(variable: Variable, value: string, place: Place, report: Report): void {
  const near = nearestName(value, variable.values);
  const { fixes } = suggestion(place, near);
  const rule = variable.kind === 'option' ? 'unknown-option' : 'unknown-trait-value';
  const message = `${variable.name} is never "${shown(value)}": it is ${listed(variable.values)}.`;
  report.add(rule, place, message, { fixes });
}
