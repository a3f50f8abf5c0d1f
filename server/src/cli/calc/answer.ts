import { parseGrade, type Strength, strengthOf } from '../../calc/strength';
import { parseThread, type Thread } from '../../calc/threads';
import { otherUnit, printRounded } from '../../units/format';
import { readNumber } from '../../units/number';
import { parseQuantity } from '../../units/quantity';
import { baseSymbols, type Dimension, findUnit, fromBase, INCH_MM } from '../../units/table';
import type { Arguments, Options } from '../command';
import { UsageError } from '../io';

/** What a calculator says: the same in text and in JSON. */
export interface Answer {
  readonly title: string;
  /** Label and value, in the order in which they are printed. */
  readonly rows: readonly (readonly [label: string, value: string])[];
  /** What the figures mean for the work, in sentences. */
  readonly notes: readonly string[];
  readonly assumptions: readonly string[];
  readonly sources: readonly string[];
  /** The figures for programs, in base units (mm, N·m, N, kg, degrees) unless the key says otherwise. */
  readonly figures: Readonly<Record<string, unknown>>;
}

/** One calculator of `kitproof calc`: a file each, registered in `calc.ts`. */
export interface Calculator {
  readonly name: string;
  /** How it is called, behind `kitproof calc`. */
  readonly usage: string;
  readonly summary: string;
  /** The options that are its own, with what help says of each. */
  readonly options: Options;
  readonly optionsHelp: readonly (readonly [option: string, says: string])[];
  readonly example: string;
  answer(words: readonly string[], args: Arguments): Answer;
}

/** The value of an option that is one figure with its unit, in the base unit; undefined where it is not given. */
export function measureOf(args: Arguments, name: string, dimension: Dimension): number | undefined {
  const text = args.text(name);
  return text === undefined ? undefined : figureIn(text, dimension, `--${name}`);
}

/** The same, where it must be given. */
export function neededMeasure(args: Arguments, name: string, dimension: Dimension, example: string): number {
  const value = measureOf(args, name, dimension);
  if (value === undefined) throw new UsageError(`--${name} is missing; write --${name} ${example}.`);
  return value;
}

/** One figure with its unit, in the base unit. */
export function figureIn(text: string, dimension: Dimension, what: string): number {
  const result = parseQuantity(text, dimension);
  if (!result.ok) throw new UsageError(`${what}: ${result.problem.message}`);
  const { low, high, nominal } = result.quantity;
  if (low !== high) throw new UsageError(`${what} takes one figure; "${text}" is a range.`);
  return nominal;
}

/** The value of an option that is a plain number between two bounds; undefined where it is not given. */
export function numberOf(args: Arguments, name: string, least: number, most: number): number | undefined {
  const text = args.text(name)?.trim();
  if (text === undefined) return undefined;
  const read = readNumber(text, 0);
  if (read === undefined || 'message' in read || read.end !== text.length)
    throw new UsageError(`--${name} takes a number; "${text}" is none.`);
  if (read.value < least || read.value > most)
    throw new UsageError(`--${name} takes a number from ${least} to ${most}; ${text} is not.`);
  return read.value;
}

/** The thread that words of the command line name. */
export function threadOf(words: readonly string[]): Thread {
  const result = parseThread(words.join(' '));
  if (!result.ok) throw new UsageError(result.message);
  return result.thread;
}

