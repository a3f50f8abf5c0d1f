import type { Cube } from '../findings/finding';
import type { Dimension } from '../units/quantity';
import { type Condition, type ConditionSet, conditionToSet, leavesOf, type NumericBounds } from './condition';
import { Covers } from './cubes';
import { type Diagram, Diagrams } from './diagram';
import {
  boundsOfValue,
  cutValues,
  type Interval,
  type NumericTrait,
  numericValues,
  placesWithin,
} from './numeric';
import { orderVariables } from './order';

export type VariableKind = 'trait' | 'option' | 'optional-step' | 'found';

/** Something a variant can have in one of several ways. `values` are what findings print, in declared order. */
export interface Variable {
  readonly name: string;
  readonly values: readonly string[];
  readonly kind: VariableKind;
  /** For a numeric trait, what each value stands for; same length and order as `values`. */
  readonly numeric?: { readonly dimension: Dimension; readonly intervals: readonly Interval[] };
}

/** A variable as it is declared; a numeric trait gets its values only once all conditions are known. */
export type DeclaredVariable =
  | { readonly name: string; readonly values: readonly string[]; readonly kind: VariableKind }
  | { readonly name: string; readonly kind: VariableKind; readonly numeric: NumericTrait };

/** One term of a printed cube: the variable has one of the values. */
export interface NamedTerm {
  readonly variable: string;
  /** Place of the variable among `World.variables`. */
  readonly index: number;
  readonly kind: VariableKind;
  readonly values: readonly string[];
}

/** A set in words: holds where all terms of any one cube hold. `extent` says whether that is all or none of `care`. */
export interface NamedCover {
  readonly extent: 'none' | 'some' | 'all';
  readonly cubes: readonly (readonly NamedTerm[])[];
  /** False where the set is too ragged to be written out: each cube is true, but there are variants beside them. */
  readonly complete: boolean;
}

/**
 * The variables of one document and the manager of its diagrams. Variables keep their declared order everywhere but
 * inside the manager, where those that conditions speak of together stand together.
 */
export class World {
  readonly variables: readonly Variable[];
  readonly diagrams: Diagrams;
  private readonly places = new Map<string, number>();
  private readonly valuePlaces: ReadonlyMap<string, number>[];
  private readonly levels: number[];
  private readonly declaredAt: number[];
  private readonly covers: Covers;

  /**
   * @param variables in declared order; of two with one name the first counts, and a value named twice is one.
   * @param groups the names that each condition uses together; unknown names are left out.
   */
  constructor(variables: readonly Variable[], groups: readonly (readonly string[])[] = []) {
    const names = new Set<string>();
    this.variables = variables.flatMap((variable) => {
      if (names.has(variable.name)) return [];
      names.add(variable.name);
      return variable.numeric ? [variable] : [{ ...variable, values: [...new Set(variable.values)] }];
    });
    this.variables.forEach((variable, index) => {
      this.places.set(variable.name, index);
    });
    this.valuePlaces = this.variables.map(({ values }) => {
      const places = new Map<string, number>();
      values.forEach((value, place) => {
        places.set(value, place);
      });
      return places;
    });
    this.declaredAt = orderVariables([...names], groups).map((name) => this.places.get(name)!);
    this.levels = new Array(this.declaredAt.length).fill(0);
    this.declaredAt.forEach((index, level) => {
      this.levels[index] = level;
    });
    this.diagrams = new Diagrams(this.declaredAt.map((index) => this.variables[index]!.values.length));
    this.covers = new Covers(this.diagrams, this.declaredAt);
  }

  /** Place among `variables` of the one with this name, or undefined. */
  indexOf(name: string): number | undefined {
    return this.places.get(name);
  }

  /** The number by which `diagrams` knows the variable at this place. */
  levelAt(index: number): number {
    return this.levels[index]!;
  }

  /** The variable that `diagrams` knows by this number. */
  variableAt(level: number): Variable {
    return this.variables[this.declaredAt[level]!]!;
  }

  /** The set where the variable at a place has one of the values, given by their places. */
  literalAt(index: number, values: readonly number[]): Diagram {
    return this.diagrams.literal(this.levels[index]!, values);
  }

