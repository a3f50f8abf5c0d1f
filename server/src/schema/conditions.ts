import { checkQuantity } from './annotations';
import { type Checking, type Holder, type Key, replacing } from './checking';
import { UNKNOWN } from './convert';
import type { Bounds, Condition, ConditionMap } from './generated/types';
import { exactPlace, reportWrongType } from './reports';
import type { Spot } from './spots';
import { setValue, textOf, valueAt } from './values';
import { nearest, oneOf, quoted } from './words';

export const BOUNDS = ['at-least', 'above', 'at-most', 'below'] as const;

const CONDITION: Spot = {
  file: 'vehicle.schema.json',
  schema: { type: ['object', 'array'], examples: [{ lockers: 'fitted' }] },
};
const ONE_CONDITION: Spot = {
  file: 'vehicle.schema.json',
  schema: { type: 'object', examples: [{ lockers: 'fitted' }] },
};
const WORD: Spot = {
  file: 'vehicle.schema.json',
  schema: { type: ['string', 'array'], 'x-names': 'trait-value', examples: ['fitted'] },
};
const FIGURE: Spot = {
  schema: { type: 'string', 'x-dimension': 'any', examples: ['75 mm'] },
  file: 'vehicle.schema.json',
};

/**
 * Checks the form of a condition; whether its traits exist is for those who know the vehicle. False: one part of it is
 * wrong, and since less of a condition would say something else, all of it is dropped.
 */
export function checkCondition(checking: Checking, holder: Holder, key: Key): boolean {
  const value = valueAt(holder, key);
  if (Array.isArray(value)) return all(value, (index) => checkMap(checking, value, index, ONE_CONDITION));
  return checkMap(checking, holder, key, CONDITION);
}

function checkMap(checking: Checking, holder: Holder, key: Key, wants: Spot): boolean {
  const map = valueAt(holder, key);
  if (map === UNKNOWN) return false;
  if (map === null || typeof map !== 'object' || Array.isArray(map))
    return wrong(checking, holder, key, wants);
  let sound = true;
  for (const name of Object.keys(map)) {
    if (!(name === 'not' ? checkCondition(checking, map, name) : checkTerm(checking, map, name)))
      sound = false;
  }
  return sound;
}

function checkTerm(checking: Checking, map: Holder, name: string): boolean {
  const value = valueAt(map, name);
  if (Array.isArray(value)) return all(value, (index) => checkWord(checking, value, index));
  if (value !== null && typeof value === 'object') return checkBounds(checking, value);
  return checkWord(checking, map, name);
}

function checkWord(checking: Checking, holder: Holder, key: Key): boolean {
  const value = valueAt(holder, key);
  if (typeof value === 'string') return true;
  if (value === UNKNOWN) return false;
  if (typeof value !== 'number' && typeof value !== 'boolean') return wrong(checking, holder, key, WORD);
  setValue(holder, key, textOf(checking, holder, key, value));
  return true;
}

function checkBounds(checking: Checking, bounds: { [key: string]: unknown } & Holder): boolean {
  const names = Object.keys(bounds);
  if (names.length === 0) {
    const place = checking.places.object(bounds);
    checking.report(
      'bad-condition',
      place,
      `A bound is missing here: ${oneOf(BOUNDS)}, such as at-least: 75 mm.`,
    );
    return false;
  }
  let sound = true;
  for (const name of names) {
    if (!(BOUNDS as readonly string[]).includes(name)) {
      const place = checking.places.key(bounds, name);
      const near = nearest(name, BOUNDS);
      const end = near === null ? `allowed is ${oneOf(BOUNDS)}` : `${quoted(near)} was probably meant`;
      const fixes = near === null ? [] : [replacing(place, near, `Write ${quoted(near)}`)];
      checking.report('bad-condition', place, `${quoted(name)} is not a bound of a figure; ${end}.`, fixes);
      sound = false;
    } else sound = checkFigure(checking, bounds, name) && sound;
  }
  return sound;
}

function checkFigure(checking: Checking, bounds: Holder, name: string): boolean {
  const value = valueAt(bounds, name);
  if (value === UNKNOWN) return false;
  if (typeof value === 'number') setValue(bounds, name, textOf(checking, bounds, name, value));
  else if (typeof value !== 'string') return wrong(checking, bounds, name, FIGURE);
  return checkQuantity(checking, bounds, name, FIGURE);
}

function wrong(checking: Checking, holder: Holder, key: Key, wants: Spot): boolean {
  const value = valueAt(holder, key);
  if (value === null || typeof value !== 'object') reportWrongType(checking, holder, key, wants);
  else {
    const message =
      'A condition holds names with a value, a list of values or a bound, such as lockers: fitted.';
    checking.report('bad-condition', exactPlace(checking, holder, key), message);
  }
  return false;
}

function all(list: readonly unknown[], check: (index: number) => boolean): boolean {
  let sound = true;
  for (let index = 0; index < list.length; index++) sound = check(index) && sound;
  return sound;
}

/** One term of a condition, told apart. */
export type ConditionTerm =
  | { readonly kind: 'values'; readonly name: string; readonly values: readonly string[] }
  | { readonly kind: 'bounds'; readonly name: string; readonly bounds: Bounds }
  | { readonly kind: 'not'; readonly name: 'not'; readonly condition: Condition };

/** The maps of a condition, of which one must hold. */
export function conditionMaps(condition: Condition): readonly ConditionMap[] {
  return Array.isArray(condition) ? condition : [condition];
}

/** The terms of one map, all of which must hold. */
export function conditionTerms(map: ConditionMap): ConditionTerm[] {
  return Object.entries(map).flatMap(([name, value]): ConditionTerm[] => {
    if (value === undefined) return [];
    if (name === 'not') return [{ kind: 'not', name, condition: value as Condition }];
    if (typeof value === 'string') return [{ kind: 'values', name, values: [value] }];
    if (Array.isArray(value)) return [{ kind: 'values', name, values: value as string[] }];
    return [{ kind: 'bounds', name, bounds: value as Bounds }];
  });
}
