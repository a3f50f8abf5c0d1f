import { checkAnnotations, checkAscending, checkRequiredOfMap } from './annotations';
import type { Checking, Holder, Key } from './checking';
import { checkCondition } from './conditions';
import { UNKNOWN, type Value } from './convert';
import { checkOperation, checkStep } from './operations';
import { guideSpot, type Spot } from './spots';
import { setValue, valueAt } from './values';

/** What became of a value: it is right, it is right but lost something from a list, or it must go. */
export type Outcome = 'kept' | 'lessened' | 'dropped';

/**
 * Checks what the types cannot say, and drops everything that is not right, so that what is left is of the types that
 * are generated. The structure must have been checked before.
 */
export function prune(checking: Checking, holder: Holder, key: Key, spot: Spot): Outcome {
  const { schema } = spot;
  let value = valueAt(holder, key);
  if (checking.isDoomed(holder, key) || value === UNKNOWN) return 'dropped';
  if (schema['x-condition']) return checkCondition(checking, holder, key) ? 'kept' : 'dropped';
  if (schema['x-operation'] && schema.items && isMap(value)) {
    value = listOfOne(checking, value);
    setValue(holder, key, value);
  }
  if (Array.isArray(value)) return pruneList(checking, value, spot);
  if (isMap(value)) {
    if (schema['x-step-or-operation']) {
      return 'do' in value ? checkStep(checking, holder, key) : checkOperation(checking, holder, key);
    }
    return schema['x-operation'] ? checkOperation(checking, holder, key) : pruneMap(checking, value, spot);
  }
  return checkAnnotations(checking, holder, key, spot) ? 'kept' : 'dropped';
}

const isMap = (value: Value): value is { [key: string]: Value } =>
  value !== null && typeof value === 'object' && !Array.isArray(value);

/** `do` may hold one operation; readers always find a list. */
function listOfOne(checking: Checking, operation: { [key: string]: Value }): Value[] {
  const list = [operation];
  const holding = checking.places.holdings.get(operation);
  if (holding) checking.places.hold(list, holding.node, holding.via);
  return list;
}

/** Prunes what a map holds; 'dropped' where it lacks what it must have. */
export function pruneMap(checking: Checking, map: { [key: string]: Value }, spot: Spot): Outcome {
  for (const key of Object.keys(map)) {
    const child = checking.child(spot, key);
    // A key that no schema knows and that still stands here is a place qualifier.
    const outcome = child === null ? placeOutcome(checking, map, key) : prune(checking, map, key, child);
    if (outcome === 'kept') continue;
    checking.lose(map, key);
    if (outcome === 'dropped') delete map[key];
  }
  for (const key of spot.schema.required ?? []) {
    if (Object.hasOwn(map, key)) continue;
    const fallback = checking.child(spot, key)?.schema['x-default'];
    if (fallback === undefined) return 'dropped';
    checking.lose(map, key);
    map[key] = structuredClone(fallback) as Value;
  }
  if (!Object.hasOwn(map, 'do') && isStep(spot) && checking.places.cutShort(map, checking.source)) {
    checking.lose(map, 'do');
  }
  return checkRequiredOfMap(checking, map, spot) && checkAscending(checking, map, spot) ? 'kept' : 'dropped';
}

const isStep = ({ schema }: Spot): boolean => schema.properties === guideSpot('step').schema.properties;

function placeOutcome(checking: Checking, map: Holder, key: string): Outcome {
  return checking.isDoomed(map, key) ? 'dropped' : 'kept';
}

/** Prunes a list. What must keep its place leaves a placeholder, the rest is closed up. */
function pruneList(checking: Checking, list: Value[], spot: Spot): Outcome {
  const child = checking.child(spot, 0);
  if (child === null) return 'kept';
  const placeholder =
    child.schema['x-operation'] || child.schema['x-step-or-operation']
      ? INVALID
      : child.schema['x-placeholder'];
  const left: number[] = [];
  let lost = false;
  for (let index = 0; index < list.length; index++) {
    if (prune(checking, list, index, child) !== 'dropped') {
      left.push(index);
      continue;
    }
    lost = true;
    if (placeholder === undefined) continue;
    const old = list[index]!;
    const stand = structuredClone(placeholder) as { [key: string]: Value };
    const holding = old !== null && typeof old === 'object' ? checking.places.holdings.get(old) : undefined;
    const written = holding?.node ?? checking.places.written(list, index);
    if (written) checking.places.hold(stand, written, holding?.via ?? null);
    for (const key of Object.keys(stand)) checking.lose(stand, key);
    list[index] = stand;
    left.push(index);
  }
  if (left.length < list.length) {
    const holding = checking.places.holdings.get(list);
    if (holding) holding.indexes = left;
    for (let index = 0; index < left.length; index++) list[index] = list[left[index]!]!;
    list.length = left.length;
  }
  return lost ? 'lessened' : 'kept';
}

const INVALID = { invalid: true };
