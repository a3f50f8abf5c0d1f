/** Sets of variants of two versions held against each other: each has a world of its own, so that they are compared as written out. */

import type { Cube } from '../findings/finding';
import { variantsInWords } from '../findings/words';
import type { Model } from '../model/model';
import type { Diagram } from '../variants/diagram';
import type { Variable } from '../variants/world';

/** A set of variants that outlives its world. */
export interface Variants {
  readonly cubes: readonly Cube[];
  /** `only with lockers: fitted`; null where it is all that the guide covers. */
  readonly words: string | null;
  /** Alike where the sets are; ranges of a numeric trait are told by their ends, wherever conditions cut them. */
  readonly key: string;
}

export const ALL: Variants = { cubes: [], words: null, key: '' };

/**
 * A set of a model's world; an empty one has no variants and says so.
 * @param care the variants that are looked at; those that the guide covers, unless told otherwise.
 */
export function variantsOf(model: Model, set: Diagram, care: Diagram = model.universe): Variants {
  if (!model.world.diagrams.intersects(set, care)) return { cubes: [], words: 'never', key: 'never' };
  return variantsOfCubes(
    model,
    model.world.diagrams.implies(care, set) ? [] : model.world.cubesOf(set, care),
  );
}

/** A set as findings carry it. */
export function variantsOfCubes(model: Model, cubes: readonly Cube[]): Variants {
  if (cubes.length === 0) return ALL;
  const key = cubes
    .map((cube) =>
      Object.entries(cube)
        .map(([name, values]) => `${name}: ${valuesKey(model, name, values)}`)
        .sort()
        .join('; '),
    )
    .sort()
    .join(' | ');
  return { cubes, words: variantsInWords(cubes), key };
}

function valuesKey({ world }: Model, name: string, values: readonly string[]): string {
  const index = world.indexOf(name);
  const variable = index === undefined ? undefined : world.variables[index];
  return variable === undefined
    ? [...values].sort().join(', ')
    : rangesOf(variable, values).sort().join(', ');
}

/** Values as they are, neighbouring stretches of a numeric trait as one. */
export function rangesOf(variable: Variable, values: readonly string[]): string[] {
  const { numeric } = variable;
  if (numeric === undefined) return [...values];
  const pieces = values.flatMap((value) => numeric.intervals[variable.values.indexOf(value)] ?? []);
  const joined: { low: number; high: number; lowOpen: boolean; highOpen: boolean }[] = [];
  for (const piece of [...pieces].sort((a, b) => a.low - b.low || a.high - b.high)) {
    const last = joined.at(-1);
    if (last !== undefined && last.high === piece.low && !(last.highOpen && piece.lowOpen)) {
      last.high = piece.high;
      last.highOpen = piece.highOpen;
    } else joined.push({ ...piece });
  }
  return joined.map(
    ({ low, high, lowOpen, highOpen }) => `${lowOpen ? '>' : ''}${low}..${highOpen ? '<' : ''}${high}`,
  );
}

export type Extent = 'same' | 'more' | 'fewer' | 'others';

/** What became of a set from the one version to the other, as far as the worlds understand each other. */
export function extentOf(before: Variants, after: Variants, later: Model): Extent {
  if (before.key === after.key) return 'same';
  if (after.cubes.length === 0 && after.words === null) return 'more';
  if (before.cubes.length === 0 && before.words === null) return 'fewer';
  const { diagrams } = later.world;
  const [old, fresh] = [setOf(later, before.cubes), setOf(later, after.cubes)];
  if (old === null || fresh === null) return 'others';
  const [o, f] = [diagrams.and(old, later.universe), diagrams.and(fresh, later.universe)];
  if (o === f) return 'same';
  if (diagrams.implies(o, f)) return 'more';
  return diagrams.implies(f, o) ? 'fewer' : 'others';
}

function setOf({ world }: Model, cubes: readonly Cube[]): Diagram | null {
  const { diagrams } = world;
  let set: Diagram = 0;
  for (const cube of cubes) {
    let all: Diagram = 1;
    for (const [name, values] of Object.entries(cube)) {
      const one = world.literal(name, values);
      if (one === undefined) return null;
      all = diagrams.and(all, one);
    }
    set = diagrams.or(set, all);
  }
  return set;
}
