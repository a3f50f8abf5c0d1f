/**
 * What another size of tyre changes.
 *
 * Lengths in mm, speeds in any unit (only their ratio counts). On the road a tyre rolls about 3 % less than the circumference of the
 * circle; the ratio of two sizes hardly changes by that.
 */

import type { Tyre } from '../units/tyre';

/** The circumference of the circle, mm; on the road about 3 % less. */
export const circumference = ({ diameter }: Tyre): number => Math.PI * diameter;

export interface TyreChange {
  /** Difference of the diameters, mm, and as a share of the first. */
  readonly diameter: number;
  readonly share: number;
  /** What the axle, and the body with it, comes up by, mm: half of the difference. */
  readonly lift: number;
  /** True speed where the speedometer shows 1 and was right with the first tyre. */
  readonly trueSpeed: number;
  /** What the axle ratio amounts to with the new tyre, as a multiple: below 1 is longer gearing. */
  readonly gearing: number;
}

/** What changing from one tyre to another does. */
export function changeOfTyre(from: Tyre, to: Tyre): TyreChange {
  const diameter = to.diameter - from.diameter;
  return {
    diameter,
    share: diameter / from.diameter,
    lift: diameter / 2,
    trueSpeed: to.diameter / from.diameter,
    gearing: from.diameter / to.diameter,
  };
}

/** The axle ratio that gives back the first gearing with the second tyre. */
export const ratioToRestore = (ratio: number, change: TyreChange): number => ratio / change.gearing;
