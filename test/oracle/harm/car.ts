// The car on the workshop floor in one variant: every piece of it, where it is, how it is held, what stands under it.
import { type Fact, type Facts, isMetal, type JointFact, type Range, type Side } from './facts.ts';

export type Where = 'on' | 'aside' | 'off' | 'scrap' | 'box' | 'offered';
/** In rising order of how fast it is. `tight` is as the vehicle came, `done` is tightened in this job. */
export type Grip = 'out' | 'caught' | 'slack' | 'nipped' | 'tight' | 'done';

export interface Joint {
  readonly fact: JointFact;
  readonly part: Part;
  grip: Grip;
  /** Whether anybody undid it in this job. */
  undone: boolean;
  readonly spent: Set<string>;
  pin: boolean;
  figure: Range | undefined;
  readonly sealed: Set<string>;
}

export interface Seated {
  readonly fact: Fact;
  readonly side: Side;
  readonly place: Readonly<Record<string, string>>;
  readonly label: string;
  readonly tied: Set<string>;
  readonly beside: Map<string, readonly Part[]>; // who fills which place for it, worked out once
}

export interface Metal {
  hole: number; // mm drilled so far; 0 where nothing was
  marked: boolean;
  edge: 'whole' | 'raw' | 'smooth' | 'coated';
}

export interface Part extends Seated {
  readonly joints: readonly Joint[];
  where: Where;
  cameFromBox: boolean;
  hand: Side;
  readonly seated: Map<string, boolean>; // its ends that hold by themselves
  readonly under: Set<string>; // aids set under it
  squeezed: boolean;
  unloaded: boolean;
  pressure: number; // kPa; 0 where there is none in it
  renewed: boolean;
  readonly metal: Map<string, Metal>; // by hole or face; '' is the part itself
  readonly sealed: Set<string>;
}

export interface Line extends Seated {
  readonly spans: readonly string[];
  readonly joined: Map<string, boolean>;
  clipped: boolean;
  path: string | undefined;
  adjusted: boolean;
  open: boolean; // a pressure line was opened, and is not yet bled and looked at
  air: boolean; // air is in a hydraulic one
  gone: boolean;
}

export interface Corner {
  readonly name: string; // the axle, or the wheel where there is none
  readonly side: Side;
  readonly chain: ReadonlySet<Part>; // from the wheel inwards, to the frame
  readonly wheels: readonly Part[];
  tyre: boolean; // stands on its tyre, on the floor or on a lift
  readonly lift: Set<string>; // under the body
  readonly jack: Set<string>; // under the axle
  hang: number; // mm below where it hangs by itself; `RIDE` while the spring carries
  chocked: boolean;
}

/** Above where the axle hangs: somewhere at ride height. */
export const RIDE = Number.NEGATIVE_INFINITY;

/** One thing that keeps a part from dropping, and who fills its place. */
export interface Stop {
  readonly joint: string | undefined;
  readonly fillers: readonly Part[];
}

export interface Car {
  readonly facts: Facts;
  readonly meant: Map<number, readonly unknown[]>; // what acts mean, by their numbers, worked out once
  /** What somebody had in his hands: all else is as it arrived. */
  readonly touched: Set<Part | Line>;
  readonly parts: ReadonlyMap<string, readonly Part[]>;
  readonly lines: ReadonlyMap<string, readonly Line[]>;
  readonly everyPart: readonly Part[];
  readonly everyLine: readonly Line[];
  readonly corners: readonly Corner[];
  readonly cornersOf: ReadonlyMap<Part, readonly Corner[]>;
  /** What can drop, with all that limits it; of a chain the first gone is enough. */
  readonly stopsOf: ReadonlyMap<Part, readonly (readonly Stop[])[]>;
  /** What is bolted to a part, and to something else. */
  readonly boltedTo: ReadonlyMap<Part, readonly Part[]>;
  readonly metals: readonly Part[];
  readonly feeds: readonly Line[];
  readonly fuses: readonly Part[];
  readonly dead: Set<string>; // made safe: battery, airbags …
  readonly switched: Map<string, string>;
  readonly settings: Map<string, string>;
  readonly drained: Set<string>;
  readonly handed: Set<string>; // words that were checked, measured or adjusted since the wheels were moved
  wheelsMoved: string | undefined; // by undoing what
}

/** Whether two things can belong to each other: not on different sides, not at different places. */
export function meet(one: Pick<Seated, 'side' | 'place'>, other: Pick<Seated, 'side' | 'place'>): boolean {
  if (one.side !== '' && other.side !== '' && one.side !== other.side) return false;
  return Object.entries(one.place).every(([key, value]) => (other.place[key] ?? value) === value);
}

export const noMetal = (): Metal => ({ hole: 0, marked: false, edge: 'whole' });

export type Pieces = Pick<Car, 'facts' | 'parts' | 'everyPart'>;

/** Who fills the place that a name speaks of: the part of that name, and what takes its place. */
export function fillers(car: Pieces, name: string, beside: Seated): readonly Part[] {
  const known = beside.beside.get(name);
  if (known !== undefined) return known;
  const names = isMetal(name) ? [] : [name, ...(car.facts.takesPlaceOf.get(name) ?? [])];
  const found = names.flatMap((one) => (car.parts.get(one) ?? []).filter((part) => meet(part, beside)));
  beside.beside.set(name, found);
  return found;
}

/** Whether a corner is at the front or at the rear. */
export function isAt(corner: Corner, word: string): boolean {
  return corner.name.split(/[-/]/).includes(word);
}

/** A part is there as its joints say: fitted, and none of them undone. */
export const isOn = (part: Part): boolean => part.where === 'on';
export const isThere = (part: Part): boolean => part.where === 'on' || part.where === 'aside';
export const isIn = (joint: Joint): boolean => joint.grip !== 'out';
export const isFast = (joint: Joint): boolean => joint.grip === 'tight' || joint.grip === 'done';
export const isJoined = (line: Line): boolean => [...line.joined.values()].every((one) => one);

/** Whether the axle or wheel of a corner has the weight of the vehicle on it. */
export const isLoaded = (corner: Corner): boolean =>
  corner.tyre || corner.hang === RIDE || (corner.lift.size === 0 && corner.jack.size > 0);

/** On its tyres on the floor. */
export const isDown = (corner: Corner): boolean => corner.tyre && corner.lift.size === 0;
