import { walk } from './access';
import { hasBrackets, lineEnd, lineStart, skipBlanks, type TreeNode } from './build';
import { MAX_DEPTH } from './limits';
import type { SyntaxFault } from './tolerant';
import type { Problem } from './tree';

/**
 * The one problem to report for a piece that is not well-formed: the first fault, in words, at a tight place. Null when
 * the tolerant producer has nothing against the piece: then only the stricter fast one had, and no reader is misled.
 */
export function syntaxProblem(
  text: string,
  faults: readonly SyntaxFault[],
  documents: readonly (TreeNode | null)[],
): Problem | null {
  const fault = faults[0];
  if (fault === undefined) return null;
  if (fault.code === 'TOO_DEEP') {
    const message = `Lists and maps stand more than ${MAX_DEPTH} deep in one another here; nothing of this piece is read.`;
    return problemAt(text, 'too-deep', fault.start, fault.end, message);
  }
  return (
    tabProblem(text, fault) ??
    openBracket(text, fault, documents) ??
    openQuote(text, fault, documents) ??
    shiftedLine(text, fault) ??
    behindAlias(text, fault, documents) ??
    problemAt(text, 'yaml-syntax', fault.start, fault.end, sentence(text, fault))
  );
}

/** True when the piece ends inside a quote or bracket, so that the next piece may be broken by the same mistake. */
export function endsOpen(faults: readonly SyntaxFault[]): boolean {
  return faults.some((fault) => isOpenBracket(fault) || isOpenQuote(fault));
}

function isOpenBracket(fault: SyntaxFault): boolean {
  return fault.detail.includes(' end with ');
}

function isOpenQuote(fault: SyntaxFault): boolean {
  return fault.detail.startsWith('Missing closing');
}

const OUT_OF_LINE = 'This line does not line up with those it belongs to; check the spaces before it.';

/** A line that stands too far to the left or right, where the library complains of what comes before it. */
function shiftedLine(text: string, fault: SyntaxFault): Problem | null {
  let start = fault.start;
  if (fault.detail.startsWith('Sequence item without')) start = skipBlanks(text, start);
  else if (fault.detail.startsWith('Nested mappings')) {
    const second = secondColon(text, start);
    if (second >= 0) {
      const message = 'There is a second colon on this line; put the text behind the first one in quotes.';
      return problemAt(text, 'yaml-syntax', start, lineEnd(text, start), message);
    }
    start = skipBlanks(text, lineEnd(text, start));
  } else if (fault.code !== 'UNEXPECTED_TOKEN' || skipBlanks(text, lineStart(text, start)) !== start)
    return null;
  else if (']})'.includes(text[start] ?? ')')) return null;
  return problemAt(text, 'yaml-syntax', start, lineEnd(text, start), OUT_OF_LINE);
}

/** Where on the line of `from` a further `: ` stands, or -1. */
function secondColon(text: string, from: number): number {
  const end = lineEnd(text, from);
  for (let at = from; at < end; at++) {
    if (text[at] === ':' && (at + 1 >= end || text[at + 1] === ' ' || text[at + 1] === '\t')) return at;
  }
  return -1;
}

/** Text that begins with `*` is taken for an alias, and what follows its first word for a mistake. */
function behindAlias(
  text: string,
  fault: SyntaxFault,
  documents: readonly (TreeNode | null)[],
): Problem | null {
  if (fault.code !== 'UNEXPECTED_TOKEN') return null;
  const alias = flat(documents).find(
    (node) => node.kind === 'alias' && lineEnd(text, node.start) >= fault.start && node.end <= fault.start,
  );
  if (alias === undefined) return null;
  const message = 'A text cannot begin with *; put it in quotes.';
  return problemAt(text, 'yaml-syntax', alias.start, lineEnd(text, alias.start), message);
}

/** A problem at a tight span of the piece. */
function problemAt(text: string, rule: string, from: number, to: number, message: string): Problem {
  return { rule, ...tightSpan(text, from, to, 0), message };
}

/**
 * A span that stays on the line it starts on and is never empty where the text is not: what stands at a line's end, or
 * behind the text, is shown at the last character before it. `by` is added to both ends.
 */
export function tightSpan(
  text: string,
  from: number,
  to: number,
  by: number,
): { start: number; end: number } {
  let start = Math.max(0, Math.min(from, text.length - 1));
  if (from >= text.length || isBreak(text, start)) while (start > 0 && isBlank(text, start)) start--;
  const end = Math.max(start + 1, Math.min(to, lineEnd(text, start)));
  return { start: start + by, end: Math.min(end, text.length) + by };
}

/** A tab among the blanks that indent the faulty line, or a line above it. */
function tabProblem(text: string, fault: SyntaxFault): Problem | null {
  const last = lineEnd(text, Math.min(fault.start, text.length));
  let at = lineStart(text, Math.min(fault.start, text.length));
  let tab = tabInIndent(text, at);
  if (tab < 0 && fault.code === 'TAB_AS_INDENT') {
    tab = text.indexOf('\t', Math.max(0, fault.start - 1));
    if (tab > last) tab = -1;
  }
  // The line before may be the one that a tab put out of place.
  if (tab < 0 && at > 0) {
    at = lineStart(text, at - 1);
    tab = tabInIndent(text, at);
  }
  if (tab < 0) return null;
  let end = tab;
  while (text[end] === '\t') end++;
  return { rule: 'tab-indent', start: tab, end, message: 'This line is indented with a tab; use spaces.' };
}

