/**
 * Weights that people lift.
 *
 * Masses in kg, lengths in mm, angles in degrees. Two published guides: the revised lifting equation (DHHS (NIOSH) publication 94-110) for a
 * known lift, and the guideline of HSE INDG143 for a glance. Both are for two-handed, smooth lifts by adults on firm ground; not
 * for kneeling, hot or slippery loads, or work under a vehicle. Neither is a limit that makes a lift safe.
 */

import { INCH_MM, POUND_KG } from '../units/table';

export type Grip = 'good' | 'fair' | 'poor';

export interface Lift {
  /** From the middle between the ankles forward to the hands, mm. */
  readonly reach: number;
  /** Height of the hands over the floor at the start and at the end, mm. */
  readonly from: number;
  readonly to: number;
  /** How far the load is turned out of the straight, degrees. */
  readonly twist: number;
  /** Lifts a minute, and for how many hours of the day. */
  readonly perMinute: number;
  readonly hours: number;
  readonly grip: Grip;
}

/** The publication prints its constants twice, rounded apart: in cm and kg, and in inches and pounds. They differ by up to 4 %. */
export type Form = 'metric' | 'inch';

interface Constants {
  readonly load: number;
  readonly reach: number;
  readonly height: number;
  readonly perHeight: number;
  readonly distance: number;
  readonly least: number;
  readonly mostReach: number;
  readonly mostHeight: number;
}

const FORMS: Readonly<Record<Form, Constants>> = {
  metric: {
    load: 23,
    reach: 25,
    height: 75,
    perHeight: 0.003,
    distance: 4.5,
    least: 25,
    mostReach: 63,
    mostHeight: 175,
  },
  inch: {
    load: 51,
    reach: 10,
    height: 30,
    perHeight: 0.0075,
    distance: 1.8,
    least: 10,
    mostReach: 25,
    mostHeight: 70,
  },
};

/** Lifts a minute, then the multiplier up to 1, 2 and 8 hours, with the hands below 75 cm and above: publication 94-110, table 5. */
const frequency: readonly (readonly [
  perMinute: number,
  hour: number,
  hourHigh: number,
  two: number,
  twoHigh: number,
  eight: number,
  eightHigh: number,
])[] = [
  [0.2, 1, 1, 0.95, 0.95, 0.85, 0.85],
  [0.5, 0.97, 0.97, 0.92, 0.92, 0.81, 0.81],
  [1, 0.94, 0.94, 0.88, 0.88, 0.75, 0.75],
  [2, 0.91, 0.91, 0.84, 0.84, 0.65, 0.65],
  [3, 0.88, 0.88, 0.79, 0.79, 0.55, 0.55],
  [4, 0.84, 0.84, 0.72, 0.72, 0.45, 0.45],
  [5, 0.8, 0.8, 0.6, 0.6, 0.35, 0.35],
  [6, 0.75, 0.75, 0.5, 0.5, 0.27, 0.27],
  [7, 0.7, 0.7, 0.42, 0.42, 0.22, 0.22],
  [8, 0.6, 0.6, 0.35, 0.35, 0.18, 0.18],
  [9, 0.52, 0.52, 0.3, 0.3, 0, 0.15],
  [10, 0.45, 0.45, 0.26, 0.26, 0, 0.13],
  [11, 0.41, 0.41, 0, 0.23, 0, 0],
  [12, 0.37, 0.37, 0, 0.21, 0, 0],
  [13, 0, 0.34, 0, 0, 0, 0],
  [14, 0, 0.31, 0, 0, 0, 0],
  [15, 0, 0.28, 0, 0, 0, 0],
];

/** Between two rows the lower figure counts; above the last, nothing may be lifted. */
function frequencyMultiplier(perMinute: number, hours: number, high: boolean): number {
  const row = frequency.find(([most]) => perMinute <= most);
  const column = (hours <= 1 ? 1 : hours <= 2 ? 3 : 5) + (high ? 1 : 0);
  return hours > 8 ? 0 : (row?.[column] ?? 0);
}

function gripMultiplier(grip: Grip, high: boolean): number {
  return grip === 'good' ? 1 : grip === 'fair' ? (high ? 1 : 0.95) : 0.9;
}

