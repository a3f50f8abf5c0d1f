import { assemble, type Piece } from './assemble';
import { MAX_PROBLEMS } from './limits';
import { checkStructure } from './structure';
import { tightSpan } from './syntax';
import type { Problem, Reading } from './tree';

/** Puts together what the pieces of a document say. */
export function readPieces(pieces: readonly Piece[], offsets: readonly number[], length: number): Reading {
  const { root, misfits } = assemble(pieces, offsets);
  const problems: Problem[] = [...misfits.values()];
  const damaged: { start: number; end: number }[] = [];
  const damagedTexts: string[] = [];
  let secondDocumentAt = Number.POSITIVE_INFINITY;
  for (let index = 0; index < pieces.length; index++) {
    const { problem, marker, text, damaged: isDamaged } = pieces[index]!.reading;
    const offset = offsets[index]!;
    const misfit = misfits.has(index);
    const echo = isDamaged && pieces[index - 1]?.reading.open === true;
    if (problem !== null && !misfit && !echo) {
      problems.push({ ...problem, start: problem.start + offset, end: problem.end + offset });
    }
    if (isDamaged || misfit) {
      damaged.push({ start: offset, end: offset + text.length });
      damagedTexts.push(text);
    }
    if (marker === null || secondDocumentAt < length) continue;
    if (marker.harmlessAtEnd && index === pieces.length - 1) continue;
    secondDocumentAt = marker.start + offset;
    const message =
      'This line begins a second document; one file holds one, so take the line out or split the file.';
    problems.push({
      rule: 'several-documents',
      start: secondDocumentAt,
      end: secondDocumentAt + 3,
      message,
    });
  }
  const lost = lostAnchors(damagedTexts);
  const structure =
    root === null ? null : checkStructure(root, { secondDocumentAt, anchorLost: (name) => lost.has(name) });
  for (const problem of structure?.problems ?? []) {
    if (!isWithin(problem.start, damaged)) problems.push(problem);
  }
  return {
    root,
    problems: capped(problems).map((problem) => tight(problem, pieces, offsets)),
    damaged,
    targets: structure?.targets ?? new Map(),
    length,
  };
}

/** What is said of a document above the limits: one problem, and nothing read. */
export function tooLarge(length: number): Reading {
  const message =
    'This document is too large: it has over eight million characters, or half a million lines and values.';
  const problem = { rule: 'too-large', start: 0, end: 1, message };
  return { root: null, problems: [problem], damaged: [], targets: new Map(), length };
}

/** The same problem with a span that stays on its line, and is not empty. */
function tight(problem: Problem, pieces: readonly Piece[], offsets: readonly number[]): Problem {
  let index = 0;
  let high = offsets.length - 1;
  while (index < high) {
    const middle = (index + high + 1) >> 1;
    if (offsets[middle]! <= problem.start) index = middle;
    else high = middle - 1;
  }
  const offset = offsets[index]!;
  const { text } = pieces[index]!.reading;
  return { ...problem, ...tightSpan(text, problem.start - offset, problem.end - offset, offset) };
}

/** The names of anchors in pieces that could not be read whole: an alias to one may be in order. */
function lostAnchors(texts: readonly string[]): ReadonlySet<string> {
  const names = new Set<string>();
  for (const text of texts) for (const match of text.matchAll(/&([^\s,[\]{}]+)/g)) names.add(match[1]!);
  return names;
}

function isWithin(offset: number, spans: readonly { start: number; end: number }[]): boolean {
  let low = 0;
  let high = spans.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (spans[middle]!.end <= offset) low = middle + 1;
    else high = middle;
  }
  return low < spans.length && spans[low]!.start <= offset;
}

function capped(problems: Problem[]): Problem[] {
  const sorted = problems.sort(
    (a, b) => a.start - b.start || a.end - b.end || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0),
  );
  if (sorted.length <= MAX_PROBLEMS) return sorted;
  const { start, end } = sorted[MAX_PROBLEMS]!;
  const message = `From here on ${sorted.length - MAX_PROBLEMS} more mistakes were found; mend those above first.`;
  return [...sorted.slice(0, MAX_PROBLEMS), { rule: 'too-many-problems', start, end, message }];
}