  /** The set where the named variable has one of the named values, or undefined where a name is unknown. */
  literal(name: string, values: readonly string[]): Diagram | undefined {
    const index = this.indexOf(name);
    if (index === undefined) return undefined;
    const found: number[] = [];
    for (const value of values) {
      const places = this.valuesNamed(index, value);
      if (places === undefined || places === 'uncut') return undefined;
      found.push(...places);
    }
    return this.literalAt(index, found);
  }

  /** The variants in which a condition holds. */
  set(condition: Condition): ConditionSet {
    return conditionToSet(this, condition);
  }

  /** A set in words, as short as can be within the variants of `care`; terms and ties in declared order. */
  describe(set: Diagram, care: Diagram = 1): NamedCover {
    const cover = this.covers.cover(set, care);
    return {
      extent: cover.extent,
      complete: cover.complete,
      cubes: cover.cubes.map((cube) =>
        cube.map((term) => {
          const { name, kind, values } = this.variableAt(term.variable);
          const index = this.declaredAt[term.variable]!;
          return { variable: name, index, kind, values: term.values.map((value) => values[value]!) };
        }),
      ),
    };
  }

  /** As `describe`, in the shape that a finding carries: an empty list is all of `care`. The set must not be empty within `care`. */
  cubesOf(set: Diagram, care: Diagram = 1): Cube[] {
    return this.describe(set, care).cubes.map((cube) =>
      Object.fromEntries(cube.map((term) => [term.variable, term.values])),
    );
  }

  /** One variant of a set as the place of a value per variable, in declared order; the first such; undefined where empty. */
  someVariant(set: Diagram): number[] | undefined {
    if (set === 0) return undefined;
    const chosen = new Array<number>(this.variables.length).fill(0);
    let at = set;
    while (at !== 1) {
      const level = this.diagrams.levelOf(at);
      let value = 0;
      while (this.diagrams.child(at, value) === 0) value++;
      chosen[this.declaredAt[level]!] = value;
      at = this.diagrams.child(at, value);
    }
    return chosen;
  }

  /** The terminal of a diagram in one variant, given as the place of a value per variable in declared order. */
  evaluate(f: Diagram, variant: readonly number[]): number {
    return this.diagrams.evaluate(
      f,
      this.declaredAt.map((index) => variant[index]!),
    );
  }

  /**
   * The places of the values that a written value names: one, or for a numeric trait all intervals within the written
   * measure or range. Undefined where there is no such value, 'uncut' where an interval lies across the measure.
   */
  valuesNamed(index: number, written: string): readonly number[] | 'uncut' | undefined {
    const place = this.valuePlaces[index]!.get(written);
    if (place !== undefined) return [place];
    const { numeric } = this.variables[index]!;
    if (numeric === undefined) return undefined;
    const bounds = boundsOfValue(written, numeric.dimension);
    if (bounds === undefined) return undefined;
    const places = placesWithin(numeric.intervals, bounds);
    return places.length === 0 ? undefined : places;
  }

  /** The places of the values within bounds; undefined where the variable is not numeric, 'uncut' as above. */
  valuesWithin(index: number, bounds: NumericBounds): readonly number[] | 'uncut' | undefined {
    const { numeric } = this.variables[index]!;
    return numeric === undefined ? undefined : placesWithin(numeric.intervals, bounds);
  }
}

/**
 * The world of a document from what is declared and every condition that stands in it: cuts numeric traits where a
 * condition draws a line, and puts together what conditions speak of together. Another set of conditions is another world.
 */
export function buildWorld(declared: readonly DeclaredVariable[], conditions: readonly Condition[]): World {
  const leaves = conditions.map(leavesOf);
  const variables = declared.map((variable): Variable => {
    if (!('numeric' in variable)) return variable;
    const asked = leaves.flat().filter((leaf) => leaf.variable === variable.name);
    const cut = numericValues(variable.numeric, cutValues(asked, variable.numeric.dimension));
    return {
      name: variable.name,
      kind: variable.kind,
      values: cut.map((value) => value.name),
      numeric: { dimension: variable.numeric.dimension, intervals: cut.map((value) => value.interval) },
    };
  });
  const groups = leaves.map((list) => [...new Set(list.map((leaf) => leaf.variable))]);
  return new World(variables, groups);
}
