/** Traits that no vehicle file declares, known from the conditions that speak of them. */

import { parseQuantity, type Quantity } from '../units/quantity';
import { type Condition, leavesOf } from '../variants/condition';
import type { DeclaredVariable } from '../variants/world';
import { ANY_DIMENSION } from './variables';

/** Stands for what a trait may be beside the values that the guide speaks of. */
export const OTHER = 'other';

interface Seen {
  readonly values: Set<string>;
  readonly figures: number[];
  covered: boolean;
}

/**
 * A trait for each name that is neither declared nor a branch, with the values that conditions give it. Where `covers`
 * does not list them, there may be others.
 */
export function impliedVariables(
  declared: readonly DeclaredVariable[],
  conditions: readonly Condition[],
  covers: Condition,
): DeclaredVariable[] {
  const known = new Set(declared.map((variable) => variable.name));
  const seen = new Map<string, Seen>();
  for (const condition of conditions) {
    for (const leaf of leavesOf(condition)) {
      const { variable } = leaf;
      if (known.has(variable) || variable.startsWith('done:') || variable.startsWith('found:')) continue;
      const one = seen.get(variable) ?? { values: new Set<string>(), figures: [], covered: false };
      seen.set(variable, one);
      if ('values' in leaf) {
        for (const value of leaf.values) one.values.add(value);
        one.covered ||= condition === covers;
      } else
        one.figures.push(
          ...[leaf.atLeast, leaf.above, leaf.atMost, leaf.below].flatMap((figure) => figure ?? []),
        );
    }
  }
  return [...seen].flatMap(([name, one]): DeclaredVariable[] => {
    if (one.figures.length > 0) return [numericTrait(name, one)];
    const values = [...one.values];
    if (values.length === 0) return [];
    if (!one.covered && !values.includes(OTHER)) values.push(OTHER);
    return [{ name, kind: 'trait', values }];
  });
}

/** A range that reaches beyond every figure the guide compares with. */
function numericTrait(name: string, { values, figures }: Seen): DeclaredVariable {
  const read = [...values].flatMap((value): Quantity[] => {
    const result = parseQuantity(value, ANY_DIMENSION);
    return result.ok ? [result.quantity] : [];
  });
  const all = [...figures, ...read.map((one) => one.nominal)];
  const from = all.reduce((least, figure) => Math.min(least, figure), 0);
  const to = all.reduce((most, figure) => Math.max(most, figure), 0);
  return {
    name,
    kind: 'trait',
    numeric: {
      dimension: read[0]?.dimension ?? 'length',
      from: from * 2 - 1,
      to: to * 2 + 1,
      symbol: read[0]?.symbol ?? 'mm',
    },
  };
}
