/**
 * Holes: to pass a bolt, to be tapped, and how to drill to a size.
 *
 * Sizes in mm. Clearance holes by ISO 273, tap drills as workshop charts have them (diameter less pitch, 75 % of the thread's height in
 * round figures). Steel of up to about 10 mm; thick, hard or curved work may want more steps. Steps and pilots are common practice.
 */

import { INCH_MM } from '../units/table';
import { minorDiameter, type Thread } from './threads';

export interface ClearanceHoles {
  readonly fine: number;
  readonly medium: number;
  readonly coarse: number;
  readonly source: string;
}

const ISO_273 = 'ISO 273';
const ASME = 'ASME B18.2.8';

/** Fine (H12), medium (H13), coarse (H14) by diameter: ISO 273. M3 to M5, M22, M24 and the coarse holes of M18, M20 from memory. */
const iso: ReadonlyMap<number, readonly [fine: number, medium: number, coarse: number]> = new Map([
  [3, [3.2, 3.4, 3.6]],
  [4, [4.3, 4.5, 4.8]],
  [5, [5.3, 5.5, 5.8]],
  [6, [6.4, 6.6, 7]],
  [8, [8.4, 9, 10]],
  [10, [10.5, 11, 12]],
  [12, [13, 13.5, 14.5]],
  [14, [15, 15.5, 16.5]],
  [16, [17, 17.5, 18.5]],
  [18, [19, 20, 21]],
  [20, [21, 22, 24]],
  [22, [23, 24, 26]],
  [24, [25, 26, 28]],
]);

/** Close, normal, loose, in 1/32 in above the diameter: ASME B18.2.8, from memory (1/2 in: 17/32, 9/16, 39/64). */
const inch = (inches: number): readonly [number, number, number] =>
  inches < 0.49 ? [0.5, 1, 1.5] : inches < 0.74 ? [1, 2, 3.5] : [1, 2, 5];

/** The holes through which a thread's bolt passes, or undefined where the standard has none for it. */
export function clearanceHoles(thread: Thread): ClearanceHoles | undefined {
  if (thread.system === 'metric') {
    const row = iso.get(thread.diameter);
    return row && { fine: row[0], medium: row[1], coarse: row[2], source: ISO_273 };
  }
  const inches = thread.diameter / INCH_MM;
  if (inches < 0.2499 || inches > 1.0001) return undefined;
  const [fine, medium, coarse] = inch(inches).map((more) => thread.diameter + (more * INCH_MM) / 32);
  return { fine: fine!, medium: medium!, coarse: coarse!, source: ASME };
}

export type Fit = 'too-small' | 'close' | 'fine' | 'medium' | 'coarse' | 'wide' | 'unknown';

/**
 * How a hole of a size (mm) takes a bolt: `too-small` where the bolt does not pass, `close` between the bolt and the fine clearance
 * (allowed; it holds sideways, and wants the holes in line), `wide` above the coarse clearance.
 */
export function fitOf(thread: Thread, hole: number): Fit {
  const { diameter } = thread;
  if (hole < diameter - 1e-6) return 'too-small';
  const holes = clearanceHoles(thread);
  if (holes === undefined) return 'unknown';
  // Inch drills and metric ones stand for each other within a twentieth.
  const near = 0.05;
  if (hole < holes.fine - near) return 'close';
  if (hole < holes.medium - near) return 'fine';
  if (hole < holes.coarse - near) return 'medium';
  return hole <= holes.coarse + near ? 'coarse' : 'wide';
}

/** Where charts have another drill than the rule below gives. */
const chartDrills: ReadonlyMap<string, number> = new Map([['M12', 10.2]]);

/** The drill for tapping a thread, mm: diameter less pitch, to a tenth, as charts have it (ISO 2306 gives the same). */
export function tapDrill(thread: Thread): number {
  return chartDrills.get(thread.name) ?? Math.round((thread.diameter - thread.pitch) * 10) / 10;
}

/** What the crest of a nut may be wider than its basic size, mm, by pitch: ISO 965-1, class 6H; from memory. */
const crestTolerance: readonly (readonly [pitch: number, tolerance: number])[] = [
  [0.5, 0.14],
  [0.7, 0.18],
  [0.8, 0.2],
  [1, 0.236],
  [1.25, 0.265],
  [1.5, 0.3],
  [1.75, 0.335],
  [2, 0.375],
  [2.5, 0.45],
  [3, 0.5],
];

/**
 * Whether a hole (mm) suits the tap of a thread: from a tenth below the basic crest of the nut to the most that class 6H allows for
 * one that cuts; from d − 0.55 P to d − 0.42 P for one that forms (common practice).
 */
export function suitsTap(thread: Thread, hole: number): boolean {
  const { diameter, pitch } = thread;
  const crest = minorDiameter(thread);
  const tolerance = crestTolerance.find(([most]) => pitch <= most + 1e-6)?.[1] ?? 0.2 * pitch;
  const cut = hole >= crest - 0.1 && hole <= crest + tolerance + 0.05;
  return cut || (hole >= diameter - 0.55 * pitch && hole <= diameter - 0.42 * pitch);
}

/** Below this one drill does, after a centre punch. */
const FIRST_DRILL = 5;
/** A drill takes a hole up to so many times its size in one go. */
const STEP = 2;

/** The drills to a size, mm, the pilot first and the size last: each step up to twice the last, none above 5 mm without a pilot. */
export function drillSteps(size: number): number[] {
  const drills = [size];
  while (drills[0]! > FIRST_DRILL) drills.unshift(Math.ceil((drills[0]! / STEP) * 2) / 2);
  return drills;
}

/** What is wrong with going from one drill to the next (null: into the solid), or null. */
export function drillStepProblem(
  from: number | null,
  to: number,
): 'no-pilot' | 'too-much-at-once' | 'not-larger' | null {
  if (from === null) return to > FIRST_DRILL ? 'no-pilot' : null;
  if (to <= from) return 'not-larger';
  // A half more for what drills happen to be in the box.
  return to > from * STEP * 1.5 ? 'too-much-at-once' : null;
}