function tabInIndent(text: string, from: number): number {
  let at = from;
  while (text[at] === ' ') at++;
  return text[at] === '\t' ? at : -1;
}

/** The outermost bracket that is opened before the fault and never closed. */
function openBracket(
  text: string,
  fault: SyntaxFault,
  documents: readonly (TreeNode | null)[],
): Problem | null {
  if (!isOpenBracket(fault)) return null;
  let open: TreeNode | null = null;
  for (const node of flat(documents)) {
    if (node.start > fault.start) break;
    if (!hasBrackets(node, text) || (node.items!.length > 0 && node.end < fault.start)) continue;
    const closed = text[node.end - 1] === (text[node.start] === '{' ? '}' : ']') && node.end - 1 > node.start;
    if (!closed) open ??= node;
  }
  if (open === null) return null;
  const bracket = text[open.start]!;
  const closing = bracket === '{' ? '}' : ']';
  const message = `This ${bracket} is opened here, but its ${closing} is missing or stands too far to the left.`;
  return problemAt(text, 'yaml-syntax', open.start, open.start + 1, message);
}

/**
 * The quote that the fault comes from: one that is never closed, or one that was closed only by the next quote, lines
 * further down, so that what follows it makes no sense.
 */
function openQuote(
  text: string,
  fault: SyntaxFault,
  documents: readonly (TreeNode | null)[],
): Problem | null {
  const unclosed = isOpenQuote(fault);
  let found: TreeNode | null = null;
  for (const node of flat(documents)) {
    if (node.start > fault.start) break;
    if (node.style !== 'single' && node.style !== 'double') continue;
    if (unclosed && node.end < fault.start - 1) continue;
    if (!unclosed) {
      const breaks = text.slice(node.start, node.end).includes('\n');
      if (!breaks || lineEnd(text, node.end) < fault.start) continue;
    }
    found = node;
  }
  if (found === null) return null;
  const message = `This quote is opened here and not closed where it should be; put a ${text[found.start]} at the end of the text.`;
  return problemAt(text, 'yaml-syntax', found.start, found.end, message);
}

function flat(documents: readonly (TreeNode | null)[]): TreeNode[] {
  const nodes: TreeNode[] = [];
  for (const document of documents) if (document) walk(document, (node) => nodes.push(node as TreeNode));
  return nodes;
}

/** Sentences by the library's code, or by the beginning of its message where one code means several mistakes. */
const SENTENCES: readonly (readonly [start: string, sentence: string])[] = [
  ['Implicit map keys need to be followed', 'A colon and a space are missing behind this name.'],
  ['A block sequence may not be used', 'A list cannot start here; give it a line of its own.'],
  ['Missing space after :', 'A space is missing behind this colon.'],
  ['Missing ,', 'A comma is missing before this.'],
  [
    'Comments must be separated',
    'A space is missing before this #; if it belongs to the text, put the text in quotes.',
  ],
  ['Tags and anchors must be', 'A space is missing behind this name.'],
  ['BAD_INDENT', 'This line does not line up with those it belongs to; check the spaces before it.'],
  ['BAD_DQ_ESCAPE', 'A backslash in double quotes needs a second one behind it; or use single quotes.'],
  ['MULTILINE_IMPLICIT_KEY', 'A colon is missing in this line, or the text before it needs quotes.'],
  ['KEY_OVER_1024_CHARS', 'This name is too long; a name may have a thousand characters.'],
  [
    'BLOCK_IN_FLOW',
    'Between brackets, everything stands on commas: a dash or an indented line cannot be used here.',
  ],
  ['MULTIPLE_ANCHORS', 'Two names beginning with & stand here; one value can have only one.'],
  ['MULTIPLE_TAGS', 'Two tags beginning with ! stand here; one value can have only one.'],
  [
    'BAD_ALIAS',
    'A name is missing behind this * or &, or it ends in a colon; if it belongs to the text, use quotes.',
  ],
  ['ALIAS_PROPS', 'A value that begins with * stands for another one and can have nothing of its own.'],
  ['BAD_PROP_ORDER', 'The name beginning with & or ! must stand behind the dash or colon.'],
  [
    'TAG_RESOLVE_FAILED',
    'This tag beginning with ! is not known; if it belongs to the text, put the text in quotes.',
  ],
  ['BAD_COLLECTION_TYPE', 'This tag beginning with ! does not fit what follows it.'],
  ['BAD_DIRECTIVE', 'A line that begins with % has no meaning here; if it is text, put it in quotes.'],
];

function sentence(text: string, fault: SyntaxFault): string {
  if (fault.code === 'BAD_SCALAR_START') {
    return `A text cannot begin with ${text[fault.start] ?? 'this'}; put it in quotes.`;
  }
  const found = text[fault.start];
  if (fault.code === 'UNEXPECTED_TOKEN' && (found === ']' || found === '}'))
    return `This ${found} closes nothing.`;
  for (const [start, words] of SENTENCES) {
    if (fault.code === start || fault.detail.startsWith(start)) return words;
  }
  return 'This is not expected here; check the quotes, brackets and indentation up to this place.';
}

function isBreak(text: string, at: number): boolean {
  return text[at] === '\n' || text[at] === '\r';
}

function isBlank(text: string, at: number): boolean {
  return isBreak(text, at) || text[at] === ' ' || text[at] === '\t';
}
