/**
 * What a change of height does to a track bar and to a hose.
 *
 * Lengths in mm. Right-angled triangles: the axle moves straight up and down, ends are points in one plane across the vehicle (track bar)
 * or upright (hose), rubber and frame do not give. Measure on the vehicle before anything is cut or drilled.
 */

export interface TrackBar {
  /** Between the middles of its two bolts, mm. */
  readonly length: number;
  /** How much higher the end at the frame is than the one at the axle, with the vehicle standing as it is, mm. */
  readonly rise: number;
}

export interface TrackBarShift {
  /** How far the axle goes sideways, towards the bar's end at the frame where it is more than nothing, mm. */
  readonly shift: number;
  /** How long the bar would have to be for the axle to stay in the middle, mm. */
  readonly length: number;
  /** By how much its end at the axle (or at the frame, the other way) must move up to have the old angle back, mm. */
  readonly bracket: number;
  /** The bar's angle to the level, before and after, degrees. */
  readonly angleBefore: number;
  readonly angleAfter: number;
}

/** What a lift of the body (mm; below nothing for lowering) does to an axle on a track bar; null where the bar cannot reach. */
export function trackBarShift({ length, rise }: TrackBar, lift: number): TrackBarShift | null {
  const after = rise + lift;
  if (!(length > 0) || Math.abs(rise) >= length || Math.abs(after) >= length) return null;
  const across = Math.sqrt(length ** 2 - rise ** 2);
  const degrees = (height: number): number => (Math.asin(height / length) * 180) / Math.PI;
  return {
    shift: across - Math.sqrt(length ** 2 - after ** 2),
    length: Math.hypot(across, after),
    bracket: lift,
    angleBefore: degrees(rise),
    angleAfter: degrees(after),
  };
}

export interface HoseRun {
  /** Sideways and lengthways distance between its two ends, together as seen from above, mm. */
  readonly across: number;
  /** How much higher the end at the body is than the moving one, at ride height, mm. */
  readonly drop: number;
  /** How far the moving end goes down from ride height to full droop, and up to the stop, mm. */
  readonly droop: number;
  readonly bump: number;
}

export interface HoseLengths {
  /** The straight distance between the ends at ride height, droop and bump, mm. */
  readonly ride: number;
  readonly atDroop: number;
  readonly atBump: number;
  /** The longest that must be bridged anywhere between droop and bump, mm. */
  readonly needed: number;
}

/** The distances that a hose, a lead or a pipe loop has to bridge. */
export function hoseLengths({ across, drop, droop, bump }: HoseRun): HoseLengths {
  const straight = (height: number): number => Math.hypot(across, height);
  const atDroop = straight(drop + droop);
  const atBump = straight(drop - bump);
  return { ride: straight(drop), atDroop, atBump, needed: Math.max(atDroop, atBump) };
}

/** Share of the straight distance that a hose should be longer than at full droop; common practice. */
export const HOSE_RESERVE = 0.05;

/** How much a hose of a free length (between its fittings, mm) has to spare at the worst, mm; below nothing it is torn. */
export const hoseToSpare = (free: number, lengths: HoseLengths): number => free - lengths.needed;
