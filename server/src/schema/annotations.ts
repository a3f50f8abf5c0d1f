import type { Fix } from '../findings/finding';
import { type Dimension, parseQuantity } from '../units/quantity';
import { DIMENSIONS, MOST_MINUTES } from '../units/table';
import { parseTyre } from '../units/tyre';
import { type Checking, type Holder, type Key, replacing } from './checking';
import { exactPlace, reportMissing, reportUnknownValue } from './reports';
import type { Spot } from './spots';
import { valueAt } from './values';
import { quoted, wanted } from './words';

/** What the types cannot say of a value: that a text is a quantity, a date or one of some words. False: drop it. */
export function checkAnnotations(checking: Checking, holder: Holder, key: Key, spot: Spot): boolean {
  const value = valueAt(holder, key);
  const { schema } = spot;
  if (typeof value === 'string') {
    if (schema['x-dimension']) return checkQuantity(checking, holder, key, spot);
    if (schema['x-date'] && !isDate(value)) {
      const place = exactPlace(checking, holder, key);
      checking.report('bad-date', place, `${quoted(value)} is not a day; write ${wanted(schema)}.`);
      return false;
    }
    if (schema['x-tyre']) {
      const read = parseTyre(value);
      if (!read.ok) checking.report('bad-tyre', exactPlace(checking, holder, key), read.message);
      return read.ok;
    }
    const allowed = schema['x-values'];
    if (allowed && !allowed.includes(value)) {
      reportUnknownValue(checking, holder, key, value, allowed);
      return false;
    }
    return true;
  }
  const least = schema['x-least'];
  if (typeof value === 'number' && least !== undefined && value < least) {
    const place = exactPlace(checking, holder, key);
    checking.report('bad-number', place, `${quoted(String(key))} cannot be less than ${least}.`);
    return false;
  }
  return true;
}

/** Keys that a map must have where a map stands. */
export function checkRequiredOfMap(checking: Checking, map: Holder, spot: Spot): boolean {
  const required = spot.schema['x-required-map'];
  const unless = spot.schema['x-required-unless'];
  if (!required || (unless !== undefined && Object.hasOwn(map, unless))) return true;
  const missing = required.find((key) => !Object.hasOwn(map, key));
  if (missing === undefined) return true;
  // What was wrong has been told of, and is no longer there; it is not missing.
  if (
    !required.some((key) => checking.lost.get(map)?.has(key)) &&
    !(unless && checking.lost.get(map)?.has(unless))
  ) {
    reportMissing(checking, map, missing, spot);
  }
  return false;
}

/** Checks that figures of a map go up in the order given: what is likely lies between the lowest and the highest. */
export function checkAscending(checking: Checking, map: Holder, spot: Spot): boolean {
  let before: { readonly key: string; readonly figure: number; readonly text: string } | null = null;
  for (const key of spot.schema['x-ascending'] ?? []) {
    const text = Object.hasOwn(map, key) ? valueAt(map, key) : null;
    const dimension = checking.child(spot, key)?.schema['x-dimension'];
    if (typeof text !== 'string' || dimension === undefined || dimension === 'any') continue;
    const read = parseQuantity(text, dimension as Dimension);
    if (!read.ok) continue;
    const figure = read.quantity.nominal;
    if (before !== null && figure < before.figure) {
      const message = `${quoted(key)} is ${text}, and ${quoted(before.key)} is ${before.text}: ${oneAfterAnother(spot)} go up.`;
      checking.report('bad-quantity', exactPlace(checking, map, key), message);
      return false;
    }
    before = { key, figure, text };
  }
  return true;
}

function oneAfterAnother(spot: Spot): string {
  const keys = spot.schema['x-ascending'] ?? [];
  return `${keys.slice(0, -1).join(', ')} and ${keys.at(-1)}`;
}

/** Checks that a text is a quantity of the dimension wanted; `x-words` may stand instead. A time is one of work, or of waiting. */
export function checkQuantity(checking: Checking, holder: Holder, key: Key, spot: Spot): boolean {
  const text = valueAt(holder, key) as string;
  const { schema } = spot;
  if (schema['x-words']?.includes(text)) return true;
  const dimension = schema['x-dimension'];
  const identity = `${dimension} ${text}`;
  if (checking.soundQuantities.has(identity)) return true;
  const result = parseQuantity(text, dimension === 'any' ? DIMENSIONS : (dimension as Dimension));
  if (result.ok && dimension === 'time' && result.quantity.high > MOST_MINUTES) {
    const place = exactPlace(checking, holder, key);
    checking.report(
      'bad-quantity',
      place,
      `${quoted(text)} is no time that a job takes; write 1000 h at most.`,
    );
    return false;
  }
  if (result.ok) {
    checking.soundQuantities.add(identity);
    return true;
  }
  const { problem } = result;
  const place = exactPlace(checking, holder, key);
  const fixes: Fix[] = [];
  // The problem's place counts in the text's characters; it can be mended where those stand as they are.
  if (problem.suggestion !== undefined && dimension !== 'any') {
    const mended =
      problem.code === 'missing-unit'
        ? `${text.trimEnd()} ${problem.suggestion}`
        : text.slice(0, problem.start) + problem.suggestion + text.slice(problem.end);
    const plain = /^[^:#'"\n&*!|>%@`[\]{},]*$/.test(mended) ? mended : JSON.stringify(mended);
    // Which unit was meant is for a person to say, unless it is a slip of one unit alone.
    fixes.push(replacing(place, plain, `Write ${quoted(mended)}`, problem.certain === true));
  }
  checking.report('bad-quantity', place, problem.message, fixes);
  return false;
}

/** True for a day of the calendar written as year, month and day. */
function isDate(text: string): boolean {
  const match = /^([0-9]{4})-([0-9]{2})-([0-9]{2})$/.exec(text);
  if (!match) return false;
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  const lengths = [
    31,
    year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28,
    31,
    30,
    31,
    30,
    31,
    31,
    30,
    31,
    30,
    31,
  ];
  return day >= 1 && day <= (lengths[month - 1] ?? 0);
}
