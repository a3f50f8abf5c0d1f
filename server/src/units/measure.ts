import { isOnlyUnit, nearestUnit } from './nearest';
import { isBlank, isDash, isDigit, type NumberProblem, readNumber, skipBlanks } from './number';
import { checkPair, type Resolved } from './pair';
import { fail, Problem, shown } from './problem';
import type { Quantity, QuantityResult } from './quantity';
import {
  baseSymbols,
  type Dimension,
  dimensionNames,
  isSeparator,
  toBase,
  type Unit,
  unitsSpelled,
} from './table';

/** Longer texts are no measure; nothing below is read twice per character beyond this. */
const LONGEST = 200;
const LONGEST_UNIT = 28;

/** Figures below nothing make sense here: positions, turns back, gauge pressures under the air's. */
const maybeNegative: ReadonlySet<Dimension> = new Set<Dimension>([
  'length',
  'angle',
  'pressure',
  'temperature',
  'voltage',
  'current',
]);

interface WrittenUnit {
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly candidates: readonly Unit[];
}

/** One end of a range: a figure, or several in falling units (`1 h 30 min`). */
interface Side {
  readonly parts: { readonly value: number; readonly unit: WrittenUnit | undefined }[];
  readonly start: number;
  readonly end: number;
}

interface Range {
  readonly low: Side;
  readonly high: Side;
  /** Half of the width, for `95 ± 5 N·m`. */
  readonly tolerance: boolean;
  readonly start: number;
  readonly end: number;
}

/** Reads a quantity of one of the dimensions; see `parseQuantity`. */
export function readMeasure(text: string, dimensions: readonly Dimension[]): QuantityResult {
  try {
    return { ok: true, quantity: new MeasureReader(text, dimensions).read() };
  } catch (error) {
    if (error instanceof Problem) return { ok: false, problem: error.problem };
    throw error;
  }
}

class MeasureReader {
  private at = 0;

  constructor(
    private readonly text: string,
    private readonly dimensions: readonly Dimension[],
  ) {}

  read(): Quantity {
    const { text } = this;
    if (text.length > LONGEST)
      fail('not-understood', `This is too long to be ${this.wanted()}.`, 0, text.length);
    const first = this.resolve(this.readRange(), undefined);
    let second: Resolved | undefined;
    this.at = skipBlanks(text, this.at);
    if (text[this.at] === '(') {
      const open = this.at++;
      second = this.resolve(this.readRange(), first.unit.dimension);
      this.at = skipBlanks(text, this.at);
      if (text[this.at] !== ')')
        fail('not-understood', 'The bracket after the figure is not closed.', open, text.length);
      this.at++;
    }
    this.at = skipBlanks(text, this.at);
    if (this.at < text.length) {
      const rest = text.slice(this.at);
      fail(
        'not-understood',
        `"${shown(rest.trim())}" after the figure is not understood.`,
        this.at,
        text.length,
      );
    }
    if (second !== undefined) checkPair(first, second);
    const { low, high, unit } = first;
    return {
      dimension: unit.dimension,
      low,
      high,
      nominal: low === high ? low : (low + high) / 2,
      unit: first.written,
      symbol: unit.symbol,
      ...(second && {
        second: { low: second.low, high: second.high, unit: second.written, symbol: second.unit.symbol },
      }),
    };
  }

  private wanted(): string {
    return this.dimensions.map((dimension) => dimensionNames[dimension]).join(' or ');
  }

  private readRange(): Range {
    const { text } = this;
    this.at = skipBlanks(text, this.at);
    const start = this.at;
    const low = this.readSide();
    const next = skipBlanks(text, this.at);
    const mark = text[next];
    const tolerance = mark === '±' || text.startsWith('+/-', next);
    if (tolerance) this.at = next + (mark === '±' ? 1 : 3);
    else if (isDash(mark)) this.at = next + 1;
    else if (text.startsWith('to', next) && isBlank(text[next + 2])) this.at = next + 2;
    else return { low, high: low, tolerance: false, start, end: low.end };
    this.at = skipBlanks(text, this.at);
    const high = this.readSide();
    return { low, high, tolerance, start, end: high.end };
  }

  private readSide(): Side {
    const { text } = this;
    const start = this.at;
    const parts: Side['parts'] = [];
    for (;;) {
      const number = readNumber(text, this.at);
      if (number === undefined) {
        const word = text.slice(start).trim();
        const message =
          word === ''
            ? `${this.wanted()} is missing here.`
            : `"${shown(word)}" is not a number with its unit.`;
        return fail('not-a-number', message[0]!.toUpperCase() + message.slice(1), start, text.length);
      }
      if ('message' in number) return this.failNumber(number);
      this.at = number.end;
      const unit = this.readUnit();
      parts.push({ value: number.value, unit });
      const next = skipBlanks(text, this.at);
      if (unit === undefined || !isDigit(text[next])) break;
      this.at = next;
    }
    return { parts, start, end: this.at };
  }

  private failNumber(problem: NumberProblem): never {
    return fail('not-a-number', problem.message, problem.start, problem.end);
  }

  /** The unit after a figure: the longest known spelling, or the whole word where none is known. */
  private readUnit(): WrittenUnit | undefined {
    const { text } = this;
    const start = skipBlanks(text, this.at);
    const limit = Math.min(text.length, start + LONGEST_UNIT);
    if (start >= limit || '()±+'.includes(text[start]!) || isDash(text[start]) || isDigit(text[start]))
      return undefined;
    if (text.startsWith('to', start) && isBlank(text[start + 2])) return undefined;
    for (let end = limit; end > start; end--) {
      const last = text[end - 1]!;
      const next = text[end];
      // A unit ends with a letter or sign of its own, and where a word ends; a full stop may belong to it (`in.`).
      if (isDigit(last) || (isSeparator(last) && last !== '.') || (next !== undefined && isLetter(next)))
        continue;
      const candidates = unitsSpelled(text.slice(start, end));
      if (candidates.length === 0) continue;
      this.at = end;
      return { text: text.slice(start, end), start, end, candidates };
    }
    let end = start;
    while (end < text.length && text[end] !== '(' && text[end] !== ')' && !this.rangeGoesOn(end)) end++;
    while (end > start && isBlank(text[end - 1])) end--;
    this.at = end;
    return { text: text.slice(start, end), start, end, candidates: [] };
  }

