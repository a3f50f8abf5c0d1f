/**
 * Screw threads: what a designation says, and the areas that carry the load.
 *
 * Lengths in mm, areas in mm². Metric threads have the ISO 68-1 profile and the coarse pitches of ISO 261; unified ones the same
 * profile and the threads per inch of ASME B1.1 (both lists from memory). Basic sizes throughout, no tolerances.
 */

import { isDigit, readNumber, skipBlanks } from '../units/number';
import { INCH_MM } from '../units/table';

export interface Thread {
  /** As it is printed: `M12x1.25`, `M10`, `1/2-13 UNC`. */
  readonly name: string;
  readonly system: 'metric' | 'unified';
  /** Nominal diameter, mm. */
  readonly diameter: number;
  /** Distance from thread to thread, mm. */
  readonly pitch: number;
  /** Finer or coarser than the standard coarse pitch of its diameter; `other` where it has none. */
  readonly series: 'coarse' | 'fine' | 'coarser' | 'other';
  /** Threads per inch of a unified thread, else null. */
  readonly perInch: number | null;
}

export type ThreadResult =
  | { readonly ok: true; readonly thread: Thread }
  | { readonly ok: false; readonly message: string };

/** Longer texts are no designation. */
const LONGEST = 40;
/** A deeper thread would leave no core: the coarsest standard pitch is a quarter of its diameter. */
const DEEPEST = 0.3;

/** Coarse pitch by diameter, mm: ISO 261. */
const metricCoarse: ReadonlyMap<number, number> = new Map([
  [1.6, 0.35],
  [2, 0.4],
  [2.5, 0.45],
  [3, 0.5],
  [3.5, 0.6],
  [4, 0.7],
  [5, 0.8],
  [6, 1],
  [7, 1],
  [8, 1.25],
  [10, 1.5],
  [12, 1.75],
  [14, 2],
  [16, 2],
  [18, 2.5],
  [20, 2.5],
  [22, 2.5],
  [24, 3],
  [27, 3],
  [30, 3.5],
  [33, 3.5],
  [36, 4],
  [39, 4],
]);

/** Diameter as it is written, in inches, threads per inch UNC and UNF: ASME B1.1. */
const unified: readonly (readonly [name: string, inches: number, coarse: number, fine: number])[] = [
  ['#4', 0.112, 40, 48],
  ['#5', 0.125, 40, 44],
  ['#6', 0.138, 32, 40],
  ['#8', 0.164, 32, 36],
  ['#10', 0.19, 24, 32],
  ['#12', 0.216, 24, 28],
  ['1/4', 0.25, 20, 28],
  ['5/16', 0.3125, 18, 24],
  ['3/8', 0.375, 16, 24],
  ['7/16', 0.4375, 14, 20],
  ['1/2', 0.5, 13, 20],
  ['9/16', 0.5625, 12, 18],
  ['5/8', 0.625, 11, 18],
  ['3/4', 0.75, 10, 16],
  ['7/8', 0.875, 9, 14],
  ['1', 1, 8, 12],
  ['1 1/8', 1.125, 7, 12],
  ['1 1/4', 1.25, 7, 12],
];

const SERIES = ['UNC', 'UNF', 'UNEF', 'UNS', 'UN'] as const;

const refuse = (message: string): ThreadResult => ({ ok: false, message });
const printed = (figure: number): string => String(Number(figure.toFixed(4)));

/**
 * Reads a designation: `M12x1.25`, `M10` (coarse), `1/2-13 UNC`, `3/8-24`, `5/16 UNF`, `#10-24`. What a tolerance (`-6g`, `-2A`) or
 * `LH` adds is passed over. Never throws; linear in the length of the text.
 */
export function parseThread(text: string): ThreadResult {
  const written = text.trim();
  if (written === '') return refuse('A thread is missing here; write one such as M12x1.25 or 3/8-24.');
  if (written.length > LONGEST) return refuse('This is too long to be a thread.');
  return written[0] === 'M' || written[0] === 'm' ? metric(written) : inch(written);
}

