/** What is said of a thing, merged from several places; each value still knows where it is written. */

import type { Cursor } from './source';

/** A merged value: a map of merged values, or one value as it is written. */
export interface Body {
  /** Where the last that says it is written. */
  readonly cursor: Cursor | null;
  /** Set for maps. */
  readonly fields: ReadonlyMap<string, Body> | null;
}

/** Maps that are one value each: the last said replaces what was said before. */
const WHOLE: ReadonlySet<string> = new Set(['when', 'places']);

export const EMPTY: Body = { cursor: null, fields: new Map() };

/** A body from one place of a document, without the keys named. */
export function bodyOf(cursor: Cursor, without: ReadonlySet<string> = NONE): Body {
  if (!cursor.isMap) return { cursor, fields: null };
  const fields = new Map<string, Body>();
  for (const [key, value] of cursor.entries()) {
    if (without.has(key) || value.value === null) continue;
    fields.set(key, WHOLE.has(key) ? { cursor: value, fields: null } : bodyOf(value));
  }
  return { cursor, fields };
}

/** Maps by key, lists and scalars replaced; what `over` says wins. */
export function mergeBodies(base: Body, over: Body): Body {
  if (base.fields === null || over.fields === null) return over;
  if (over.fields.size === 0) return { cursor: over.cursor ?? base.cursor, fields: base.fields };
  if (base.fields.size === 0) return over;
  const fields = new Map(base.fields);
  for (const [key, value] of over.fields) {
    const below = fields.get(key);
    fields.set(key, below === undefined ? value : mergeBodies(below, value));
  }
  return { cursor: over.cursor ?? base.cursor, fields };
}

/** How many values a body holds in all, for the bound on what may be inherited. */
export function bodySize(body: Body): number {
  let size = 1;
  for (const field of body.fields?.values() ?? []) size += bodySize(field);
  return size;
}

/** A body without some of its keys. */
export function bodyWithout(body: Body, keys: ReadonlySet<string>): Body {
  if (body.fields === null || ![...keys].some((key) => body.fields!.has(key))) return body;
  return { cursor: body.cursor, fields: new Map([...body.fields].filter(([key]) => !keys.has(key))) };
}

export const field = (body: Body, key: string): Body | null => body.fields?.get(key) ?? null;
/** A value under a key where it is written; null where nobody says it. */
export const cursorOf = (body: Body, key: string): Cursor | null => body.fields?.get(key)?.cursor ?? null;
export const textOf = (body: Body, key: string): string | null => cursorOf(body, key)?.text ?? null;
export const textsOf = (body: Body, key: string): string[] => cursorOf(body, key)?.texts ?? [];
export const flagOf = (body: Body, key: string): boolean => cursorOf(body, key)?.value === true;
export const fieldsOf = (body: Body, key: string): ReadonlyMap<string, Body> =>
  body.fields?.get(key)?.fields ?? NO_FIELDS;

const NONE: ReadonlySet<string> = new Set();
const NO_FIELDS: ReadonlyMap<string, Body> = new Map();
