/** A figure read from a text, with the place after it. */
export interface ReadNumber {
  readonly value: number;
  readonly end: number;
}

/** Why a figure could not be read. */
export interface NumberProblem {
  readonly message: string;
  readonly start: number;
  readonly end: number;
}

const vulgarFractions: ReadonlyMap<string, number> = new Map([
  ['½', 1 / 2],
  ['¼', 1 / 4],
  ['¾', 3 / 4],
  ['⅓', 1 / 3],
  ['⅔', 2 / 3],
  ['⅛', 1 / 8],
  ['⅜', 3 / 8],
  ['⅝', 5 / 8],
  ['⅞', 7 / 8],
]);

const blanks = new Set([...' \t\r\n\u00a0\u2007\u2009\u202f']);
const minusSigns = new Set([...'-\u2010\u2011\u2012\u2013\u2212']);

/** Whether a character is a blank of any width. */
export const isBlank = (char: string | undefined): boolean => char !== undefined && blanks.has(char);

/** Whether a character is a hyphen, dash or minus sign. */
export const isDash = (char: string | undefined): boolean =>
  char !== undefined && (minusSigns.has(char) || char === '\u2014');

export const isDigit = (char: string | undefined): boolean =>
  char !== undefined && char >= '0' && char <= '9';

/** The place of the first character from `at` on that is no blank. */
export function skipBlanks(text: string, at: number): number {
  let place = at;
  while (isBlank(text[place])) place++;
  return place;
}

const digitsFrom = (text: string, at: number): number => {
  let end = at;
  while (isDigit(text[end])) end++;
  return end;
};

/**
 * Reads a figure at `at`: `95`, `-5`, `0,7`, `1/2`, `3 1/2`, `3-1/2`, `3½`, `1 192`. Undefined where none stands there;
 * a problem where one does that can be read in two ways or not at all (`1,192`, `1/0`).
 */
export function readNumber(text: string, at: number): ReadNumber | NumberProblem | undefined {
  let place = at;
  let sign = 1;
  if (text[place] === '+' || minusSigns.has(text[place] ?? '')) {
    if (text[place] !== '+') sign = -1;
    place = skipBlanks(text, place + 1);
  }
  const fraction = vulgarFractions.get(text[place] ?? '');
  if (fraction !== undefined) return { value: sign * fraction, end: place + 1 };
  const wholeEnd = digitsFrom(text, place);
  if (wholeEnd === place && !('.,'.includes(text[place] ?? ' ') && isDigit(text[place + 1])))
    return undefined;
  if (text[wholeEnd] === '/' && isDigit(text[wholeEnd + 1])) return readFraction(text, at, place, sign, 0);
  const whole = Number(text.slice(place, wholeEnd) || '0');
  const mixed = readMixed(text, at, wholeEnd, sign, whole);
  return mixed ?? readDecimal(text, at, place, wholeEnd, sign);
}

/** The fraction after a whole number: `3 1/2`, `3-1/2`, `3½`, `3 ½`. */
function readMixed(
  text: string,
  start: number,
  wholeEnd: number,
  sign: number,
  whole: number,
): ReadNumber | NumberProblem | undefined {
  if ('.,'.includes(text[wholeEnd] ?? ' ')) return undefined;
  const next = skipBlanks(text, wholeEnd);
  const vulgar = vulgarFractions.get(text[next] ?? '');
  if (vulgar !== undefined) return { value: sign * (whole + vulgar), end: next + 1 };
  const begin = text[wholeEnd] === '-' ? wholeEnd + 1 : next;
  if (begin === wholeEnd) return undefined;
  const middle = digitsFrom(text, begin);
  if (middle === begin || text[middle] !== '/' || !isDigit(text[middle + 1])) return undefined;
  return readFraction(text, start, begin, sign, whole);
}

function readFraction(
  text: string,
  start: number,
  at: number,
  sign: number,
  whole: number,
): ReadNumber | NumberProblem {
  const middle = digitsFrom(text, at);
  const end = digitsFrom(text, middle + 1);
  const value = whole + Number(text.slice(at, middle)) / Number(text.slice(middle + 1, end));
  if (!Number.isFinite(value)) return notANumber(text, start, end);
  return { value: sign * value, end };
}

function readDecimal(
  text: string,
  start: number,
  at: number,
  wholeEnd: number,
  sign: number,
): ReadNumber | NumberProblem {
  let digits = text.slice(at, wholeEnd);
  let end = wholeEnd;
  // Thousands set apart by a blank, as standards print them.
  while (digits.length > 0 && digits.length <= 15 && (end > wholeEnd || digits.length <= 3)) {
    if (!isBlank(text[end]) || digitsFrom(text, end + 1) !== end + 4) break;
    digits += text.slice(end + 1, end + 4);
    end += 4;
  }
  const mark = text[end];
  if ((mark === '.' || mark === ',') && isDigit(text[end + 1])) {
    const decimals = digitsFrom(text, end + 1);
    const part = text.slice(end + 1, decimals);
    if (mark === ',' && part.length === 3 && digits.length <= 3 && Number(digits) > 0 && end === wholeEnd) {
      return {
        message: `"${text.slice(at, decimals)}" can be read as ${digits}.${part} or as ${digits}${part}; write it without the comma.`,
        start,
        end: decimals,
      };
    }
    digits = `${digits || '0'}.${part}`;
    end = decimals;
  }
  const after = text[end];
  const value = Number(digits);
  if (!Number.isFinite(value) || ((after === '.' || after === ',') && isDigit(text[end + 1]))) {
    return notANumber(text, start, digitsFrom(text, end + 1));
  }
  return { value: sign * value, end };
}

function notANumber(text: string, start: number, end: number): NumberProblem {
  const written = text.slice(start, end);
  return {
    message: `"${written.length > 30 ? `${written.slice(0, 30)}…` : written}" is not a number.`,
    start,
    end,
  };
}
