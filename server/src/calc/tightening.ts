/**
 * Torque and the tension it makes.
 *
 * Torque in N·m, forces in N, lengths in mm. Two ways: the long form of Kellermann and Klein, as VDI 2230 has it, with stated friction in
 * thread and under the head; and the nut factor, T = K d F. Both assume steel parts, a torque wrench turned evenly, and no
 * prevailing torque: what a self-locking nut turns hard with comes on top. The maker's figure comes first, always.
 */

import { clearanceHoles } from './holes';
import { bearingDiameter, spannersFor } from './spanners';
import { proofLoad, type Strength } from './strength';
import { pitchDiameter, rootDiameter, stressArea, type Thread } from './threads';

/** Where a head or nut rubs: the outer diameter on which it bears, and the hole, mm. */
export interface Bearing {
  readonly outer: number;
  readonly hole: number;
}

/** Coefficients of friction in the thread and under the head. */
export interface Friction {
  readonly thread: number;
  readonly head: number;
}

/** Friction as it is met; common practice (VDI 2230's class B is 0.08 to 0.16). */
export const usualFriction = {
  /** As delivered: plain, phosphated or zinc plated, a trace of oil. */
  asDelivered: { low: 0.1, high: 0.16 },
  /** Oiled or greased, wax, threadlocker while wet. */
  lubricated: { low: 0.08, high: 0.12 },
} as const;

/** Nut factors with what they are for; each is to be chosen, none is silently assumed. */
export const nutFactors: readonly {
  readonly factor: number;
  readonly of: string;
  readonly source: string;
}[] = [
  { factor: 0.2, of: 'dry, plain steel', source: 'bolt charts' },
  { factor: 0.18, of: 'zinc plated, dry', source: 'bolt charts' },
  { factor: 0.16, of: 'oiled', source: 'common practice' },
];

/** Share of the yield point that torque and tension together may use: VDI 2230. */
const UTILISATION = 0.9;
/** Share of the proof load that a joint which is undone again is tightened to; common practice. */
export const USUAL_SHARE = 0.75;
/** A joint is far under where it has less than this share of the low end of the usual range; common practice. */
const FAR_UNDER = 0.5;

/** A hexagon by ISO 4014 or ASME B18.2.1 on a medium hole; undefined where there is none for the thread. */
export function usualBearing(thread: Thread): Bearing | undefined {
  const spanner = spannersFor(thread)[0];
  const hole = clearanceHoles(thread)?.medium;
  return spanner && hole !== undefined ? { outer: bearingDiameter(spanner.size), hole } : undefined;
}

/** Turning arm of a tension, mm: torque = tension × arm. */
function arm(thread: Thread, friction: Friction, { outer, hole }: Bearing): number {
  const head = (outer + hole) / 2;
  return 0.159 * thread.pitch + 0.577 * friction.thread * pitchDiameter(thread) + (friction.head * head) / 2;
}

/** The torque that makes a tension, N·m: F (0.159 P + 0.577 µ d2 + µ DKm / 2). */
export function torqueFor(tension: number, thread: Thread, friction: Friction, bearing: Bearing): number {
  return (tension * arm(thread, friction, bearing)) / 1000;
}

/** The tension that a torque makes, N; the reverse of `torqueFor`. */
export function tensionFrom(torque: number, thread: Thread, friction: Friction, bearing: Bearing): number {
  return (torque * 1000) / arm(thread, friction, bearing);
}

/**
 * The tension at which pull and twist together use 90 % of the yield point, N: 0.9 Rp A0 / √(1 + 3 (1.5 d2/d0 (P/(π d2) + 1.155 µ))²),
 * which the published tables call the permissible assembly preload.
 */
export function tableTension(thread: Thread, { yields }: Strength, friction: number): number {
  const d2 = pitchDiameter(thread);
  const d0 = (d2 + rootDiameter(thread)) / 2;
  const twist = 1.5 * (d2 / d0) * (thread.pitch / (Math.PI * d2) + 1.155 * friction);
  return (UTILISATION * yields * stressArea(thread)) / Math.sqrt(1 + 3 * twist ** 2);
}

/** The torque for that tension, N·m. */
export function tableTorque(
  thread: Thread,
  strength: Strength,
  friction: Friction,
  bearing: Bearing,
): number {
  return torqueFor(tableTension(thread, strength, friction.thread), thread, friction, bearing);
}

/** Torque by the nut factor, N·m: T = K d F. */
export function torqueByNutFactor(factor: number, { diameter }: Thread, tension: number): number {
  return (factor * diameter * tension) / 1000;
}

/** Tension by the nut factor, N. */
export function tensionByNutFactor(factor: number, { diameter }: Thread, torque: number): number {
  return (torque * 1000) / (factor * diameter);
}

/** The least tension that is left of the greatest one, N, with the tightening factor αA (torque wrench 1.4 to 1.8; VDI 2230). */
export const leastTension = (greatest: number, tighteningFactor: number): number =>
  greatest / tighteningFactor;

export interface ExpectedTorque {
  /** N·m: three quarters of the proof load at the low friction. */
  readonly low: number;
  /** N·m: 90 % of the yield point at the high friction. */
  readonly high: number;
}

/** The range in which a torque for a thread and strength is to be expected, N·m. */
export function expectedTorque(
  thread: Thread,
  strength: Strength,
  bearing: Bearing,
  friction: { readonly low: number; readonly high: number } = usualFriction.asDelivered,
): ExpectedTorque {
  const { low, high } = friction;
  const proof = proofLoad(thread, strength).load;
  return {
    low: torqueFor(USUAL_SHARE * proof, thread, { thread: low, head: low }, bearing),
    high: tableTorque(thread, strength, { thread: high, head: high }, bearing),
  };
}

export interface TorqueJudgement extends ExpectedTorque {
  /** Share of the proof load, at the high friction (least) and at the low one (most). */
  readonly least: number;
  readonly most: number;
  /** Past the proof load at any friction that is met, or only where it is low. */
  readonly pastProof: 'surely' | 'possibly' | 'no';
  /** Under half of the low end of the usual range, which a joint that carries the structure should not be. */
  readonly farUnder: boolean;
}

/** What a torque (N·m) does to a bolt, over the friction that is met. */
export function judgeTorque(
  torque: number,
  thread: Thread,
  strength: Strength,
  bearing: Bearing,
  friction: { readonly low: number; readonly high: number } = usualFriction.asDelivered,
): TorqueJudgement {
  const proof = proofLoad(thread, strength).load;
  const share = (mu: number): number =>
    tensionFrom(torque, thread, { thread: mu, head: mu }, bearing) / proof;
  const expected = expectedTorque(thread, strength, bearing, friction);
  const least = share(friction.high);
  const most = share(friction.low);
  return {
    ...expected,
    least,
    most,
    pastProof: least > 1 ? 'surely' : most > 1 ? 'possibly' : 'no',
    farUnder: torque < FAR_UNDER * expected.low,
  };
}