function metric(written: string): ThreadResult {
  const diameter = readNumber(written, skipBlanks(written, 1));
  if (diameter === undefined || 'message' in diameter || !(diameter.value >= 1 && diameter.value <= 150))
    return refuse(`"${written}" is no thread; write one such as M12x1.25 or M10.`);
  const coarse = metricCoarse.get(diameter.value);
  let at = skipBlanks(written, diameter.end);
  let pitch = coarse;
  if (isTimes(written[at]) || (isHyphen(written[at]) && isPitch(written, at + 1))) {
    const read = readNumber(written, skipBlanks(written, at + 1));
    if (read === undefined || 'message' in read)
      return refuse(`The pitch is missing in "${written}"; write it such as M12x1.25.`);
    pitch = read.value;
    at = skipBlanks(written, read.end);
  }
  if (!isTail(written.slice(at)))
    return refuse(
      `"${written.slice(at)}" in "${written}" is not understood; write a thread such as M12x1.25.`,
    );
  if (pitch === undefined)
    return refuse(
      `M${printed(diameter.value)} has no standard coarse pitch; write the pitch behind it, such as M12x1.25.`,
    );
  if (!(pitch >= 0.2 && pitch <= diameter.value * DEEPEST))
    return refuse(
      `A pitch of ${printed(pitch)} mm does not fit on a diameter of ${printed(diameter.value)} mm${coarse === undefined ? '' : `; the coarse pitch of M${printed(diameter.value)} is ${coarse} mm`}.`,
    );
  const series =
    coarse === undefined ? 'other' : pitch === coarse ? 'coarse' : pitch < coarse ? 'fine' : 'coarser';
  const name = `M${printed(diameter.value)}${series === 'coarse' ? '' : `x${printed(pitch)}`}`;
  return {
    ok: true,
    thread: { name, system: 'metric', diameter: diameter.value, pitch, series, perInch: null },
  };
}

function inch(written: string): ThreadResult {
  const numbered = written[0] === '#' || written.slice(0, 3).toLowerCase() === 'no.';
  const start = skipBlanks(written, numbered ? (written[0] === '#' ? 1 : 3) : 0);
  const size = readNumber(written, start);
  if (size === undefined || 'message' in size || size.value <= 0)
    return refuse(`"${written}" is no thread; write one such as M12x1.25, 1/2-13 UNC or 3/8-24.`);
  const row = numbered
    ? unified.find(([name]) => name === `#${size.value}`)
    : unified.find(([name, inches]) => !name.startsWith('#') && Math.abs(inches - size.value) < 1e-4);
  const inches = row?.[1] ?? size.value;
  if (numbered && row === undefined) return refuse(`There is no unified thread #${printed(size.value)}.`);
  if (inches > 6)
    return refuse(`"${written}" is no thread; a metric one begins with M, such as M${printed(size.value)}.`);
  let at = skipBlanks(written, size.end);
  if (written[at] === '"' || written[at] === '″') at = skipBlanks(written, at + 1);
  else if (/^in\b/i.test(written.slice(at, at + 3))) at = skipBlanks(written, at + 2);
  let perInch: number | undefined;
  if (isHyphen(written[at]) || isTimes(written[at])) at = skipBlanks(written, at + 1);
  if (isDigit(written[at])) {
    const read = readNumber(written, at);
    if (read === undefined || 'message' in read)
      return refuse(`The threads per inch are not understood in "${written}"; write them such as 1/2-13.`);
    perInch = read.value;
    at = skipBlanks(written, read.end);
    if (/^tpi\b/i.test(written.slice(at, at + 4))) at = skipBlanks(written, at + 3);
  }
  const rest = written.slice(at).toUpperCase();
  const said = SERIES.find(
    (word) => rest === word || rest.startsWith(`${word} `) || rest.startsWith(`${word}-`),
  );
  if (!isTail(written.slice(at + (said?.length ?? 0)).trim()))
    return refuse(
      `"${written.slice(at)}" in "${written}" is not understood; write a thread such as 1/2-13 UNC.`,
    );
  const name = row?.[0] ?? printed(inches);
  const standard =
    row === undefined ? undefined : said === 'UNC' ? row[2] : said === 'UNF' ? row[3] : undefined;
  if (perInch !== undefined && standard !== undefined && perInch !== standard)
    return refuse(`${name} ${said} has ${standard} threads per inch, not ${printed(perInch)}.`);
  perInch ??= standard;
  if (perInch === undefined)
    return refuse(
      `How many threads per inch does ${name} have? Write them behind it, such as ${name}-${row?.[2] ?? 12}${row === undefined ? '' : ` (coarse) or ${name}-${row[3]} (fine)`}.`,
    );
  const pitch = INCH_MM / perInch;
  if (!(perInch >= 2 && perInch <= 100 && pitch <= inches * INCH_MM * DEEPEST))
    return refuse(`${printed(perInch)} threads per inch do not fit on a diameter of ${name} in.`);
  const series =
    row === undefined ? 'other' : perInch === row[2] ? 'coarse' : perInch > row[2] ? 'fine' : 'coarser';
  const suffix = perInch === row?.[2] ? ' UNC' : perInch === row?.[3] ? ' UNF' : '';
  return {
    ok: true,
    thread: {
      name: `${name}-${printed(perInch)}${suffix}`,
      system: 'unified',
      diameter: inches * INCH_MM,
      pitch,
      series,
      perInch,
    },
  };
}

