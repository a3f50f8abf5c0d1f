/** Pairs of a map set, put in, taken out. */

import type { Edit } from '../findings/finding';
import { isMergeKey, keyName } from '../text/access';
import type { Node } from '../text/tree';
import { isFollowedFromOutside, isRepeated } from './anchors';
import { insertInBrackets, removeFromBrackets } from './brackets';
import { colonOf, pairExtent } from './extent';
import {
  beginsLine,
  columnOf,
  keepsWhatFollows,
  lineBreak,
  lineEnd,
  nextLine,
  replacement,
  type Source,
} from './source';
import { asPairValue, IN_BRACES, inFlow, type Layout, scalarText, type Value } from './write';

/** How a pair is written, and where. */
export interface PairOptions {
  readonly layout?: Layout;
  /** The keys behind the last of which a new pair goes; at the end without any of them. */
  readonly behind?: readonly string[];
}

/**
 * Gives a key of a map a value: in place of the one that is written there, or as a new pair.
 * @returns null where the map is repeated elsewhere, the old value is followed by an alias or has a tag, or how it is
 * written does not allow it.
 */
export function setKey(
  source: Source,
  map: Node,
  key: string,
  value: Value,
  options: PairOptions = {},
): Edit[] | null {
  if (map.kind !== 'map' || isRepeated(source, map)) return null;
  const index = indexOfKey(source, map, key);
  return index === null
    ? addPair(source, map, key, value, options)
    : replaceValue(source, map, index, value, options.layout ?? IN_BRACES);
}

/** Takes a pair out of a map. Null where it is the only one, or something else stands in its way. */
export function removeKey(source: Source, map: Node, key: string): Edit[] | null {
  const { text } = source;
  const index = map.kind === 'map' ? indexOfKey(source, map, key) : null;
  if (index === null || map.items!.length < 2 || isRepeated(source, map)) return null;
  if (isFollowedFromOutside(source, map.items![index]!)) return null;
  if (map.style === 'flow') return removeFromBrackets(source, map, index);
  const extent = pairExtent(source, map, index);
  if (extent === null || keepsWhatFollows(source, map.items![index]!)) return null;
  if (!beginsLine(text, map.keys![index]!.start)) {
    // It shares its line with the dash of the element: the next pair takes its place there.
    const next = map.keys![index + 1];
    if (next === undefined || text.slice(extent.end, next.start).trim() !== '') return null;
    return [replacement(source, extent.start, next.start, '')];
  }
  const after = nextLine(text, extent.end);
  if (after > extent.end) return [replacement(source, extent.start, after, '')];
  const above = extent.start - (text[extent.start - 2] === '\r' ? 2 : 1);
  return [replacement(source, Math.max(0, above), extent.end, '')];
}

/** Writes another key in the place of one. */
export function renameKey(source: Source, map: Node, key: string, name: string): Edit[] | null {
  const index = map.kind === 'map' ? indexOfKey(source, map, key) : null;
  const node = index === null ? undefined : map.keys![index];
  if (node === undefined || node.kind !== 'scalar' || isRepeated(source, map)) return null;
  if (node.anchor !== null || node.tag !== null) return null;
  return [replacement(source, node.start, node.end, scalarText(name, map.style === 'flow'))];
}

/** Adds a word to the list under a key: a new pair, a list made of the one word that is there, or one word more in it. */
export function addWord(source: Source, map: Node, key: string, word: string, options: PairOptions = {}) {
  const index = map.kind === 'map' ? indexOfKey(source, map, key) : null;
  if (index === null) return setKey(source, map, key, [word], options);
  const node = map.items![index]!;
  if (isRepeated(source, node)) return null;
  if (node.kind === 'seq' && node.style === 'flow')
    return insertInBrackets(source, node, node.items!.length, scalarText(word, true));
  if (node.kind === 'seq') {
    const words = node.items!.map(({ kind, value }) => (kind === 'scalar' ? value : undefined));
    if (words.some((one) => one === undefined)) return null;
    return setKey(source, map, key, [...(words as Value[]), word], options);
  }
  if (node.kind !== 'scalar' || node.value === null) return null;
  return setKey(source, map, key, [node.value, word], options);
}

function indexOfKey({ reading }: Source, map: Node, key: string): number | null {
  const index = map.keys!.findIndex((node) => !isMergeKey(node) && keyName(node, reading) === key);
  return index < 0 ? null : index;
}

function replaceValue(source: Source, map: Node, index: number, value: Value, layout: Layout): Edit[] | null {
  const { text } = source;
  const key = map.keys![index]!;
  const old = map.items![index]!;
  if (old.tag !== null || old.anchor !== null || isFollowedFromOutside(source, old)) return null;
  if (keepsWhatFollows(source, old) || text[colonOf(text, key)] !== ':') return null;
  const behind = colonOf(text, key) + 1;
  const inLine = old.kind === 'alias' || old.style === 'flow' || isLineScalar(old);
  if (inLine && old.end > old.start)
    return [replacement(source, old.start, old.end, sameQuotes(value, old, text, map.style === 'flow'))];
  if (map.style === 'flow')
    return old.end > old.start ? null : [replacement(source, behind, behind, ` ${inFlow(value)}`)];
  const column = columnOf(text, key.start);
  const written = asPairValue(value, column, columnOf(text, behind) + 1, layout, lineBreak(text));
  return [replacement(source, behind, Math.max(behind, old.end), written)];
}

const isLineScalar = ({ kind, style }: Node): boolean =>
  kind === 'scalar' && (style === 'plain' || style === 'single' || style === 'double');

/** A word in the quotes of the word that it takes the place of. */
function sameQuotes(value: Value, old: Node, text: string, inBrackets: boolean): string {
  if (typeof value === 'object' && value !== null) return inFlow(value);
  if (typeof value === 'string' && old.kind === 'scalar') {
    if (old.style === 'double' && !text.slice(old.start, old.end).includes('\n'))
      return JSON.stringify(value);
    const simple = !value.includes("'") && scalarText(value, inBrackets) === value;
    if (old.style === 'single' && simple) return `'${value}'`;
  }
  return scalarText(value, inBrackets);
}

function addPair(
  source: Source,
  map: Node,
  key: string,
  value: Value,
  { layout = IN_BRACES, behind = [] }: PairOptions,
): Edit[] | null {
  const { text } = source;
  const known = behind.map((name) => indexOfKey(source, map, name) ?? -1);
  const last = Math.max(...known, -1);
  const at = last < 0 ? map.items!.length - 1 : last;
  if (map.style === 'flow')
    return insertInBrackets(source, map, at + 1, `${scalarText(key, true)}: ${inFlow(value, layout.padded)}`);
  const anchor = map.keys![at];
  const extent = anchor === undefined ? null : pairExtent(source, map, at);
  if (anchor === undefined || extent === null || keepsWhatFollows(source, map.items![at]!)) return null;
  const column = columnOf(text, anchor.start);
  const name = scalarText(key, false);
  const written = asPairValue(value, column, column + name.length + 2, layout, lineBreak(text));
  const end = Math.max(extent.end, lineEnd(text, anchor.end));
  return [replacement(source, end, end, `${lineBreak(text)}${' '.repeat(column)}${name}:${written}`)];
}
