import type { Checking, Holder, Key } from './checking';
import type { Value } from './convert';
import { type Schema, typesOf } from './spots';

/** Reading and changing a value in its list or map. */

export function valueAt(holder: Holder, key: Key): Value {
  const value = (holder as { [key: Key]: Value })[key];
  return value === undefined ? null : value;
}

export function setValue(holder: Holder, key: Key, value: Value): void {
  (holder as { [key: Key]: Value })[key] = value;
}

/** The text of a number or truth value where a text may stand; null where it may not. */
export function takenAsText(checking: Checking, holder: Holder, key: Key, schema: Schema): string | null {
  const value = valueAt(holder, key);
  if ((typeof value !== 'number' && typeof value !== 'boolean') || !typesOf(schema).includes('string'))
    return null;
  return textOf(checking, holder, key, value);
}

/** A number as it is written, so that `8.80` keeps its nought. */
export function textOf(checking: Checking, holder: Holder, key: Key, value: number | boolean): string {
  const place = checking.places.origin(holder, key) ?? checking.places.value(holder, key);
  const text = checking.source?.slice(place.span.start, place.span.end) ?? '';
  return text !== '' && text.length < 40 && Number(text) === value ? text : String(value);
}
