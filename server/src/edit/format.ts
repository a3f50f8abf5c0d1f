/** A text laid out anew: what it says, its comments, quotes and anchors stay as they are. */

import { readText } from '../text/read';
import type { Node } from '../text/tree';
import { differences } from './difference';
import { type Piece, piecesOf } from './format-pieces';
import { lineBreak, lineStart, replacement, type Source } from './source';

/**
 * The edits that lay a text out: two blanks a level, one behind each colon, dash and comma, `{ a: b }` and `[a, b]`, none
 * at the end of a line, one line break at the end of it all. A text with mistakes stays as it is, and so does one that
 * would say something else, or lose a comment.
 */
export function formatting(source: Source) {
  const { text, reading } = source;
  const pieces = reading.problems.length > 0 || reading.root === null ? null : piecesOf(text);
  if (pieces === null) return [];
  const made = laidOut(text, pieces);
  if (made === text || !saysTheSame(source, pieces, made)) return [];
  return differences(text, made).map(({ start, end, text: put }) => replacement(source, start, end, put));
}

function saysTheSame({ reading }: Source, pieces: readonly Piece[], made: string): boolean {
  const after = readText(made);
  if (after.problems.length > 0 || !same(reading.root, after.root)) return false;
  const comments = (some: readonly Piece[] | null) =>
    (some ?? []).flatMap(({ type, source }) => (type === 'comment' ? [source.trimEnd()] : [])).join('\n');
  return comments(pieces) === comments(piecesOf(made));
}

/** Whether two trees are the same but for their places. */
function same(a: Node | null, b: Node | null): boolean {
  if (a === null || b === null) return a === b;
  const alike = (some: readonly Node[] | null, others: readonly Node[] | null) =>
    some?.length === others?.length && (some ?? []).every((one, index) => same(one, others![index]!));
  return (
    a.kind === b.kind &&
    Object.is(a.value, b.value) &&
    a.style === b.style &&
    a.tag === b.tag &&
    a.anchor === b.anchor &&
    alike(a.keys, b.keys) &&
    alike(a.items, b.items)
  );
}

/** Where a line was, and where it is now. */
interface Line {
  readonly old: number;
  readonly fresh: number;
}

function laidOut(text: string, pieces: readonly Piece[]): string {
  const columns = pieces.map(({ start }) => start - lineStart(text, start));
  let made = '';
  let begins = true;
  let line: Line = { old: 0, fresh: 0 };
  pieces.forEach((piece, index) => {
    const { type, source } = piece;
    if (type === 'newline' || type === 'block-scalar') {
      made += source;
      begins = true;
      return;
    }
    const old = columns[index]!;
    if (begins) {
      const column =
        type === 'comment' && !piece.flow ? commentColumn(pieces, columns, index) : columnFor(piece, old);
      line = { old, fresh: column };
      made += ' '.repeat(column);
    } else {
      const before = pieces[index - 1]!;
      const gap = piece.start - (before.start + before.source.length);
      const length = made.length - (made.lastIndexOf('\n') + 1);
      made += ' '.repeat(
        type === 'comment' && isAligned(pieces, columns, index)
          ? Math.max(1, old + line.fresh - line.old - length)
          : gapBetween(before.type, type, gap),
      );
    }
    made += type === 'comment' ? source.trimEnd() : furtherLines(piece, source);
    begins = type === 'byte-order-mark';
  });
  return ended(made, pieces, lineBreak(text));
}

const columnFor = ({ flow, column, shift }: Piece, old: number): number =>
  flow ? Math.max(column, old + shift) : Math.max(0, column);

/** A text of several lines: how its further lines are indented says nothing, save that they are. */
function furtherLines(piece: Piece, source: string): string {
  if (!source.includes('\n')) return source;
  const [first, ...more] = source.split('\n');
  const plain = piece.type === 'scalar';
  const own = (line: string) => (plain ? line.trimEnd() + (line.endsWith('\r') ? '\r' : '') : line);
  return [
    own(first!),
    ...more.map((line) => {
      const words = line.replace(/^[ \t]+/, '');
      if (words === '' || words === '\r') return words;
      return ' '.repeat(columnFor(piece, line.length - words.length)) + own(words);
    }),
  ].join('\n');
}

/** How many blanks stand between two pieces of one line, of which there were some. */
function gapBetween(before: string, after: string, were: number): number {
  const inMap = before === 'flow-map-start' || after === 'flow-map-end';
  if (after === 'comment') return Math.max(1, were);
  if (inMap) return before === 'flow-map-start' && after === 'flow-map-end' ? 0 : 1;
  if (before === 'flow-seq-start' || after === 'flow-seq-end') return 0;
  // A blank that ends a name is no matter of looks.
  if (before === 'alias' || (before === 'anchor' && after === 'comma') || before === 'tag') return were;
  if (after === 'comma' || after === 'map-value-ind') return 0;
  if (before === 'comma' || before === 'map-value-ind' || before === 'seq-item-ind') return 1;
  return were === 0 ? 0 : 1;
}

/** Whether a comment at the end of a line stands right above or below another at its column. */
function isAligned(pieces: readonly Piece[], columns: readonly number[], index: number): boolean {
  return [-1, 1].some((way) => {
    let breaks = 0;
    for (let at = index + way; at >= 0 && at < pieces.length && breaks < 2; at += way) {
      const { type } = pieces[at]!;
      if (type === 'newline') breaks++;
      else if (type === 'block-scalar') return false;
      else if (type === 'comment') return breaks === 1 && columns[at] === columns[index];
    }
    return false;
  });
}

/**
 * Where a comment on a line of its own goes: with what stands below it at the same column, else with what stands above at
 * it, else with what stands below. Right behind a text in lines it must not become a part of it.
 */
function commentColumn(pieces: readonly Piece[], columns: readonly number[], index: number): number {
  const own = columns[index]!;
  let next = index + 1;
  while (next < pieces.length && !pieces[next]!.heads) next++;
  const below = pieces[next]?.column ?? 0;
  let column = below;
  if (columns[next] !== own)
    for (let above = index - 1; above >= 0; above--)
      if (pieces[above]!.heads && columns[above] === own) {
        column = pieces[above]!.column;
        break;
      }
  let before = index - 1;
  while (before >= 0 && pieces[before]!.type === 'newline') before--;
  const inLines = before >= 0 && pieces[before]!.type === 'block-scalar';
  return Math.max(0, inLines ? Math.min(column, pieces[before]!.column) : column);
}

/** One line break at the end, save where a text in lines keeps those that are there. */
function ended(made: string, pieces: readonly Piece[], broken: string): string {
  let last = pieces.length - 1;
  while (last >= 0 && pieces[last]!.type === 'newline') last--;
  if (pieces[last]?.type !== 'block-scalar') return `${made.trimEnd()}${broken}`;
  const header = [...pieces].reverse().find(({ type }) => type === 'block-scalar-header');
  return header?.source.includes('+') ? made : made.replace(/(\r?\n)[\r\n]*$/, '$1');
}
