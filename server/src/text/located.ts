import type { Piece } from './assemble';
import { countMarks, MAX_CHARACTERS, MAX_MARKS, MAX_PIECES } from './limits';
import { readPiece } from './piece';
import { readPieces, tooLarge } from './reading';
import { FIRST_STATE, type PieceStart, sameState, split } from './split';
import type { Reading } from './tree';

/**
 * A document that is read again after each edit, of which only the pieces that the edit touched are parsed anew.
 * What it reads is defined as: split the text, read each piece, graft the trees; an edit only remembers the rest.
 */
export class LocatedText {
  private pieces: Piece[] = [];
  /** Where each piece starts. */
  private offsets: number[] = [];
  private size = 0;
  private marks = 0;
  /** The text itself where it is too large to be read, else null. */
  private unread: string | null = null;
  /** True when there would be too many pieces, and the document is kept as one. */
  private coarse = false;
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
    this.marks = countMarks(text);
    this.unread = text.length > MAX_CHARACTERS || this.marks > MAX_MARKS ? text : null;
    if (this.unread !== null) return;
    let { starts } = split(text, FIRST_STATE, true);
    this.coarse = starts.length > MAX_PIECES;
    if (this.coarse) starts = starts.slice(0, 1);
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
    if (this.unread !== null || this.coarse || this.size + growth > MAX_CHARACTERS) {
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
    if (this.pieces.length > MAX_PIECES || this.marks > MAX_MARKS) this.load(this.text());
  }

  /** What the text says now. The same object until the next edit. */
  reading(): Reading {
    this.known ??=
      this.unread === null ? readPieces(this.pieces, this.offsets, this.size) : tooLarge(this.size);
    return this.known;
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
    this.marks += countMarks(inserted) - countMarks(old.slice(from - base, to - base));
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
}

function pieceOf(start: PieceStart): { kind: Piece['kind']; before: Piece['before'] } {
  return { kind: start.kind, before: start.before };
}

function newPiece(text: string, start: PieceStart, first: boolean): Piece {
  const { reading, root } = readPiece(text, first);
  return { ...pieceOf(start), reading, placed: { offset: 0, root } };
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
