import { assemble, type Piece } from './assemble';
import { MAX_CHARACTERS, MAX_PROBLEMS } from './limits';
import { readPiece } from './piece';
import { FIRST_STATE, type PieceStart, sameState, split } from './split';
import { checkStructure } from './structure';
import { tightSpan } from './syntax';
import type { Problem, Reading } from './tree';

/**
 * A document that is read again after each edit, of which only the pieces that the edit touched are parsed anew.
 * What it reads is defined as: split the text, read each piece, graft the trees; an edit only remembers the rest.
 */
export class LocatedText {
  private pieces: Piece[] = [];
  /** Where each piece starts. */
  private offsets: number[] = [];
  private size = 0;
  /** The text itself where it is too large to be read, else null. */
  private unread: string | null = null;
  private known: Reading | null = null;

  constructor(text: string) {
    this.load(text);
  }

  get length(): number {
    return this.size;
  }

  /** Takes a new text in place of the old. */
  load(text: string): void {
    this.known = null;
    this.size = text.length;
    this.pieces = [];
    this.offsets = [];
    this.unread = text.length > MAX_CHARACTERS ? text : null;
    if (this.unread !== null) return;
    const { starts } = split(text, FIRST_STATE, true);
    for (let index = 0; index < starts.length; index++) {
      const offset = starts[index]!.offset;
      const pieceText = text.slice(offset, starts[index + 1]?.offset ?? text.length);
      this.pieces.push(newPiece(pieceText, starts[index]!, index === 0));
      this.offsets.push(offset);
    }
  }

  text(): string {
    return this.unread ?? this.pieces.map((piece) => piece.reading.text).join('');
  }

  /** Replaces `deleted` characters at `offset` by `inserted`. Places outside the text are moved to its nearest end. */
  edit(offset: number, deleted: number, inserted: string): void {
    const from = Math.max(0, Math.min(offset, this.size));
    const to = Math.max(from, Math.min(from + deleted, this.size));
    const growth = inserted.length - (to - from);
    if (this.unread !== null || this.size + growth > MAX_CHARACTERS) {
      const text = this.text();
      this.load(text.slice(0, from) + inserted + text.slice(to));
      return;
    }
    this.known = null;
    this.size += growth;
    let first = this.pieceAt(from);
    // What a piece's first line says decides whether it starts one, so that the piece before is read again too.
    if (first > 0 && from - this.offsets[first]! <= firstLineLength(this.pieces[first]!.reading.text))
      first--;
    this.replace(first, this.pieceAt(to), from, to, inserted);
  }

  /** What the text says now. The same object until the next edit. */
  reading(): Reading {
    this.known ??= this.read();
    return this.known;
  }

  /** The same problem with a span that stays on its line, and is not empty. */
  private tight(problem: Problem): Problem {
    const index = this.pieceAt(problem.start);
    const offset = this.offsets[index]!;
    return {
      ...problem,
      ...tightSpan(this.pieces[index]!.reading.text, problem.start - offset, problem.end - offset, offset),
    };
  }

