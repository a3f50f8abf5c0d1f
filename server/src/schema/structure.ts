import { type Checking, type Holder, type Key, replacing } from './checking';
import { UNKNOWN, type Value } from './convert';
import { verbValidators } from './generated/tables';
import type { Validator, ValidatorError } from './generated/validators.mjs';
import { reportMissing, reportUnknownValue, reportWrongType } from './reports';
import { guideSpot, type Schema, type Spot } from './spots';
import { isTradeWord, keyOfTradeWord } from './trade-words';
import { setValue, takenAsText, textOf, valueAt } from './values';
import { isOnlySlip, isSlip, nearest, oneOf, quoted } from './words';

/**
 * Turns what a validator reports into findings, one for each mistake, and marks what must be dropped. Numbers and
 * truth values are taken as texts where a text is wanted (`revision: 3`). Returns false when the root itself is wrong.
 */
export function checkStructure(checking: Checking, validator: Validator, root: Value, spot: Spot): boolean {
  if (validator(root)) return true;
  const faults = groupByPlace(validator.errors ?? []);
  let rootStands = true;
  for (const fault of faults) {
    if (!fault.wrongType && !fault.wrongValue) continue;
    const target = locate(checking, root, spot, fault.path);
    if (target === null) continue;
    if (target.holder === null) rootStands = false;
    else checkValue(checking, target.holder, target.key, target.spot, fault);
  }
  for (const fault of faults) {
    if (fault.unknownKeys.length === 0 && fault.missingKeys.length === 0) continue;
    const target = locate(checking, root, spot, fault.path);
    if (target === null || target.value === null || typeof target.value !== 'object') continue;
    const holder = target.value as Holder;
    const meant = new Set<string>();
    let comma = false;
    for (const key of fault.unknownKeys) {
      if (brokenAtComma(checking, holder, key)) {
        checking.doom(holder, key);
        if (!comma) reportComma(checking, holder, key);
        comma = true;
        continue;
      }
      const near = checkUnknownKey(checking, holder, key, target.spot);
      if (near !== null) meant.add(near);
    }
    for (const key of fault.missingKeys) {
      if (!meant.has(key)) reportMissing(checking, holder, key, target.spot);
    }
  }
  return rootStands;
}

interface Fault {
  readonly path: readonly string[];
  wrongType: boolean;
  wrongValue: boolean;
  readonly unknownKeys: string[];
  readonly missingKeys: string[];
}

/** One fault for each place: a value of the wrong type is also none of the allowed values, and that is one mistake. */
function groupByPlace(errors: readonly ValidatorError[]): Fault[] {
  const faults = new Map<string, Fault>();
  for (const error of errors) {
    let fault = faults.get(error.instancePath);
    if (!fault) {
      const path = error.instancePath.split('/').slice(1).map(unescapePointer);
      fault = { path, wrongType: false, wrongValue: false, unknownKeys: [], missingKeys: [] };
      faults.set(error.instancePath, fault);
    }
    if (error.keyword === 'type') fault.wrongType = true;
    else if (error.keyword === 'required') fault.missingKeys.push(String(error.params.missingProperty));
    else if (error.keyword === 'additionalProperties') {
      fault.unknownKeys.push(String(error.params.additionalProperty));
    } else fault.wrongValue = true;
  }
  return [...faults.values()];
}

const unescapePointer = (token: string): string => token.replaceAll('~1', '/').replaceAll('~0', '~');

interface Target {
  readonly holder: Holder | null;
  readonly key: Key;
  readonly value: Value;
  readonly spot: Spot;
}

function locate(checking: Checking, root: Value, rootSpot: Spot, path: readonly string[]): Target | null {
  let target: Target = { holder: null, key: '', value: root, spot: rootSpot };
  for (const token of path) {
    const holder = target.value;
    if (holder === null || typeof holder !== 'object') return null;
    const key = Array.isArray(holder) ? Number(token) : token;
    const spot = checking.child(target.spot, key);
    if (spot === null) return null;
    target = { holder, key, value: valueAt(holder, key), spot };
  }
  return target;
}

function checkValue(checking: Checking, holder: Holder, key: Key, spot: Spot, fault: Fault): void {
  const { schema } = spot;
  let value = valueAt(holder, key);
  if (value === UNKNOWN) {
    checking.doom(holder, key);
    return;
  }
  if (fault.wrongType) {
    const text = takenAsText(checking, holder, key, schema);
    if (text === null) {
      reportWrongType(checking, holder, key, spot);
      checking.doom(holder, key);
      return;
    }
    setValue(holder, key, text);
    value = text;
  }
  const allowed = schema.enum ?? (schema.const === undefined ? null : [schema.const]);
  if (allowed === null || typeof value !== 'string' || allowed.includes(value)) return;
  reportUnknownValue(checking, holder, key, value, allowed);
  checking.doom(holder, key);
}

