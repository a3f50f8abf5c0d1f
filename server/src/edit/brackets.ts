/** Elements and pairs in brackets: put in, taken out. */

import type { Edit } from '../findings/finding';
import type { Node } from '../text/tree';
import { columnOf, lineBreak, lineEnd, lineStart, replacement, type Source } from './source';

interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** Puts a text before the element (or pair) of that number, or behind the last. Null where that cannot be told. */
export function insertInBrackets(
  source: Source,
  holder: Node,
  index: number,
  written: string,
): Edit[] | null {
  const { text } = source;
  const stretches = stretchesOf(source, holder);
  if (stretches === null) return null;
  if (stretches.length === 0) {
    const inner = text.slice(holder.start + 1, holder.end - 1);
    if (inner.trim() !== '') return null;
    const pad = holder.kind === 'map' ? ' ' : '';
    return [replacement(source, holder.start + 1, holder.end - 1, `${pad}${written}${pad}`)];
  }
  const last = stretches[stretches.length - 1]!;
  const before = stretches[index];
  // In a list of a line each, what is put in gets a line of its own.
  const onLines = stretches.every(({ start }) => lineStart(text, start) > holder.start);
  const gap = onLines ? lineBreak(text) + ' '.repeat(columnOf(text, (before ?? last).start)) : ' ';
  if (before !== undefined) return [replacement(source, before.start, before.start, `${written},${gap}`)];
  const comma = commaBehind(text, last.end, holder.end);
  const rest = text.slice(comma ?? last.end, lineEnd(text, last.end));
  if (!onLines || !rest.includes('#')) {
    const at = last.end;
    return [replacement(source, at, at, `,${gap}${written}`)];
  }
  // The comment at the end of the last line stays with what it is written beside.
  const end = lineEnd(text, last.end);
  const added = replacement(source, end, end, `${gap}${written}${comma === null ? '' : ','}`);
  return comma === null ? [replacement(source, last.end, last.end, ','), added] : [added];
}

/** Takes an element or a pair out, with its comma. Null where comments stand in the way. */
export function removeFromBrackets(source: Source, holder: Node, index: number): Edit[] | null {
  const { text } = source;
  const stretches = stretchesOf(source, holder);
  const own = stretches?.[index];
  if (stretches === null || own === undefined) return null;
  const next = stretches[index + 1];
  const before = stretches[index - 1];
  const [from, to] =
    next !== undefined
      ? [own.start, next.start]
      : before !== undefined
        ? [before.end, own.end]
        : [holder.start + 1, holder.end - 1];
  if (text.slice(from, own.start).includes('#') || text.slice(own.end, to).includes('#')) return null;
  return [replacement(source, from, to, '')];
}

/** Where the elements or pairs are written; null where one has an anchor or a tag before it, or a key is marked by `?`. */
function stretchesOf({ text }: Source, holder: Node): Stretch[] | null {
  if (holder.style !== 'flow' || holder.items === null) return null;
  // `[key: value]` holds a map without braces, to which nothing can be added.
  if (text[holder.start] !== (holder.kind === 'map' ? '{' : '[')) return null;
  const found: Stretch[] = [];
  for (let index = 0; index < holder.items.length; index++) {
    const item = holder.items[index]!;
    const first = holder.keys?.[index] ?? item;
    if (first.anchor !== null || first.tag !== null) return null;
    const end = Math.max(item.end, holder.keys === null ? item.end : first.end);
    const before = text.slice(index === 0 ? holder.start + 1 : found[index - 1]!.end, first.start);
    if (before.includes('?')) return null;
    found.push({ start: first.start, end });
  }
  return found;
}

function commaBehind(text: string, from: number, to: number): number | null {
  for (let at = from; at < to; at++) {
    if (text[at] === ',') return at;
    if (text[at] !== ' ' && text[at] !== '\t') return null;
  }
  return null;
}
