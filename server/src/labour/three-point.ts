/**
 * Three-point times, in minutes: what a step takes when all goes well, most often, and when it goes badly.
 * The mean is (low + 4 likely + high) / 6 and the variance ((high - low) / 6)²: the PERT estimate, as in the printed
 * examples that `test/labour/three-point.test.ts` holds against it.
 */
export interface ThreePoint {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** The mean of a three-point time, in the unit of its figures. */
export function expectedOf(time: ThreePoint): number {
  return (time.low + 4 * time.likely + time.high) / 6;
}

/** The variance of a three-point time, in the square of the unit of its figures. */
export function varianceOf(time: ThreePoint): number {
  return ((time.high - time.low) / 6) ** 2;
}

/** Minutes that differ only by arithmetic in floating point are one. */
const ROUNDING_NOISE = 1e-9;

/**
 * Minutes as hours, rounded up to a whole number of `step` hours: round each printed total once, never its parts.
 * @param step hours, a tenth unless configuration says otherwise.
 */
export function hoursOf(minutes: number, step = 0.1): number {
  const steps = Math.ceil(minutes / 60 / step - ROUNDING_NOISE);
  return Number((steps * step).toFixed(decimalsOf(step)));
}

/** Hours as printed: `6.4 h`, always with the decimals that the rounding has. */
export function printHours(minutes: number, step = 0.1): string {
  return `${hoursOf(minutes, step).toFixed(decimalsOf(step))} h`;
}

/** Minutes without the noise of floating point, for what other programs read. */
export function tidyMinutes(minutes: number): number {
  return Number(minutes.toFixed(6));
}

function decimalsOf(step: number): number {
  const written = String(step);
  const point = written.indexOf('.');
  return point < 0 ? 0 : Math.min(3, written.length - point - 1);
}
