/**
 * A torque wrench with an extension (crow foot, offset spanner) in its square.
 *
 * Torques in N·m, lengths in mm, angles in degrees. The wrench measures the torque about its own square; the bolt gets that of the hand's
 * force about the bolt. Assumed: the hand at the middle of the grip, from where `length` is measured to the square, pulling square to
 * the wrench. Lever arms, no other source needed.
 */

/** How an extension stands: 0° straight on from the wrench, 90° square to it, 180° folded back under the handle. */
export interface Extension {
  /** From the middle of the grip to the square, mm. */
  readonly length: number;
  /** From the square to the middle of the bolt, mm. */
  readonly extension: number;
  readonly angle: number;
}

/** How many times the torque of the scale the bolt gets. */
export function leverage({ length, extension, angle }: Extension): number {
  return (length + extension * Math.cos((angle * Math.PI) / 180)) / length;
}

/** What to set so that the bolt gets a torque, N·m; null where the extension folds back past the hand. */
export function settingFor(torque: number, how: Extension): number | null {
  const times = leverage(how);
  return how.length > 0 && times > 0.01 ? torque / times : null;
}

/** What the bolt gets from a setting, N·m. */
export const torqueAtBolt = (setting: number, how: Extension): number => setting * leverage(how);

/** The nearest figure that a wrench with such a step can be set to, in the unit of both. */
export function settable(figure: number, step: number): number {
  return Number((Math.round(figure / step) * step).toPrecision(12));
}
