/** Which lines of a text an element of a list, or a pair of a map, takes up. */

import type { Node } from '../text/tree';
import {
  beginsLine,
  indentOf,
  isBlankLine,
  isCommentLine,
  lineEnd,
  lineStart,
  nextLine,
  type Source,
} from './source';

/** Whole lines: from the beginning of the first to the line break of the last, that left out. */
export interface Extent {
  readonly start: number;
  readonly end: number;
}

/** Where the dash of an element stands; null where the list is none in lines, or the dash cannot be told. */
export function dashOf({ text }: Source, list: Node, index: number): number | null {
  const items = list.items ?? [];
  if (list.kind !== 'seq' || list.style !== 'block' || items[index] === undefined) return null;
  if (text[list.start] !== '-') return null;
  if (index === 0) return list.start;
  const column = list.start - lineStart(text, list.start);
  for (let line = nextLine(text, items[index - 1]!.end); line < text.length; line = nextLine(text, line)) {
    const at = line + column;
    if (text[at] === '-' && indentOf(text, line) === column) return at;
    if (line > items[index]!.start) break;
  }
  return null;
}

/**
 * The lines of an element with its comments: those right above it that are indented no deeper than its dash, and those
 * right below it that are. Null where it shares a line with something else.
 */
export function elementExtent(source: Source, list: Node, index: number): Extent | null {
  const { text } = source;
  const dash = dashOf(source, list, index);
  if (dash === null || !beginsLine(text, dash)) return null;
  const column = dash - lineStart(text, dash);
  const item = list.items![index]!;
  let start = lineStart(text, dash);
  while (start > 0) {
    const above = lineStart(text, start - (text[start - 1] === '\n' && text[start - 2] === '\r' ? 2 : 1));
    if (!isCommentLine(text, above) || indentOf(text, above) > column) break;
    start = above;
  }
  return { start, end: withCommentsBelow(text, lineEnd(text, Math.max(item.end, dash + 1)), column) };
}

/**
 * The lines of a pair with the comments below it that are indented deeper than its key. `start` is the key itself where
 * the line begins with something else (the dash of an element). Null for a pair of a map in braces.
 */
export function pairExtent(source: Source, map: Node, index: number): Extent | null {
  const { text } = source;
  if (map.kind !== 'map' || map.style !== 'block') return null;
  const key = map.keys![index]!;
  const value = map.items![index]!;
  if (key.kind !== 'scalar' || beforeKey(text, key) === '?') return null;
  const start = beginsLine(text, key.start) ? lineStart(text, key.start) : key.start;
  const column = key.start - lineStart(text, key.start);
  const last = Math.max(value.end, colonOf(text, key) + 1);
  return { start, end: withCommentsBelow(text, lineEnd(text, last), column) };
}

/** Where the colon behind a key stands. */
export function colonOf(text: string, key: Node): number {
  let at = key.end;
  while (text[at] === ' ' || text[at] === '\t') at++;
  return at;
}

function beforeKey(text: string, key: Node): string | undefined {
  let at = key.start - 1;
  while (text[at] === ' ' || text[at] === '\t') at--;
  return text[at];
}

function withCommentsBelow(text: string, end: number, column: number): number {
  let last = end;
  for (let line = nextLine(text, last); line < text.length; line = nextLine(text, last)) {
    if (!isCommentLine(text, line) || indentOf(text, line) <= column) break;
    last = lineEnd(text, line);
  }
  return last;
}

/** True where an empty line stands between an element and the one before or behind it. */
export function isSpaced(source: Source, list: Node, index: number): boolean {
  const between = (one: number): boolean => {
    const before = elementExtent(source, list, one - 1);
    const after = elementExtent(source, list, one);
    if (before === null || after === null) return false;
    const line = nextLine(source.text, before.end);
    return line < after.start && isBlankLine(source.text, line);
  };
  const count = list.items?.length ?? 0;
  return (index > 0 && index < count && between(index)) || (index + 1 < count && between(index + 1));
}
