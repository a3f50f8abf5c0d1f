/** What the conditions of a document may be made of. */

import { ANY_DIMENSION, optionsOf, traitsOf } from '../model/variables';
import { BOUNDS } from '../schema/conditions';
import type { Schema } from '../schema/spots';
import { parseQuantity } from '../units/quantity';
import type { DeclaredVariable } from '../variants/world';
import { type Candidate, candidate } from './candidates';
import type { OpenGuide } from './guides';
import type { Closure } from './project';

/** A trait or an option, with its values where they are few enough to be named. */
interface ConditionVariable {
  readonly name: string;
  readonly kind: string;
  readonly values: readonly string[];
  readonly numeric: boolean;
}

/** The traits and options that conditions may speak of: a guide's own, else those of its vehicles and of the kit itself. */
export function conditionVariables(guide: OpenGuide | null, closure: Closure): ConditionVariable[] {
  if (guide !== null)
    return guide.model.world.variables.flatMap(({ name, kind, values, numeric }) =>
      name.includes(':')
        ? []
        : [
            {
              name,
              kind,
              values: numeric ? values.filter(isFigure) : values,
              numeric: numeric !== undefined,
            },
          ],
    );
  const own = closure.opened(closure.document);
  const declared: DeclaredVariable[] =
    own.kind === 'vehicle'
      ? traitsOf(own)
      : own.kind === 'kit'
        ? [...optionsOf(own), ...(closure.library.vehicles ?? []).flatMap(traitsOf)]
        : [];
  const byName = new Map(declared.map((one) => [one.name, one]));
  return [...byName.values()].map((one) => {
    if (!('numeric' in one)) return { ...one, numeric: false };
    const values = 'list' in one.numeric ? one.numeric.list.map(({ name }) => name) : [];
    return { name: one.name, kind: one.kind, values, numeric: true };
  });
}

/** Of a range the values that the world knows are stretches, which nobody writes. */
const isFigure = (value: string): boolean => parseQuantity(value, ANY_DIMENSION).ok;

/** The keys of a condition. */
export function conditionKeys(guide: OpenGuide | null, closure: Closure): Candidate[] {
  const branches = [
    candidate('done', 'an optional step was done', 'its id', 2),
    candidate('found', 'a measure found something', 'the word of its `else`', 2),
  ];
  return [
    ...conditionVariables(guide, closure).map(({ name, kind, values }) =>
      candidate(name, kind, values.join(', '), 0),
    ),
    ...(guide === null ? [] : branches),
    candidate('not', 'a condition turned round', 'a condition', 2),
  ];
}

/** What may stand under a key of a condition. */
export function conditionValues(key: string, guide: OpenGuide | null, closure: Closure): Candidate[] {
  if (guide !== null && (key === 'done' || key === 'found')) {
    const names = guide.model.world.variables.flatMap(({ name }) =>
      name.startsWith(`${key}:`) ? [name.slice(key.length + 1)] : [],
    );
    const titles = new Map(guide.model.steps.map(({ id, title }) => [id, title]));
    return names.map((name) => candidate(name, key === 'done' ? (titles.get(name) ?? '') : 'found', '', 0));
  }
  const variable = conditionVariables(guide, closure).find(({ name }) => name === key);
  return (variable?.values ?? []).map((value) => candidate(value, key, '', 0));
}

/** Whole conditions of one value, for where none stands yet. */
export function wholeConditions(guide: OpenGuide | null, closure: Closure): Candidate[] {
  return conditionVariables(guide, closure).flatMap(({ name, kind, values }) =>
    values.map((value) => candidate(`{ ${name}: ${value} }`, kind, '', 0)),
  );
}

const ABOUT: Readonly<Record<(typeof BOUNDS)[number], string>> = {
  'at-least': 'This figure and more, with its unit.',
  above: 'More than this figure, with its unit.',
  'at-most': 'This figure and less, with its unit.',
  below: 'Less than this figure, with its unit.',
};

/** The bounds that a trait of figures may be held against. */
export const BOUNDS_SCHEMA: Schema = {
  type: 'object',
  properties: Object.fromEntries(
    BOUNDS.map((word): [string, Schema] => [word, { type: 'string', description: ABOUT[word] }]),
  ),
};

/** A condition within another. */
export const CONDITION_SCHEMA: Schema = { type: 'object', 'x-condition': true };