/** The factors of the equation at one end of a lift; 1 is ideal, 0 means that nothing should be lifted so. */
export interface Multipliers {
  readonly reach: number;
  readonly height: number;
  readonly distance: number;
  readonly twist: number;
  readonly frequency: number;
  readonly grip: number;
}

/** The recommended weight limit at one end of a lift, kg, with its factors. */
export interface LiftLimit {
  readonly limit: number;
  readonly multipliers: Multipliers;
}

/**
 * The recommended weight limit where the hands are at `height`, kg. The end of a lift counts too where the load is set down with care.
 * @param form the set of printed constants; the metric one is the stricter.
 */
export function liftLimit(lift: Lift, end: 'from' | 'to' = 'from', form: Form = 'metric'): LiftLimit {
  const constants = FORMS[form];
  const inUnit = (length: number): number => length / (form === 'metric' ? 10 : INCH_MM);
  const reach = inUnit(lift.reach);
  const height = inUnit(lift[end]);
  const distance = inUnit(Math.abs(lift.to - lift.from));
  const high = height >= constants.height;
  const multipliers: Multipliers = {
    reach: reach > constants.mostReach ? 0 : Math.min(1, constants.reach / reach),
    height:
      height < 0 || height > constants.mostHeight
        ? 0
        : 1 - constants.perHeight * Math.abs(height - constants.height),
    distance:
      distance > constants.mostHeight
        ? 0
        : distance <= constants.least
          ? 1
          : 0.82 + constants.distance / distance,
    twist: lift.twist > 135 ? 0 : 1 - 0.0032 * Math.abs(lift.twist),
    frequency: frequencyMultiplier(lift.perMinute, lift.hours, high),
    grip: gripMultiplier(lift.grip, high),
  };
  const product = Object.values(multipliers).reduce((sum: number, one: number) => sum * one, constants.load);
  return { limit: form === 'metric' ? product : product * POUND_KG, multipliers };
}

/** Load by limit: up to 1 most people manage it, above 3 hardly anyone does (publication 94-110). */
export const liftingIndex = (mass: number, { limit }: LiftLimit): number =>
  limit > 0 ? mass / limit : Number.POSITIVE_INFINITY;

/** Where the hands are, from the top down. */
export type Zone = 'above-shoulder' | 'shoulder' | 'elbow' | 'knuckle' | 'lower-leg';

/** Close to the body and at arm's length, kg, for men and for women: the figure of INDG143, from memory. */
const guidelines: Readonly<
  Record<Zone, readonly [men: number, menFar: number, women: number, womenFar: number]>
> = {
  'above-shoulder': [10, 5, 7, 3],
  shoulder: [20, 10, 13, 7],
  elbow: [25, 15, 16, 10],
  knuckle: [20, 10, 13, 7],
  'lower-leg': [10, 5, 7, 3],
};

export interface Guideline {
  readonly men: number;
  readonly women: number;
}

/**
 * What INDG143 lets pass without a closer look, kg. Twisting takes off 10 % beyond 45° and 20 % beyond 90°; repeating 30 % at once or twice
 * a minute, 50 % at five to eight times, 80 % above twelve; between those the stricter counts.
 */
export function guidelineWeight(zone: Zone, far: boolean, twist = 0, perMinute = 0): Guideline {
  const [men, menFar, women, womenFar] = guidelines[zone];
  const twisted = Math.abs(twist) > 90 ? 0.8 : Math.abs(twist) > 45 ? 0.9 : 1;
  // Up to some thirty an hour is seldom.
  const repeated = perMinute > 8 ? 0.2 : perMinute > 2 ? 0.5 : perMinute > 0.5 ? 0.7 : 1;
  const factor = twisted * repeated;
  return { men: (far ? menFar : men) * factor, women: (far ? womenFar : women) * factor };
}

/** Share of what each could lift alone that a team of two or three can count on together; HSE L23, from memory. */
const TEAM: readonly (readonly [people: number, share: number])[] = [
  [1, 1],
  [2, 2 / 3],
  [3, 1 / 2],
];

/** How many people a mass asks for where each can lift `each` (kg) alone: 1, 2, 3, or `aid` where it wants a hoist or jack. */
export function handsFor(mass: number, each: number): 1 | 2 | 3 | 'aid' {
  const team = TEAM.find(([people, share]) => mass <= people * each * share + 1e-9);
  return team === undefined ? 'aid' : (team[0] as 1 | 2 | 3);
}
