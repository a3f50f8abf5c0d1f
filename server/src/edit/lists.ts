/** Elements put into a list, taken out of it, moved. What is around them stays as it is written, byte for byte. */

import type { Edit } from '../findings/finding';
import type { Node } from '../text/tree';
import { isFollowedFromOutside, isRepeated } from './anchors';
import { insertInBrackets, removeFromBrackets } from './brackets';
import { dashOf, elementExtent, isSpaced } from './extent';
import { layoutOf } from './layout';
import { columnOf, keepsWhatFollows, lineBreak, nextLine, replacement, type Source } from './source';
import { asElement, inFlow, type Value } from './write';

/** Where an element goes: right before one that is there, with what belongs to it, or right behind it. */
export interface Spot {
  readonly index: number;
  readonly side: 'before' | 'behind';
}

/**
 * Puts a value into a list, written as its neighbours are.
 * @param others lists like it, for the layout that its own elements do not show.
 * @returns null where the list is repeated elsewhere, or how it is written does not allow it.
 */
export function insertElement(
  source: Source,
  list: Node,
  spot: Spot,
  value: Value,
  others: readonly Node[] = [],
): Edit[] | null {
  if (list.kind !== 'seq' || isRepeated(source, list)) return null;
  const count = list.items!.length;
  const layout = layoutOf(source, list, spot.index, others);
  if (list.style === 'flow') {
    const at = count === 0 ? 0 : spot.side === 'before' ? spot.index : spot.index + 1;
    return insertInBrackets(source, list, at, inFlow(value, layout.padded));
  }
  const dash = dashOf(source, list, spot.index);
  if (dash === null) return null;
  const { text } = source;
  const column = columnOf(text, dash);
  const written = `- ${asElement(value, column + 2, layout, lineBreak(text))}`;
  return insertLines(source, list, spot, ' '.repeat(column) + written);
}

/** Writes another value in the place of an element. */
export function replaceElement(source: Source, list: Node, index: number, value: Value): Edit[] | null {
  const item = list.items?.[index];
  if (list.kind !== 'seq' || item === undefined || isRepeated(source, list)) return null;
  if (item.anchor !== null || item.tag !== null || isFollowedFromOutside(source, item)) return null;
  if (keepsWhatFollows(source, item) || item.end <= item.start) return null;
  const layout = layoutOf(source, list, index);
  if (list.style === 'flow')
    return source.text[item.start] === '{'
      ? [replacement(source, item.start, item.end, inFlow(value, layout.padded))]
      : null;
  const written =
    item.style === 'flow'
      ? inFlow(value, layout.padded)
      : asElement(value, columnOf(source.text, item.start), layout, lineBreak(source.text));
  return [replacement(source, item.start, item.end, written)];
}

/** Takes an element out of a list, with the comments that belong to it. Null for the last one there is. */
export function removeElement(source: Source, list: Node, index: number): Edit[] | null {
  const item = list.items?.[index];
  if (item === undefined || list.items!.length < 2) return null;
  if (isRepeated(source, list) || isFollowedFromOutside(source, item)) return null;
  if (list.style === 'flow') return removeFromBrackets(source, list, index);
  const cut = cutLines(source, list, index, 1);
  return cut === null ? null : [cut.removal];
}

/**
 * Moves elements that stand together to another place, in the same list or in another that is written as it is. The
 * comments above them go with them.
 * @returns null where nothing would move, where a list would be left empty, or where an anchor or an alias would come to
 * stand on the wrong side of the other.
 */