/** A thread and behind it its class or grade, which may be two words (`grade 8`). */
export function threadAndStrength(words: readonly string[]): { thread: Thread; strength: Strength } {
  // The words in front are the thread as long as they still are one: `1/2-13 UNC grade 8`.
  for (let count = words.length; count > 0; count--) {
    const read = parseThread(words.slice(0, count).join(' '));
    if (!read.ok) continue;
    const rest = words.slice(count).join(' ');
    if (rest === '')
      throw new UsageError(
        `Which ${read.thread.system === 'metric' ? 'class' : 'grade'}? Write it behind the thread, such as ${read.thread.name} ${read.thread.system === 'metric' ? '10.9' : 'grade 8'}.`,
      );
    const grade = parseGrade(rest);
    if (grade === undefined)
      throw new UsageError(
        `There are no figures here for "${rest}"; there are for 8.8, 10.9, 12.9 and grade 2, 5, 8.`,
      );
    const strength = strengthOf(grade, read.thread);
    if (!strength.ok) throw new UsageError(strength.message);
    return { thread: read.thread, strength: strength.strength };
  }
  const read = parseThread(words[0] ?? '');
  throw new UsageError(read.ok ? 'This is no thread.' : read.message);
}

/** A figure rounded as the trade reads it, with the other unit: `95 N·m (70 lbf·ft)`, `12.7 mm (0.5 in)`. */
export function both(base: number, dimension: Dimension, symbol: string = baseSymbols[dimension]): string {
  const quantity = { dimension, low: base, high: base, nominal: base, unit: symbol, symbol };
  const other = otherUnit(quantity);
  return `${alone(base, dimension, symbol)}${other === undefined ? '' : ` (${other})`}`;
}

/** A diameter of a thread's own system: `13.5 mm (0.53 in)`, and of inch threads `10.3 mm (13/32 in)`, as drills are marked. */
export function sized(millimetres: number, { system }: Thread): string {
  const parts = (millimetres / INCH_MM) * 64;
  if (system === 'metric' || Math.abs(parts - Math.round(parts)) > 1e-6) return both(millimetres, 'length');
  let [above, below] = [Math.round(parts), 64];
  while (above % 2 === 0 && below > 1) [above, below] = [above / 2, below / 2];
  const whole = Math.floor(above / below);
  const rest = above % below === 0 ? '' : `${whole === 0 ? '' : ' '}${above % below}/${below}`;
  return `${Number(millimetres.toFixed(2))} mm (${whole === 0 ? '' : whole}${rest} in)`;
}

/** A force, which nobody needs to more than three digits: `70.6 kN (15900 lbf)`. */
export function forces(newtons: number): string {
  const pounds = fromBase(newtons, findUnit('lbf', 'force')!);
  return `${Number((newtons / 1000).toPrecision(3))} kN (${Number(pounds.toPrecision(3))} lbf)`;
}

/** Masses to a tenth: `12.3 kg (27.1 lb)`. */
export function masses(kilograms: number): string {
  const pounds = fromBase(kilograms, findUnit('lb', 'mass')!);
  return `${Number(kilograms.toFixed(1))} kg (${Number(pounds.toFixed(1))} lb)`;
}

/** A range in both units: `92 to 163 N·m (68 to 120 lbf·ft)`. */
export function range(
  low: number,
  high: number,
  dimension: Dimension,
  symbol: string,
  other: string,
): string {
  const inUnit = (name: string): string => {
    const unit = findUnit(name, dimension)!;
    return `${printRounded(low, unit)} to ${printRounded(high, unit)} ${unit.symbol}`;
  };
  return `${inUnit(symbol)} (${inUnit(other)})`;
}

/** The same in one unit alone. */
export function alone(base: number, dimension: Dimension, symbol: string = baseSymbols[dimension]): string {
  const unit = findUnit(symbol, dimension)!;
  return `${printRounded(base, unit)}${unit.close ? '' : ' '}${unit.symbol}`;
}

/** `92 %`. */
export const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** `+7.3 %`, `−2 %`, with one decimal. */
export function signedPercent(share: number): string {
  const figure = Math.round(share * 1000) / 10;
  return `${figure > 0 ? '+' : figure < 0 ? '−' : ''}${Math.abs(figure)} %`;
}

/** A figure for programs: six digits, so that the same question gives the same bytes anywhere. */
export const tidy = (figure: number): number => Number(figure.toPrecision(6));
