/** A text that is to be changed, with what was read of it, and where its lines are. */

import type { Edit } from '../findings/finding';
import type { Node, Reading } from '../text/tree';

/** `reading` is of exactly this text. A document of the workspace is one. */
export interface Source {
  readonly uri: string;
  readonly text: string;
  readonly reading: Reading;
}

/** The replacement of a stretch of a source's text. */
export function replacement(source: Source, start: number, end: number, text: string): Edit {
  return { place: { uri: source.uri, span: { start, end } }, text };
}

/** Where the line of an offset begins. */
export function lineStart(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && text[at - 1] !== '\n' && text[at - 1] !== '\r') at--;
  return at;
}

/** Where the line of an offset ends: at its line break, or at the end of the text. */
export function lineEnd(text: string, offset: number): number {
  let at = offset;
  while (at < text.length && text[at] !== '\n' && text[at] !== '\r') at++;
  return at;
}

/** Where the next line begins; the end of the text where there is none. */
export function nextLine(text: string, offset: number): number {
  const end = lineEnd(text, offset);
  if (end >= text.length) return text.length;
  return text[end] === '\r' && text[end + 1] === '\n' ? end + 2 : end + 1;
}

/** The line break that a text uses: its first one, `\n` where it has none. */
export function lineBreak(text: string): string {
  const end = lineEnd(text, 0);
  return end >= text.length ? '\n' : text.slice(end, nextLine(text, end));
}

/** How many characters stand before an offset in its line. */
export const columnOf = (text: string, offset: number): number => offset - lineStart(text, offset);

/** True where a line holds nothing but a comment; `offset` is where it begins. */
export function isCommentLine(text: string, offset: number): boolean {
  return text[offset + indentOf(text, offset)] === '#';
}

/** True where a line is empty or holds blanks alone; `offset` is where it begins. */
export function isBlankLine(text: string, offset: number): boolean {
  const at = offset + indentOf(text, offset);
  return at >= text.length || text[at] === '\n' || text[at] === '\r';
}

/** How many blanks a line begins with. */
export function indentOf(text: string, offset: number): number {
  let at = offset;
  while (text[at] === ' ' || text[at] === '\t') at++;
  return at - offset;
}

/** True where nothing but blanks stands before an offset in its line. */
export function beginsLine(text: string, offset: number): boolean {
  const start = lineStart(text, offset);
  return start + indentOf(text, start) >= offset;
}

/**
 * True for a value whose last text keeps the empty lines behind it (`|+`): what follows belongs to it, so nothing can be
 * put or taken away behind it without changing what it says.
 */
export function keepsWhatFollows(source: Source, node: Node): boolean {
  let last = node;
  while (last.items !== null && last.items.length > 0) last = last.items[last.items.length - 1]!;
  if (last.style !== 'literal' && last.style !== 'folded') return false;
  const head = source.text.slice(last.start, lineEnd(source.text, last.start));
  return head.split('#', 1)[0]!.includes('+');
}
