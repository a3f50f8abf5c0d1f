import { distance } from 'fastest-levenshtein';
import { dimensionNames } from '../units/table';
import { UNKNOWN, type Value } from './convert';
import { type Schema, type SchemaType, typesOf } from './spots';

/** How schema findings say what is wanted, what was found, and what was probably meant. */

const MAX_SHOWN = 40;
const MAX_COMPARED = 60;

/** A key or a word in quotes, shortened where it is long. */
export function quoted(text: string): string {
  const line = text.replaceAll('\n', ' ');
  return `"${line.length > MAX_SHOWN ? `${line.slice(0, MAX_SHOWN)}…` : line}"`;
}

/** The known word nearest to what was written, if it is near enough to have been meant. */
export function nearest(written: string, known: Iterable<string>): string | null {
  if (written.length > MAX_COMPARED) return null;
  const plain = simplified(written);
  let best: string | null = null;
  let bestDistance = Math.max(1, Math.floor(plain.length / 3)) + 1;
  for (const word of known) {
    const apart = distance(plain, simplified(word));
    if (apart < bestDistance && apart < simplified(word).length) {
      best = word;
      bestDistance = apart;
    }
  }
  return best;
}

/** `limitedBy`, `limited_by` and `limited-by` are one word, differently joined. */
const simplified = (word: string): string => word.toLowerCase().replaceAll(/[-_ ]/g, '');

/** What a schema wants, in words, with an example: "a torque with its unit, such as 90 N·m". */
export function wanted(schema: Schema): string {
  const kinds = typesOf(schema).map((type) => wantedType(schema, type));
  const example = exampleOf(schema);
  return kinds.join(' or ') + (example === null ? '' : `, such as ${example}`);
}

function wantedType(schema: Schema, type: SchemaType): string {
  switch (type) {
    case 'string': {
      const dimension = schema['x-dimension'];
      if (dimension) {
        const name = (dimensionNames as Readonly<Record<string, string>>)[dimension] ?? 'a figure';
        return `${name} with its unit`;
      }
      if (schema['x-date']) return 'a date';
      return schema['x-names'] || schema['x-values'] || schema.enum ? 'a word' : 'a text';
    }
    case 'integer':
      return 'a whole number';
    case 'number':
      return 'a number';
    case 'boolean':
      return 'true or false';
    case 'array':
      return 'a list';
    default:
      return schema.additionalProperties && !schema.properties ? 'a map from names' : 'a map of keys';
  }
}

/** The example of a schema as a guide would write it on one line; null where it has none. */
export function exampleOf(schema: Schema): string | null {
  const example = schema.examples?.[0] ?? schema.enum?.[0];
  return example === undefined ? null : written(example);
}

function written(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(written).join(', ')}]`;
  if (value !== null && typeof value === 'object') {
    const pairs = Object.entries(value).map(([key, inner]) => `${key}: ${written(inner)}`);
    return pairs.length === 0 ? '{}' : `{ ${pairs.join(', ')} }`;
  }
  return String(value);
}

/** What was found, in words. */
export function found(value: Value): string {
  if (value === null || value === UNKNOWN) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  switch (typeof value) {
    case 'object':
      return 'a map';
    case 'boolean':
      return quoted(String(value));
    case 'number':
      return `the number ${value}`;
    default:
      return value === '' ? 'an empty text' : `the text ${quoted(String(value))}`;
  }
}

/** `a, b or c`, at most eight of them. */
export function oneOf(words: readonly string[]): string {
  if (words.length > 8) return `${words.slice(0, 8).join(', ')} …`;
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}
