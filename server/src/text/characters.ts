import type { Problem } from './tree';

// What YAML 1.2.2 (section 5.1) leaves out of its printable set; `\p{Cs}` is a lone half of a surrogate pair.
const CONTROL = /(?![\t\n\r\x85])\p{Cc}|\p{Cs}|[\ufffe\uffff]/u;

/**
 * The same text, of the same length, with line feeds and CRLF as the only line breaks, and blanks for a byte order mark
 * at the document's start.
 */
export function maskLineBreaks(text: string, first: boolean): string {
  const unmarked = first && text.charCodeAt(0) === 0xfeff ? `\n${text.slice(1)}` : text;
  return unmarked.includes('\r') ? unmarked.replace(/\r(?!\n)/g, '\n') : unmarked;
}

/** The first character that may not stand in a YAML text, as a problem. */
export function hasControlCharacter(text: string): Problem | null {
  const at = text.search(CONTROL);
  if (at < 0) return null;
  const message = 'An invisible control character stands here; delete it.';
  return { rule: 'control-character', start: at, end: at + 1, message };
}
