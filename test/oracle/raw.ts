// Small helpers to read plain parsed YAML without trusting its shape.

export type Raw = Record<string, unknown>;

export function isMap(value: unknown): value is Raw {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The value as a map; an empty one if it is something else. */
export function map(value: unknown): Raw {
  return isMap(value) ? value : {};
}

/** One value or a list of them, always as a list. */
export function list(value: unknown): unknown[] {
  if (value === undefined || value === null) return [];
  return Array.isArray(value) ? value : [value];
}

/** A scalar as text. */
export function text(value: unknown): string | undefined {
  if (typeof value === 'string') return value.trim();
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  return undefined;
}

/** One or many scalars as texts. */
export function texts(value: unknown): string[] {
  return list(value)
    .map(text)
    .filter((one): one is string => one !== undefined);
}

/** Maps by key, lists and scalars replaced: the later one wins. */
export function merge(base: Raw, over: Raw): Raw {
  const result: Raw = { ...base };
  for (const [key, value] of Object.entries(over)) {
    const before = result[key];
    result[key] = isMap(before) && isMap(value) ? merge(before, value) : value;
  }
  return result;
}