/** In a map in braces a comma ends a text: what follows it reads as a key of its own, without a value. */
function brokenAtComma(checking: Checking, holder: Holder, key: string): boolean {
  if (valueAt(holder, key) !== null || checking.places.node(holder)?.style !== 'flow') return false;
  const keys = checking.places.keys(holder);
  const before = keys[keys.indexOf(key) - 1];
  if (before === undefined) return false;
  const value = valueAt(holder, before);
  return value === null || (typeof value === 'string' && /[ .]/.test(key + value));
}

function reportComma(checking: Checking, holder: Holder, key: string): void {
  const place = checking.places.key(holder, key);
  const message = `${quoted(key)} is not a key that may stand here; where a text holds a comma, put the whole text in quotes.`;
  checking.report('unknown-key', place, message);
}

/** Reports a key that nothing knows; returns the known key that was probably meant. */
function checkUnknownKey(checking: Checking, holder: Holder, key: string, spot: Spot): string | null {
  const { places, placeKeys } = checking;
  const { schema } = spot;
  const isOperation = verbOf(schema);
  const isStep = schema.properties === guideSpot('step').schema.properties;
  if (placeKeys.has(key) && (isOperation !== null || isStep)) {
    checkPlaceQualifier(checking, holder, key);
    return null;
  }
  checking.doom(holder, key);
  const place = places.key(holder, key);
  if (isStep && Object.hasOwn(verbValidators, key)) {
    checking.report(
      'unknown-key',
      place,
      `${quoted(key)} is an operation; it belongs into the list under "do".`,
    );
    checking.lose(holder, 'do');
    return null;
  }
  const known = Object.keys(schema.properties ?? {});
  const free = known.filter((name) => !Object.hasOwn(holder, name));
  const allowed = [...free, ...(isStep || isOperation ? placeKeys : [])];
  const slip = nearest(key, allowed);
  // One letter away is a slip; a word of the trade counts before what is only somewhat like it.
  const meant = keyOfTradeWord(key, allowed);
  const isWord = meant !== null && slip !== null && isTradeWord(key, slip);
  const near = (slip !== null && isSlip(key, slip) && !isWord ? slip : meant) ?? slip;
  const start =
    isOperation === null
      ? `${quoted(key)} is not a key that may stand here`
      : `${quoted(key)} does not go with ${quoted(isOperation)}`;
  if (near !== null) {
    checking.lose(holder, near);
    const fix = replacing(place, near, `Write ${quoted(near)}`, isOnlySlip(key, allowed));
    checking.report('unknown-key', place, `${start}; ${quoted(near)} was probably meant.`, [fix]);
  } else if (isOperation !== null && Object.hasOwn(guideSpot('step').schema.properties ?? {}, key)) {
    checking.report('unknown-key', place, `${start}; it is said of the whole step.`);
  } else {
    checking.report(
      'unknown-key',
      place,
      known.length > 8 ? `${start}.` : `${start}; known are ${oneOf(known)}.`,
    );
  }
  return near;
}

/** The verb that a schema is of, or null. */
function verbOf(schema: Schema): string | null {
  const verb = schema.required?.length === 1 ? schema.required[0]! : null;
  if (verb === null || !Object.hasOwn(verbValidators, verb)) return null;
  return schema.properties === guideSpot(`verb-${verb}`).schema.properties ? verb : null;
}

const PLACE_SPOT: Spot = {
  file: 'install.schema.json',
  schema: {
    type: ['string', 'array'],
    items: { type: 'string' },
    examples: ['front'],
    'x-names': 'place',
  },
};

/** A place qualifier takes one place or a list of them. */
function checkPlaceQualifier(checking: Checking, holder: Holder, key: string): void {
  const value = valueAt(holder, key);
  const list = Array.isArray(value) ? value : [value];
  for (let index = 0; index < list.length; index++) {
    const [at, name]: [Holder, Key] = Array.isArray(value) ? [value, index] : [holder, key];
    const word = valueAt(at, name);
    if (typeof word === 'string') continue;
    if (typeof word === 'number' || typeof word === 'boolean') {
      setValue(at, name, textOf(checking, at, name, word));
      continue;
    }
    if (word !== UNKNOWN) reportWrongType(checking, at, name, PLACE_SPOT);
    checking.doom(holder, key);
  }
}