  private pieceAt(offset: number): number {
    let low = 0;
    let high = this.offsets.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.offsets[middle]! <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** Reads pieces `first` to `last` again with the edit in them, and further ones until the splitter's states meet. */
  private replace(first: number, last: number, from: number, to: number, inserted: string): void {
    const { pieces, offsets } = this;
    const base = offsets[first]!;
    const old = textOf(pieces, first, last);
    let region = old.slice(0, from - base) + inserted + old.slice(to - base);
    let end = last;
    let step = 1;
    let starts: readonly PieceStart[];
    for (;;) {
      const next = pieces[end + 1];
      if (next === undefined || endsLine(region)) {
        const result = split(region, pieces[first]!.before, first === 0);
        starts = result.starts;
        if (next === undefined || sameState(result.end, next.before)) break;
      }
      // Doubling keeps the worst case, an edit that changes everything below it, linear.
      const further = Math.min(pieces.length - 1, end + step);
      region += textOf(pieces, end + 1, further);
      end = further;
      step *= 2;
    }
    const readBefore = new Map<string, Piece>();
    for (let index = first; index <= end; index++)
      readBefore.set(pieces[index]!.reading.text, pieces[index]!);
    const newPieces: Piece[] = [];
    const newOffsets: number[] = [];
    for (let index = 0; index < starts.length; index++) {
      const start = starts[index]!;
      const text = region.slice(start.offset, starts[index + 1]?.offset ?? region.length);
      const isFirst = first === 0 && index === 0;
      const same = isFirst ? undefined : readBefore.get(text);
      // The document's first piece is read by rules of its own, so that its reading is never taken for another.
      const reusable = same !== undefined && same !== pieces[0];
      newPieces.push(
        reusable
          ? { ...pieceOf(start), reading: same.reading, placed: same.placed }
          : newPiece(detached(text), start, isFirst),
      );
      newOffsets.push(base + start.offset);
    }
    const growth = inserted.length - (to - from);
    const tailOffsets = offsets.slice(end + 1);
    this.pieces = [...pieces.slice(0, first), ...newPieces, ...pieces.slice(end + 1)];
    this.offsets = [
      ...offsets.slice(0, first),
      ...newOffsets,
      ...tailOffsets.map((offset) => offset + growth),
    ];
  }

  private read(): Reading {
    if (this.unread !== null) {
      const message = 'This document has more than eight million characters; nothing of it is read.';
      return {
        root: null,
        problems: [{ rule: 'too-large', start: 0, end: 1, message }],
        damaged: [],
        targets: new Map(),
        length: this.size,
      };
    }
    const { root, misfits } = assemble(this.pieces, this.offsets);
    const problems: Problem[] = [...misfits.values()];
    const damaged: { start: number; end: number }[] = [];
    const damagedTexts: string[] = [];
    let secondDocumentAt = Number.POSITIVE_INFINITY;
    for (let index = 0; index < this.pieces.length; index++) {
      const { problem, marker, text, damaged: isDamaged } = this.pieces[index]!.reading;
      const offset = this.offsets[index]!;
      const misfit = misfits.has(index);
      const echo = isDamaged && this.pieces[index - 1]?.reading.open === true;
      if (problem !== null && !misfit && !echo) {
        problems.push({ ...problem, start: problem.start + offset, end: problem.end + offset });
      }
      if (isDamaged || misfit) {
        damaged.push({ start: offset, end: offset + text.length });
        damagedTexts.push(text);
      }
      if (marker === null || secondDocumentAt < this.size) continue;
      if (marker.harmlessAtEnd && index === this.pieces.length - 1) continue;
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
    const anchorLost = (name: string) => damagedTexts.some((text) => text.includes(`&${name}`));
    const structure = root === null ? null : checkStructure(root, { secondDocumentAt, anchorLost });
    for (const problem of structure?.problems ?? []) {
      if (!isWithin(problem.start, damaged)) problems.push(this.tight(problem));
    }
    return {
      root,
      problems: capped(problems),
      damaged,
      targets: structure?.targets ?? new Map(),
      length: this.size,
    };
  }
}

function pieceOf(start: PieceStart): { kind: Piece['kind']; before: Piece['before'] } {
  return { kind: start.kind, before: start.before };
}

function newPiece(text: string, start: PieceStart, first: boolean): Piece {
  return { ...pieceOf(start), reading: readPiece(text, first), placed: null };
}

function textOf(pieces: readonly Piece[], first: number, last: number): string {
  let text = '';
  for (let index = first; index <= last; index++) text += pieces[index]!.reading.text;
  return text;
}

/** A copy that does not keep the longer text alive of which it was cut: a slice of a joined string is one of its own. */
function detached(text: string): string {
  return ` ${text}`.slice(1);
}

function firstLineLength(text: string): number {
  const at = text.search(/[\r\n]/);
  return at < 0 ? text.length : at;
}

/** True when the next character starts a line. No piece but the first starts with a line break, so a CR is one alone. */
function endsLine(text: string): boolean {
  return text.endsWith('\n') || text.endsWith('\r');
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
