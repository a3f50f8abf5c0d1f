import { schemaAt } from '../schema/describe';
import type { Schema } from '../schema/spots';
import { follow, keyName } from '../text/access';
import type { Node, Reading } from '../text/tree';
import { type At, conditionMapAt, lookAt, placeInGuide, traitAt } from './at';
import { BOUNDS_SCHEMA, CONDITION_SCHEMA } from './condition-words';
import { type Document, readDocument } from './document';

/** Where a writer is typing: which slot of the document a word there would fill. */
export interface Asked {
  /** The word that stands there so far. */
  readonly start: number;
  readonly end: number;
  readonly slot: 'key' | 'value';
  /** Key slots: the schema of the map; value slots: that of the value. */
  readonly schema: Schema;
  /** The keys that lead to the map, or to the value. */
  readonly keys: readonly (string | number)[];
  /** Other keys of the map that the slot is in, with what is written under them. */
  readonly beside: ReadonlyMap<string, Node>;
  /** A colon follows already. */
  readonly hasColon: boolean;
  /** What is to be written before the word: on an empty line under a list, the dash of its next element. */
  readonly lead: '' | '- ';
  readonly step: string | null;
  readonly operation: string | null;
  /** The document as it would be with some word there. */
  readonly document: Document;
  readonly at: At;
}

/** Stands for whatever will be written; no document has it. */
const STANDIN = 'kitproof-stand-in';

/**
 * What is asked for at an offset: nothing, one thing, or on an empty line the next element of a list and a key of the map
 * around it. The text is read once more with a stand-in for the word, as a key and as a value, since what is half typed has
 * no place in a tree.
 */
