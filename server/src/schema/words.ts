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
  let bestScore = Number.POSITIVE_INFINITY;
  for (const word of known) {
    const other = simplified(word);
    const swapped = areSwapped(plain, other);
    const apart = swapped ? 1 : distance(plain, other);
    if (apart > Math.max(1, Math.floor(Math.max(plain.length, other.length) * 0.4)) || apart >= other.length)
      continue;
    // Of words equally near, the one of the same letters, then the one that begins and ends alike.
    const alike = sharedStart(plain, other) + sharedStart(reversed(plain), reversed(other));
    const score = apart - alike / (4 * MAX_COMPARED) - (swapped ? 0.5 : 0);
    if (score < bestScore) {
      best = word;
      bestScore = score;
    }
  }
  return best;
}

/** True for words that are one, or differ by one letter or by two that changed places. */
export function isSlip(written: string, known: string): boolean {
  const [a, b] = [simplified(written), simplified(known)];
  return areSwapped(a, b) || distance(a, b) <= 1;
}

/** True where a word is a slip of one known word and of no other, so that nobody need be asked which was meant. */
export function isOnlySlip(written: string, known: Iterable<string>): boolean {
  let count = 0;
  for (const word of known) if (isSlip(written, word)) count++;
  return count === 1;
}

/** True for words in which two neighbouring letters changed places: `wiht`. */
function areSwapped(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  const at = sharedStart(a, b);
  return a[at] === b[at + 1] && a[at + 1] === b[at] && a.slice(at + 2) === b.slice(at + 2) && a !== b;
}

const reversed = (word: string): string => [...word].reverse().join('');

function sharedStart(a: string, b: string): number {
  let length = 0;
  while (length < a.length && a[length] === b[length]) length++;
  return length;
}

/** `limitedBy`, `limited_by` and `limited-by` are one word, differently joined. */
const simplified = (word: string): string => word.toLowerCase().replaceAll(/[-_ ]/g, '');

/** What a schema wants, in words, with an example: "a torque with its unit, such as 90 N·m". */
export function wanted(schema: Schema): string {
  const kinds = typesOf(schema).map((type) => wantedType(schema, type));
  const example = exampleOf(schema);
  // The sentence ends after the example: its own full stop is left out.
  return kinds.join(' or ') + (example === null ? '' : `, such as ${example.replace(/\.$/, '')}`);
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
      if (schema['x-tyre']) return 'the code of a tyre';
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
