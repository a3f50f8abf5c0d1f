/**
 * Hexagons and keys by standard: what the tool list needs.
 *
 * Sizes in mm. The same bolt has another hexagon by another standard, so that every lookup names one: `iso` (ISO 272, 4014, 4032),
 * `din` (DIN 931, 933, 934 before they followed ISO: M10 17, M12 19, M14 22), `inch` (ASME B18.2.1). Flange bolts, low heads and
 * makers' own hexagons differ; measure where it matters.
 */

import { INCH_MM } from '../units/table';
import type { Thread } from './threads';

export type HexStandard = 'iso' | 'din' | 'inch';

export interface Spanner {
  /** Across flats, mm. */
  readonly size: number;
  /** As a tool is marked: `18 mm`, `9/16 in`. */
  readonly marked: string;
  readonly standard: HexStandard;
  readonly source: string;
}

/** Across flats by diameter: ISO 272. M3 to M5, M22 and M24 from memory. */
const iso: ReadonlyMap<number, number> = new Map([
  [3, 5.5],
  [4, 7],
  [5, 8],
  [6, 10],
  [8, 13],
  [10, 16],
  [12, 18],
  [14, 21],
  [16, 24],
  [18, 27],
  [20, 30],
  [22, 34],
  [24, 36],
]);

/** Where the old series differs from ISO 272; M22 from memory. */
const oldSeries: ReadonlyMap<number, number> = new Map([
  [10, 17],
  [12, 19],
  [14, 22],
  [22, 32],
]);

/** Diameter and across flats of hexagon bolts, in inches: ASME B18.2.1; 9/16, 7/8 and 1 from memory. */
const inch: readonly (readonly [diameter: number, flats: number, marked: string])[] = [
  [1 / 4, 7 / 16, '7/16'],
  [5 / 16, 1 / 2, '1/2'],
  [3 / 8, 9 / 16, '9/16'],
  [7 / 16, 5 / 8, '5/8'],
  [1 / 2, 3 / 4, '3/4'],
  [9 / 16, 13 / 16, '13/16'],
  [5 / 8, 15 / 16, '15/16'],
  [3 / 4, 9 / 8, '1-1/8'],
  [7 / 8, 21 / 16, '1-5/16'],
  [1, 3 / 2, '1-1/2'],
];

/** Hexagon keys of socket head cap screws: ISO 4762; M3 to M5, M18 and M24 from memory. */
const socketKeys: ReadonlyMap<number, number> = new Map([
  [3, 2.5],
  [4, 3],
  [5, 4],
  [6, 5],
  [8, 6],
  [10, 8],
  [12, 10],
  [14, 12],
  [16, 14],
  [18, 14],
  [20, 17],
  [24, 19],
]);

/** The hexagon of a bolt or nut, by each standard that has one for its thread; the usual one first. */
export function spannersFor({ system, diameter }: Thread): Spanner[] {
  if (system === 'unified') {
    const row = inch.find(([size]) => Math.abs(size * INCH_MM - diameter) < 1e-3);
    if (row === undefined) return [];
    return [{ size: row[1] * INCH_MM, marked: `${row[2]} in`, standard: 'inch', source: 'ASME B18.2.1' }];
  }
  const size = iso.get(diameter);
  if (size === undefined) return [];
  const old = oldSeries.get(diameter) ?? size;
  return [
    { size, marked: `${size} mm`, standard: 'iso', source: 'ISO 272, ISO 4014, ISO 4032' },
    { size: old, marked: `${old} mm`, standard: 'din', source: 'DIN 931, DIN 933 (old series)' },
  ];
}

/** The hexagon by one standard, or undefined where that has none for the thread. */
export function spannerFor(thread: Thread, standard: HexStandard): Spanner | undefined {
  return spannersFor(thread).find((one) => one.standard === standard);
}

/** The key of a socket head cap screw, mm (ISO 4762), or undefined. */
export function socketKeyFor({ system, diameter }: Thread): number | undefined {
  return system === 'metric' ? socketKeys.get(diameter) : undefined;
}

/**
 * The least diameter on which a hexagon bears, dw, mm: as ISO 4014 (grade A) makes it, from the smallest across flats less the
 * tolerance IT16 up to 18 mm, 95 % of it above (from memory; the sizes of the published torque tables agree). For inch hexagons the same.
 */
export function bearingDiameter(acrossFlats: number): number {
  const least = acrossFlats - (acrossFlats > 18 ? 0.33 : acrossFlats > 10 ? 0.27 : 0.22);
  if (acrossFlats > 18) return 0.95 * least;
  return least - (acrossFlats > 10 ? 1.1 : 0.9);
}