export function askedAt(document: Document, offset: number): Asked[] {
  const { text } = document;
  let start = offset;
  while (start > 0 && isWord(text.charCodeAt(start - 1))) start--;
  let end = offset;
  while (end < text.length && isWord(text.charCodeAt(end))) end++;
  let line = start;
  while (line > 0 && text[line - 1] !== '\n' && text[line - 1] !== '\r') line--;
  const before = text.slice(line, start);
  if (before.includes('#') && /(^|\s)#/.test(before)) return [];
  const word = { start, end, line, before };
  const list = before.trim() === '' ? listAbove(text, line, before.length) : null;
  const plain = list === 'alone' ? null : asked(document, word, '');
  // A condition is a map; that it may be a list of them is rarely wanted.
  const element = list === null || plain?.schema['x-condition'] ? null : asked(document, word, '- ');
  return [element, plain].filter((one) => one !== null);
}

interface Word {
  readonly start: number;
  readonly end: number;
  /** Where its line begins. */
  readonly line: number;
  /** What stands before it there. */
  readonly before: string;
}

function asked(document: Document, word: Word, lead: Asked['lead']): Asked | null {
  const { start, end, line, before } = word;
  const { text } = document;
  const hasColon = text[end] === ':';
  const closing = closersFor(text, line, start, end);
  const where = { start, end, hasColon, lead };
  if (canBeKey(before)) {
    const asKey = standingIn(document, word, lead, hasColon ? STANDIN : `${STANDIN}: x${closing}`);
    if (asKey?.at.onKey === true) {
      const keys = asKey.at.keys.slice(0, -1);
      const { reading, kind } = asKey.document;
      const schema = schemaAt(kind!, reading.root!, reading, keys);
      if (schema !== null && takesKeys(schema)) return { ...made(asKey, keys, schema, 'key'), ...where };
      // Of what is within a condition the schema says nothing.
      const condition = conditionMapAt(asKey.document, keys);
      if (condition !== null) {
        const inner = condition.is === 'bounds' ? BOUNDS_SCHEMA : CONDITION_SCHEMA;
        return { ...made(asKey, keys, inner, 'key'), ...where };
      }
    }
  }
  const asValue = standingIn(document, word, lead, STANDIN + closing);
  if (asValue === null || asValue.at.onKey) return null;
  // Of the values in a condition the schema says nothing: traits are the guide's own.
  const schema = asValue.at.schema ?? (traitAt(asValue.document, asValue.at) === null ? null : {});
  if (schema === null) return null;
  return { ...made(asValue, asValue.at.keys, schema, 'value'), ...where };
}

/**
 * Whether an element of a list may begin at a column of an empty line: one begins there above, or a key without a value
 * stands over it. `beside` where a key may stand there as well, `alone` where not.
 */
function listAbove(text: string, line: number, column: number): 'alone' | 'beside' | null {
  let inList = false;
  for (let end = line - 1; end >= 0; ) {
    const start = text.lastIndexOf('\n', end - 1) + 1;
    const above = text.slice(start, end).trimEnd();
    const indent = above.length - above.trimStart().length;
    end = start - 1;
    if (above === '' || above.trimStart().startsWith('#') || indent > column) continue;
    const dash = /^\s*-(?:\s|$)/.test(above);
    if (indent === column && dash) {
      inList = true;
      continue;
    }
    // The key over the list: at the column of its dashes, or further to the left.
    const opens = /:(?:\s+[&!]\S+)*$/.test(above);
    if (inList) return indent === column ? 'beside' : 'alone';
    return opens && indent < column ? 'beside' : null;
  }
  return inList ? 'alone' : null;
}

/** The brackets that were opened on a line before a word and are not closed behind it: someone is still typing. */
function closersFor(text: string, line: number, start: number, end: number): string {
  const open: string[] = [];
  for (let at = line; at < text.length && text[at] !== '\n' && text[at] !== '\r'; at++) {
    if (at >= start && at < end) continue;
    const mark = text[at]!;
    if (at < start && (mark === '{' || mark === '[')) open.push(mark === '{' ? '}' : ']');
    else if ((mark === '}' || mark === ']') && open.at(-1) === mark) open.pop();
  }
  return open.reverse().join('');
}

interface StoodIn {
  readonly document: Document;
  readonly at: At;
}

function standingIn(document: Document, { start, end }: Word, lead: string, word: string): StoodIn | null {
  const text = document.text.slice(0, start) + lead + word + document.text.slice(end);
  const read = readDocument(document.uri, text);
  const at = read === null ? null : lookAt(read, start + lead.length + 1);
  return read === null || at === null || at.written?.includes(STANDIN) !== true
    ? null
    : { document: read, at };
}

function made(
  { document, at }: StoodIn,
  keys: readonly (string | number)[],
  schema: Schema,
  slot: 'key' | 'value',
): Omit<Asked, 'start' | 'end' | 'hasColon' | 'lead'> {
  const map = nodeAt(document.reading, slot === 'key' ? keys : lastMapOf(keys));
  const beside = new Map<string, Node>();
  map?.keys?.forEach((key, index) => {
    const name = keyName(key, document.reading);
    const value = map.items?.[index];
    if (name !== null && value !== undefined && name !== STANDIN) beside.set(name, value);
  });
  return { slot, schema, keys, beside, document, at, ...placeInGuide(document, keys) };
}

/** The path of the map that a value or an element of a list in it belongs to. */
function lastMapOf(keys: readonly (string | number)[]): readonly (string | number)[] {
  let length = keys.length;
  while (length > 0 && typeof keys[length - 1] === 'number') length--;
  return keys.slice(0, Math.max(0, length - 1));
}

/** The node that keys lead to, null where there is none. */
export function nodeAt(reading: Reading, keys: readonly (string | number)[]): Node | null {
  let node = reading.root;
  for (const key of keys) {
    if (node === null) return null;
    const followed: Node = follow(node, reading);
    const index: number =
      typeof key === 'number' ? key : (followed.keys ?? []).findIndex((one) => keyName(one, reading) === key);
    node = followed.items?.[index] ?? null;
  }
  return node === null ? null : follow(node, reading);
}

function takesKeys(schema: Schema): boolean {
  return (
    schema.properties !== undefined ||
    schema['x-operation'] === true ||
    schema['x-step-or-operation'] === true ||
    schema['x-condition'] === true ||
    (typeof schema.additionalProperties === 'object' && schema['x-names'] !== undefined)
  );
}

/** Whether what stands before a word on its line leaves room for a key. */
function canBeKey(before: string): boolean {
  const trimmed = before.trimEnd();
  return (
    trimmed === '' ||
    trimmed.endsWith('{') ||
    trimmed.endsWith(',') ||
    trimmed.split(' ').every((one) => one === '-' || one === '')
  );
}

function isWord(code: number): boolean {
  return (
    (code >= 48 && code <= 57) ||
    (code >= 65 && code <= 90) ||
    (code >= 97 && code <= 122) ||
    code === 45 ||
    code === 46 ||
    code === 95 ||
    code > 127
  );
}