export function moveElements(
  source: Source,
  from: { readonly list: Node; readonly index: number; readonly count: number },
  to: { readonly list: Node; readonly spot: Spot },
): Edit[] | null {
  const { list, index, count } = from;
  const items = list.items?.slice(index, index + count) ?? [];
  if (count < 1 || items.length !== count) return null;
  const target = to.spot.side === 'before' ? to.spot.index : to.spot.index + 1;
  if (list === to.list && target >= index && target <= index + count) return null;
  if (list !== to.list && list.items!.length === count) return null;
  if (list.style !== to.list.style || to.list.kind !== 'seq') return null;
  if (isRepeated(source, list) || isRepeated(source, to.list)) return null;
  const region = { start: items[0]!.start, end: items[count - 1]!.end };
  const destination = to.list.items?.[to.spot.index];
  if (destination === undefined || crossesAnchors(source, region, destination.start)) return null;
  if (list.style === 'flow') {
    if (count !== 1) return null;
    const removal = removeFromBrackets(source, list, index);
    const written = source.text.slice(items[0]!.start, items[0]!.end);
    const insertion = insertInBrackets(source, to.list, target, written);
    return removal === null || insertion === null ? null : [...removal, ...insertion];
  }
  const cut = cutLines(source, list, index, count);
  const dash = dashOf(source, to.list, to.spot.index);
  if (cut === null || dash === null) return null;
  const shift = columnOf(source.text, dash) - columnOf(source.text, list.start);
  const insertion = insertLines(source, to.list, to.spot, shifted(cut.lines, shift));
  return insertion === null ? null : [cut.removal, ...insertion];
}

/** Puts whole lines (without a break at their end) before or behind an element. */
function insertLines(source: Source, list: Node, { index, side }: Spot, lines: string): Edit[] | null {
  const { text } = source;
  const extent = elementExtent(source, list, index);
  if (extent === null) return null;
  const broken = lineBreak(text);
  const space = isSpaced(source, list, index) ? broken : '';
  if (side === 'before')
    return [replacement(source, extent.start, extent.start, `${lines}${broken}${space}`)];
  if (keepsWhatFollows(source, list.items![index]!)) return null;
  return [replacement(source, extent.end, extent.end, `${broken}${space}${lines}`)];
}

/** The lines of elements that stand together, and the edit that takes them out, one of the empty lines around them too. */
function cutLines(
  source: Source,
  list: Node,
  index: number,
  count: number,
): { readonly lines: string; readonly removal: Edit } | null {
  const { text } = source;
  const first = elementExtent(source, list, index);
  const last = elementExtent(source, list, index + count - 1);
  if (first === null || last === null) return null;
  if (list.items!.slice(index, index + count).some((item) => keepsWhatFollows(source, item))) return null;
  const lines = text.slice(first.start, last.end);
  const before = elementExtent(source, list, index - 1);
  if (before !== null && keepsWhatFollows(source, list.items![index - 1]!)) return null;
  const after = elementExtent(source, list, index + count);
  if (after !== null) {
    // What stands between two elements, and belongs to neither, stays: save for blank lines alone.
    const next = nextLine(text, last.end);
    const blank = text.slice(next, after.start).trim() === '' && before !== null;
    return { lines, removal: replacement(source, first.start, blank ? after.start : next, '') };
  }
  if (before === null)
    return { lines, removal: replacement(source, first.start, nextLine(text, last.end), '') };
  const blank = text.slice(before.end, first.start).trim() === '';
  const start = blank ? before.end : lineBreakBefore(text, first.start);
  return { lines, removal: replacement(source, start, last.end, '') };
}

function lineBreakBefore(text: string, line: number): number {
  if (line === 0) return 0;
  return text[line - 1] === '\n' && text[line - 2] === '\r' ? line - 2 : line - 1;
}

/** Lines moved to the right, or to the left as far as there are blanks. */
function shifted(lines: string, by: number): string {
  if (by === 0) return lines;
  return lines
    .split('\n')
    .map((line) => {
      if (line.trim() === '') return line;
      if (by > 0) return ' '.repeat(by) + line;
      let blanks = 0;
      while (blanks < -by && line[blanks] === ' ') blanks++;
      return line.slice(blanks);
    })
    .join('\n');
}

/** Whether moving a stretch to a place would put an alias before its anchor, or an anchor between others of its name. */
function crossesAnchors({ reading }: Source, region: { start: number; end: number }, to: number): boolean {
  const within = (node: Node) => region.start <= node.start && node.end <= region.end;
  for (const [alias, target] of reading.targets) {
    if (within(alias) === within(target)) continue;
    if (within(alias) && to <= target.end) return true;
    if (within(target) && to >= alias.start) return true;
  }
  return namesTwice(reading.targets.values());
}

/** Whether two anchors share a name, so that which of them an alias means depends on their order. */
function namesTwice(targets: Iterable<Node>): boolean {
  const known = new Map<string, Node>();
  for (const target of targets) {
    const name = target.anchor ?? '';
    if ((known.get(name) ?? target) !== target) return true;
    known.set(name, target);
  }
  return false;
}