const isTimes = (char: string | undefined): boolean =>
  char === 'x' || char === 'X' || char === '×' || char === '*';
const isHyphen = (char: string | undefined): boolean => char === '-' || char === '–';

/** Behind a hyphen a pitch (`M12-1.75`), or a tolerance (`M12-6g`). */
function isPitch(text: string, at: number): boolean {
  const read = readNumber(text, skipBlanks(text, at));
  return read !== undefined && !('message' in read) && !/[a-z]/i.test(text[read.end] ?? '');
}

/** What may follow a thread without changing its size: a tolerance, the hand. */
const isTail = (rest: string): boolean => /^(?:-? ?(?:[1-9][a-h]){0,2})? ?-? ?(?:LH|RH)?$/i.test(rest);

/** The standard coarse pitch of the same diameter, mm; null where there is none. */
export function coarsePitch(thread: Thread): number | null {
  if (thread.system === 'metric') return metricCoarse.get(thread.diameter) ?? null;
  const row = unified.find(([, inches]) => Math.abs(inches * INCH_MM - thread.diameter) < 1e-3);
  return row === undefined ? null : INCH_MM / row[2];
}

/** Pitch diameter d2, mm: d − 0.6495 P (ISO 724, ASME B1.1). */
export const pitchDiameter = ({ diameter, pitch }: Thread): number => diameter - 0.649519 * pitch;

/** Diameter at the root of the bolt, d3, mm: d − 1.2269 P (ISO 68-1, rounded root), d − 1.2990 P for unified threads (ASME B1.1). */
export const rootDiameter = ({ system, diameter, pitch }: Thread): number =>
  diameter - (system === 'metric' ? 1.226869 : 1.299038) * pitch;

/** Diameter at the crests of the nut, D1, mm: d − 1.0825 P (ISO 724). */
export const minorDiameter = ({ diameter, pitch }: Thread): number => diameter - 1.082532 * pitch;

/**
 * The area that stands for the thread in tension, mm²: that of the circle of the mean of pitch and root diameter. π/4 (d − 0.9382 P)² by
 * ISO 898-1, π/4 (D − 0.9743 / n)² by ASME B1.1.
 */
export function stressArea(thread: Thread): number {
  return (Math.PI / 4) * ((pitchDiameter(thread) + rootDiameter(thread)) / 2) ** 2;
}
