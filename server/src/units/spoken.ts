/** Figures in running words: `Raise the axle 90 mm, evenly`, `to 25-30 N·m`, `open it to 9 mm`. */

import { isDash, isDigit, readNumber, skipBlanks } from './number';
import { parseQuantity, type Quantity } from './quantity';
import { DIMENSIONS, isSeparator, unitsSpelled } from './table';

export interface SpokenFigure {
  readonly quantity: Quantity;
  /** In the text, UTF-16 units, end excluded. */
  readonly start: number;
  readonly end: number;
}

/** Words of the language that look like a unit behind a figure: `the 3 in the box`, `the 2 a side`. */
const WORDS: ReadonlySet<string> = new Set(['in', 'a']);

/**
 * The figures with units that stand in a text, in its order. What is no plain figure with a unit behind it is passed over: threads
 * (`M10x1.5`), counts, several figures run together (`1 h 30 min`). One pass; never throws.
 */
export function spokenFigures(text: string): SpokenFigure[] {
  const found: SpokenFigure[] = [];
  let at = 0;
  while (at < text.length) {
    if (!isDigit(text[at])) {
      at++;
      continue;
    }
    const start = at;
    const figure = isPart(text[start - 1]) ? null : figureAt(text, start);
    if (figure === null) {
      while (at < text.length && (isDigit(text[at]) || isPart(text[at]))) at++;
      continue;
    }
    at = figure.end;
    const last = found.at(-1);
    if (last !== undefined && last.quantity.dimension === figure.quantity.dimension) {
      // `1 h 30 min` is one figure in two units, which nothing here is held against.
      if (skipBlanks(text, last.end) === start) {
        found.pop();
        continue;
      }
    }
    found.push(figure);
  }
  return found;
}

function figureAt(text: string, start: number): SpokenFigure | null {
  const first = endOfNumber(text, start);
  if (first === null) return null;
  let at = skipBlanks(text, first);
  // A range; both of its figures have the unit that stands behind the second.
  const dash = isDash(text[at]) ? 1 : text.startsWith('to ', at) ? 3 : 0;
  if (dash > 0) {
    const second = endOfNumber(text, skipBlanks(text, at + dash));
    if (second === null) return null;
    at = skipBlanks(text, second);
  }
  const end = endOfProduct(text, at, endOfUnit(text, at));
  const unit = text.slice(at, end);
  if (unit === '' || WORDS.has(unit) || unitsSpelled(unit).length === 0) return null;
  const result = parseQuantity(text.slice(start, end), DIMENSIONS);
  return result.ok ? { quantity: result.quantity, start, end } : null;
}

function endOfNumber(text: string, at: number): number | null {
  if (!isDigit(text[at])) return null;
  const number = readNumber(text, at);
  return number !== undefined && 'value' in number ? number.end : null;
}

/** A unit is letters with dots, strokes and powers between them; a full stop behind it ends the sentence. */
function endOfUnit(text: string, from: number): number {
  let at = from;
  while (at < text.length && (isLetter(text[at]!) || '·⋅/²³°µ'.includes(text[at]!))) at++;
  if (text[at] === '.' && isLetter(text[at + 1] ?? ' ')) {
    const end = endOfUnit(text, at + 1);
    return unitsSpelled(text.slice(from, end)).length > 0 ? end : at;
  }
  return at;
}

/** A unit may be two words, with a hyphen, a blank or a full stop between them: `ft-lb`, `ft. lbs`, `N m`. */
function endOfProduct(text: string, from: number, first: number): number {
  let at = first;
  while (at < first + 2 && isSeparator(text[at] ?? '')) at++;
  const end = endOfUnit(text, at);
  if (at === first || end === at) return first;
  const torque = unitsSpelled(text.slice(from, end)).some(({ dimension }) => dimension === 'torque');
  return torque ? end : first;
}

const isLetter = (char: string): boolean => char.toLowerCase() !== char.toUpperCase();
/** What may stand before a figure that is no figure of its own: a part of a name, a thread or a number. */
const isPart = (char: string | undefined): boolean =>
  char !== undefined && (isLetter(char) || char === '_' || char === '.' || char === ',' || char === '-');
