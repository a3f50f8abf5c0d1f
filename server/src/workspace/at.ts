import type { Span } from '../findings/finding';
import { type PathStep, pathAt, schemaAt } from '../schema/describe';
import type { Schema } from '../schema/spots';
import { keyName } from '../text/access';
import type { Node } from '../text/tree';
import type { Document } from './document';

/** What stands at an offset of a document, by its tree and its schema. */
export interface At {
  readonly offset: number;
  readonly path: readonly PathStep[];
  readonly keys: readonly (string | number)[];
  /** The key or value that the offset is in. */
  readonly node: Node;
  readonly onKey: boolean;
  /** What it says, where it is a text, a number or a truth value. */
  readonly written: string | null;
  /** What the schema says of the value here, and of the map or list around it. */
  readonly schema: Schema | null;
  readonly around: Schema | null;
  /** What sort of name it is, by the schema: `part`, `target`, `rule`… */
  readonly names: string | null;
  /** Of a guide: the step `2.3`, and the operation `2.3.1` with its verb. */
  readonly step: string | null;
  readonly operation: string | null;
}

/** Whether two spans share a place, be it only an edge: a cursor is a span without length. */
export const touches = (a: Span, b: Span): boolean => a.start <= b.end && b.start <= a.end;

/** Looks what stands at an offset; null where that is nothing, or where the document is none that has a schema. */
export function lookAt(document: Document, offset: number): At | null {
  const { reading, kind } = document;
  if (reading.root === null || kind === null) return null;
  const path = pathAt(reading.root, reading, offset);
  const last = path.at(-1);
  if (last === undefined) return null;
  const { keyNode } = last;
  const onKey = keyNode !== null && keyNode.start <= offset && offset <= keyNode.end;
  const node = onKey ? keyNode : last.value;
  // Between things stands nothing.
  if (offset < node.start || offset > node.end) return null;
  const keys = path.map(({ key }) => key);
  const schema = schemaAt(kind, reading.root, reading, keys);
  const around = schemaAt(kind, reading.root, reading, keys.slice(0, -1));
  const names = (onKey ? around : (schema ?? around))?.['x-names'] ?? null;
  return {
    offset,
    path,
    keys,
    node,
    onKey,
    written: onKey
      ? keyName(node, reading)
      : node.kind === 'scalar' && node.value !== null
        ? String(node.value)
        : null,
    schema,
    around,
    names: names ?? (onKey || schema !== null ? null : (around?.['x-names'] ?? null)),
    ...placeInGuide(document, keys),
  };
}

/** Which step and operation of a guide a path leads into. */
export function placeInGuide(
  document: Document,
  keys: readonly (string | number)[],
): { step: string | null; operation: string | null } {
  const [sections, section, steps, step, list, operation] = keys;
  if (document.kind !== 'install' || sections !== 'sections' || steps !== 'steps')
    return { step: null, operation: null };
  if (typeof section !== 'number' || typeof step !== 'number') return { step: null, operation: null };
  const path = `${section + 1}.${step + 1}`;
  if (list !== 'do' || operation === undefined) return { step: path, operation: null };
  // `do` may hold one operation without a list around it.
  return { step: path, operation: `${path}.${typeof operation === 'number' ? operation + 1 : 1}` };
}

/** The condition that a path leads into: the trait whose value or name stands there. Null outside of conditions. */
export function traitAt(
  document: Document,
  at: At,
): { readonly name: string; readonly onValue: boolean } | null {
  const { reading, kind } = document;
  if (kind === null || reading.root === null) return null;
  for (let depth = 1; depth < at.keys.length; depth++) {
    const covers = kind === 'install' && at.keys[0] === 'covers' && depth === 1;
    if (!covers && schemaAt(kind, reading.root, reading, at.keys.slice(0, depth))?.['x-condition'] !== true)
      continue;
    const names = at.keys
      .slice(depth)
      .filter((key): key is string => typeof key === 'string' && key !== 'not');
    const name = names[0];
    return name === undefined ? null : { name, onValue: !(at.onKey && names.length === 1) };
  }
  return null;
}

/**
 * What of a condition a map is that keys lead to: the condition itself (one of a list, or turned round by `not`), or the
 * bounds of a figure under a trait. Null outside of conditions.
 */
export function conditionMapAt(
  { reading, kind }: Document,
  keys: readonly (string | number)[],
): { readonly is: 'condition' } | { readonly is: 'bounds'; readonly of: string } | null {
  if (kind === null || reading.root === null) return null;
  for (let depth = 1; depth <= keys.length; depth++) {
    const covers = kind === 'install' && keys[0] === 'covers' && depth === 1;
    if (!covers && schemaAt(kind, reading.root, reading, keys.slice(0, depth))?.['x-condition'] !== true)
      continue;
    const [name, ...more] = keys
      .slice(depth)
      .filter((key): key is string => typeof key === 'string' && key !== 'not');
    if (name === undefined) return covers ? null : { is: 'condition' };
    return more.length === 0 && typeof keys.at(-1) === 'string' ? { is: 'bounds', of: name } : null;
  }
  return null;
}

/** The `{part:…}`, `{torque:…}` or `{step:…}` of a text around an offset. */
export function placeholderAt(
  document: Document,
  offset: number,
): { readonly word: string; readonly name: string; readonly start: number; readonly end: number } | null {
  const { text } = document;
  const open = text.lastIndexOf('{', offset);
  const close = text.indexOf('}', open);
  if (open < 0 || close < 0 || offset > close + 1 || close - open > 200) return null;
  const [word, name, ...rest] = text.slice(open + 1, close).split(':');
  if (name === undefined || rest.length > 0 || !PLACEHOLDERS.has(word!)) return null;
  return { word: word!, name: name.trim(), start: open, end: close + 1 };
}

const PLACEHOLDERS: ReadonlySet<string> = new Set(['part', 'torque', 'step']);
