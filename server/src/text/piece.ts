import { lineEnd, skipBlanks, type TreeNode } from './build';
import { hasControlCharacter, maskLineBreaks } from './characters';
import { isMarkerAt } from './cursor';
import { readFast } from './fast';
import { MAX_TOLERANT_CHARACTERS } from './limits';
import { endsOpen, syntaxProblem } from './syntax';
import { readTolerant } from './tolerant';
import type { Problem } from './tree';

/** What reading one piece gave. Offsets count from the piece's own start. */
export interface PieceReading {
  readonly text: string;
  /** What is wrong with it: the first mistake, since whatever follows it in the piece may be its echo. */
  readonly problem: Problem | null;
  /** True when the piece is ill-formed, so that something of it may be missing in the tree. */
  readonly damaged: boolean;
  /** True when it ends inside a quote or bracket: a fault in the next piece may be an echo. */
  readonly open: boolean;
  /** A `---` or `...` that is not at the document's start. */
  readonly marker: Marker | null;
}

export interface Marker {
  readonly start: number;
  /** True when it only ends the document, and nothing in the piece follows it. */
  readonly harmlessAtEnd: boolean;
}

/** Reads one piece; its tree is null when it is empty or cannot be read at all. `first` is true for the document's first, which may start with a byte order mark and `---`. */
export function readPiece(text: string, first: boolean): { reading: PieceReading; root: TreeNode | null } {
  const masked = maskLineBreaks(text, first);
  const marker = findMarker(masked, first);
  let root: TreeNode | null = null;
  let problem: Problem | null = null;
  let open = false;
  try {
    root = firstContent(readFast(masked));
  } catch {
    if (masked.length > MAX_TOLERANT_CHARACTERS) problem = unreadablePiece(masked);
    else {
      const { documents, faults } = readTolerant(masked);
      root = firstContent(documents);
      problem = syntaxProblem(masked, faults, documents);
      open = endsOpen(faults);
    }
  }
  const damaged = problem !== null;
  return {
    reading: { text, problem: problem ?? hasControlCharacter(masked), damaged, open, marker },
    root,
  };
}

/** An empty document counts as nothing. */
function firstContent(documents: readonly (TreeNode | null)[]): TreeNode | null {
  for (const root of documents) {
    if (root !== null && (root.start < root.end || root.tag !== null || root.anchor !== null)) return root;
  }
  return null;
}

function unreadablePiece(text: string): Problem {
  const start = skipBlanks(text, 0);
  return {
    rule: 'yaml-syntax',
    start,
    end: start + 1,
    message: 'From here on this cannot be read, and it is too long to say where the mistake is.',
  };
}

// Linear: a fixed word after a line feed. No `^` with the `m` flag, which also matches behind U+2028.
const MARKER = /\n(?:---|\.\.\.)(?=[ \t\r\n]|$)/g;

function findMarker(text: string, first: boolean): Marker | null {
  if (isMarkerAt(text, 0) && !first) return marker(text, 0);
  let mayOpen = first && !isMarkerAt(text, 0);
  for (const match of text.matchAll(MARKER)) {
    const at = match.index + 1;
    if (!mayOpen || !isPrelude(text, at)) return marker(text, at);
    mayOpen = false;
  }
  return null;
}

function marker(text: string, start: number): Marker {
  return { start, harmlessAtEnd: text[start] === '.' && skipBlanks(text, start + 3) >= text.length };
}

/** True when only blanks, comments and directives stand before `end`. */
function isPrelude(text: string, end: number): boolean {
  let at = skipBlanks(text, 0);
  while (at < end && text[at] === '%') at = skipBlanks(text, lineEnd(text, at));
  return at >= end;
}
