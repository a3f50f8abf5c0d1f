import { type Diagram, TERMINAL_BOUND } from './diagram';
import type { World } from './world';

/** Bounds of a numeric trait, in the base unit of its dimension (see `units/quantity`); those given must all hold. */
export interface NumericBounds {
  readonly atLeast?: number;
  readonly above?: number;
  readonly atMost?: number;
  readonly below?: number;
}

/** What a `when:` says, with the words resolved to nothing yet. A written map is `all`, a list of maps `any`. */
export type Condition =
  | { readonly all: readonly Condition[] }
  | { readonly any: readonly Condition[] }
  | { readonly not: Condition }
  | ValueCondition
  | BoundCondition;

/** Holds where the variable has one of the values (`lockers: [none, fitted]`). */
export interface ValueCondition {
  readonly variable: string;
  readonly values: readonly string[];
}

/** Holds where the numeric trait lies within the bounds (`lift: { at-least: 75 mm }`). */
export interface BoundCondition extends NumericBounds {
  readonly variable: string;
}

/** A part of a condition that says nothing in this world, and why. `leaf` is the very object that was handed in. */
export interface ConditionProblem {
  readonly why: 'unknown-variable' | 'unknown-value' | 'not-numeric' | 'uncut';
  readonly variable: string;
  /** The value that the variable does not have; for `unknown-value` only. */
  readonly value?: string;
  readonly leaf: ValueCondition | BoundCondition;
}

export interface ConditionSet {
  /** The variants in which the condition holds; parts that say nothing are left out, as if they were not written. */
  readonly set: Diagram;
  readonly problems: readonly ConditionProblem[];
  /** The condition asks so much at once that it was given up; `set` is then 1. */
  readonly tooWide: boolean;
}

/** A condition whose diagram has more nodes than this is given up: no state that depends on it could be kept. */
const NODE_BOUND = 4_096;
/** Two diagrams are combined only while the product of their sizes stays below this, which bounds the work. */
const WORK_BOUND = 1 << 16;
/** Conditions nested deeper are given up; nobody reads them, and recursion must end. */
const DEPTH_BOUND = 200;

/** Every leaf of a condition, in order, down to the depth that is translated. */
export function leavesOf(condition: Condition): (ValueCondition | BoundCondition)[] {
  const leaves: (ValueCondition | BoundCondition)[] = [];
  const visit = (at: Condition, depth: number): void => {
    if (depth > DEPTH_BOUND) return;
    if ('all' in at) for (const part of at.all) visit(part, depth + 1);
    else if ('any' in at) for (const part of at.any) visit(part, depth + 1);
    else if ('not' in at) visit(at.not, depth + 1);
    else leaves.push(at);
  };
  visit(condition, 0);
  return leaves;
}

/**
 * The set of variants in which a condition holds. An empty `all` holds everywhere, an empty `any` and an empty list of
 * values nowhere. Never throws: what the world does not know comes back in `problems` and counts as not written.
 */
export function conditionToSet(world: World, condition: Condition): ConditionSet {
  const problems: ConditionProblem[] = [];
  const translation = new Translation(world, problems);
  const set = translation.translate(condition, 0);
  return translation.tooWide
    ? { set: 1, problems, tooWide: true }
    : { set: set ?? 1, problems, tooWide: false };
}

class Translation {
  tooWide = false;

  constructor(
    private readonly world: World,
    private readonly problems: ConditionProblem[],
  ) {}

  /** The set, or undefined where nothing of the condition is known. */
  translate(condition: Condition, depth: number): Diagram | undefined {
    if (depth > DEPTH_BOUND) this.tooWide = true;
    if (this.tooWide) return undefined;
    if ('all' in condition) return this.joined(condition.all, depth, true);
    if ('any' in condition) return this.joined(condition.any, depth, false);
    if ('not' in condition) {
      const inner = this.translate(condition.not, depth + 1);
      return inner === undefined ? undefined : this.world.diagrams.not(inner);
    }
    return 'values' in condition ? this.valueSet(condition) : this.boundSet(condition);
  }

  private joined(parts: readonly Condition[], depth: number, all: boolean): Diagram | undefined {
    if (parts.length === 0) return all ? 1 : 0;
    const { diagrams } = this.world;
    const sets: Diagram[] = [];
    for (const part of parts) {
      const set = this.translate(part, depth + 1);
      if (set !== undefined) sets.push(set);
    }
    if (sets.length === 0) return undefined;
    // From the last variable up, so that a long list of plain conditions grows by one node at a time.
    sets.sort((a, b) => diagrams.levelOf(b) - diagrams.levelOf(a));
    let result = all ? 1 : 0;
    let size = 0;
    for (const set of sets) {
      if (size > 1 && set >= TERMINAL_BOUND && size * diagrams.size(set) > WORK_BOUND) {
        this.tooWide = true;
        return undefined;
      }
      result = all ? diagrams.and(result, set) : diagrams.or(result, set);
      size = diagrams.size(result);
      if (size > NODE_BOUND) {
        this.tooWide = true;
        return undefined;
      }
    }
    return result;
  }

  private valueSet(leaf: ValueCondition): Diagram | undefined {
    const index = this.world.indexOf(leaf.variable);
    if (index === undefined) return this.problem('unknown-variable', leaf);
    if (leaf.values.length === 0) return 0;
    const found: number[] = [];
    for (const value of leaf.values) {
      const places = this.world.valuesNamed(index, value);
      if (places === undefined) this.problem('unknown-value', leaf, value);
      else if (places === 'uncut') this.problem('uncut', leaf, value);
      else found.push(...places);
    }
    if (found.length === 0) return undefined;
    return this.world.literalAt(index, found);
  }

  private boundSet(leaf: BoundCondition): Diagram | undefined {
    const index = this.world.indexOf(leaf.variable);
    if (index === undefined) return this.problem('unknown-variable', leaf);
    const places = this.world.valuesWithin(index, leaf);
    if (places === undefined) return this.problem('not-numeric', leaf);
    if (places === 'uncut') return this.problem('uncut', leaf);
    return this.world.literalAt(index, places);
  }

  private problem(
    why: ConditionProblem['why'],
    leaf: ValueCondition | BoundCondition,
    value?: string,
  ): undefined {
    this.problems.push({ why, variable: leaf.variable, ...(value === undefined ? {} : { value }), leaf });
    return undefined;
  }
}