  /** Whether the next figure begins here, so that an unknown unit has ended. */
  private rangeGoesOn(place: number): boolean {
    const { text } = this;
    if (text[place] === '±') return true;
    if (isDigit(text[place])) return isBlank(text[place - 1]);
    return isDash(text[place]) && isDigit(text[skipBlanks(text, place + 1)]);
  }

  private resolve(range: Range, dimension: Dimension | undefined): Resolved {
    const highUnit = range.high.parts[0]!.unit;
    const lowUnit = range.low.parts[0]!.unit;
    if (lowUnit === undefined && highUnit === undefined) this.missingUnit(range);
    const low = this.sideValue(range.low, lowUnit ?? highUnit, dimension);
    const high = this.sideValue(range.high, highUnit ?? lowUnit, dimension ?? low.unit.dimension);
    const name = this.text.slice(range.start, range.end);
    const whole = { unit: low.unit, written: low.written, start: range.start, end: range.end };
    if (range.tolerance) {
      const half = high.value - toBase(0, high.unit);
      if (half < 0)
        fail('negative', `The tolerance of "${name}" is below zero.`, range.high.start, range.high.end);
      return this.checked({ ...whole, low: low.value - half, high: low.value + half });
    }
    if (low.value > high.value) {
      fail(
        'range-upside-down',
        `The range "${name}" is upside down: its first figure is the larger.`,
        range.start,
        range.end,
      );
    }
    return this.checked({ ...whole, low: low.value, high: high.value });
  }

  private checked(range: Resolved): Resolved {
    const { dimension } = range.unit;
    if (range.low < 0 && !maybeNegative.has(dimension)) {
      const name = dimensionNames[dimension];
      fail(
        'negative',
        `${name[0]!.toUpperCase()}${name.slice(1)} cannot be below zero.`,
        range.start,
        range.end,
      );
    }
    return range;
  }

  private sideValue(
    side: Side,
    fallback: WrittenUnit | undefined,
    dimension: Dimension | undefined,
  ): { readonly value: number; readonly unit: Unit; readonly written: string } {
    let first: { unit: Unit; written: string } | undefined;
    let sum = 0;
    let previous = Number.POSITIVE_INFINITY;
    for (const part of side.parts) {
      const written = part.unit ?? (first === undefined ? fallback : undefined);
      if (written === undefined) return this.missingLastUnit(side);
      const unit = this.unitOf(written, first?.unit.dimension ?? dimension);
      if (first !== undefined && (unit.factor >= previous || part.value < 0)) {
        fail(
          'not-understood',
          `"${this.text.slice(side.start, side.end)}" is not understood as one figure.`,
          side.start,
          side.end,
        );
      }
      previous = unit.factor;
      const value = toBase(part.value, unit);
      // In `-1 ft 6 in` the sign is said once.
      sum += first !== undefined && side.parts[0]!.value < 0 ? -value : value;
      first ??= { unit, written: written.text };
    }
    if (!Number.isFinite(sum)) {
      fail('not-a-number', 'This figure is too large to be meant.', side.start, side.end);
    }
    return { value: sum, unit: first!.unit, written: first!.written };
  }

  private missingUnit({ start, end }: Range): never {
    if (this.dimensions.length > 1) {
      const message = `The unit is missing, as in ${this.text.slice(start, end)} mm.`;
      return fail('missing-unit', message, start, end);
    }
    const symbol = baseSymbols[this.dimensions[0] ?? 'length'];
    const example = `${this.text.slice(start, end)}${symbol === '°' ? '' : ' '}${symbol}`;
    const message = `The unit is missing: ${this.wanted()} needs one, such as "${example}".`;
    return fail('missing-unit', message, start, end, symbol);
  }

  private missingLastUnit({ start, end }: Side): never {
    const message = `The unit of the last figure in "${this.text.slice(start, end)}" is missing.`;
    return fail('missing-unit', message, start, end);
  }

  private unitOf(written: WrittenUnit, dimension: Dimension | undefined): Unit {
    const wanted = dimension === undefined ? this.dimensions : [dimension];
    for (const one of wanted) {
      const unit = written.candidates.find((candidate) => candidate.dimension === one);
      if (unit !== undefined) return unit;
    }
    const other = written.candidates[0];
    if (other === undefined) return this.unknownUnit(written, wanted);
    const names = wanted.map((one) => dimensionNames[one]).join(' or ');
    return fail(
      'wrong-dimension',
      `${names[0]!.toUpperCase()}${names.slice(1)} is wanted here, not ${dimensionNames[other.dimension]}.`,
      written.start,
      written.end,
    );
  }

  private unknownUnit(written: WrittenUnit, wanted: readonly Dimension[]): never {
    const nearest = nearestUnit(written.text, wanted);
    const hint = nearest === undefined ? '' : `; did you mean "${nearest}"?`;
    return fail(
      'unknown-unit',
      `The unit "${shown(written.text)}" is not known${hint || '.'}`,
      written.start,
      written.end,
      nearest,
      nearest !== undefined && isOnlyUnit(written.text, nearest, wanted),
    );
  }
}

const isLetter = (char: string): boolean => char.toLowerCase() !== char.toUpperCase();
