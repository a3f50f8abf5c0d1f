// The things that have a state, and the state they carry. One variant, so each state is a plain value.
import type { Raw } from './raw.ts';

/** Where a debt was opened: the path of an operation, or undefined while nothing is owed. */
export type Debt = string | undefined;

export type Position = 'tight' | 'loose' | 'out' | 'started' | 'snug' | 'final';
export type PartState = 'fitted' | 'off' | 'off-with' | 'swung' | 'discarded' | 'boxed' | 'offered';

export interface Edge {
  state: 'none' | 'raw' | 'deburred' | 'protected';
  debt: Debt;
}

/** An aid that stands somewhere, and the operation that put it. */
export interface Put {
  path: Debt;
  item: string;
  side: string;
}

interface Instance {
  name: string;
  side: string; // '', 'left' or 'right'
  places: Record<string, string>;
  label: string; // places and side: 'front/left'
  body: Raw;
  own: Raw; // what the declaration itself says
  kind: string | undefined;
  kinds: string[]; // the kind and its bases
  kit: boolean;
  fresh: boolean; // not on the vehicle at the start
  granted: boolean; // an earlier finding took its state for granted: never again undone or done twice
  implied: boolean;
  given: boolean; // named in `given`: owes from the first operation on it
}

export interface Part extends Instance {
  what: 'part';
  joins: string[];
  joints: Joint[];
  ends: End[];
  holes: Hole[];
  faces: Face[];
  state: PartState;
  offWith: Part | undefined;
  beforeOffer: 'boxed' | 'off';
  neverOn: boolean; // a kit part that was not yet fitted
  offFromGiven: boolean;
  debt: Debt; // off or swung
  discardedAt: Debt;
  compressed: boolean;
  compressedDebt: Debt;
  unloaded: boolean;
  unloadedDebt: Debt;
  pressure: number | 'full' | 'empty';
  pressureDebt: Debt;
  aids: Map<string, Put>;
  assumedHeld: boolean;
  toldTravel: boolean;
  toldOff?: boolean; // off as its corner came down, which was told
  sunk: number; // mm let down from its place
  edge: Edge;
}

export interface Joint {
  what: 'joint';
  part: Part;
  name: string;
  item: string;
  body: Raw;
  position: Position;
  touched: boolean;
  given: boolean;
  debt: Debt;
  lacksPin: boolean;
  pinDebt: Debt;
  spent: Set<string>;
  granted: boolean; // an earlier finding took its position for granted
  hardware: Set<string>; // what the box gave for it since it was last taken out
}

export interface End {
  part: Part;
  granted: boolean;
  name: string;
  taper: boolean;
  freed: boolean;
  debt: Debt;
  given: boolean;
}

export interface Hole {
  part: Part;
  name: string;
  size: number | undefined;
  state: 'none' | 'marked' | 'pilot' | 'size';
  oversize?: boolean; // drilled too wide, which was told
  debt: Debt; // left at a pilot's size
  edge: Edge;
}

export interface Face {
  part: Part;
  name: string;
  edge: Edge;
}

export interface Line extends Instance {
  what: 'line';
  spans: string[];
  ends: string[];
  connected: Map<string, boolean>;
  used: boolean; // a kit line once routed or connected
  debt: Debt; // disconnected
  unclipped: boolean;
  unclippedDebt: Debt;
  path: string | undefined;
  unbled: boolean;
  unchecked: boolean;
  openedDebt: Debt;
  discarded: boolean;
  toldStretch: boolean;
}

export interface Group {
  name: string;
  words: string[];
  axle: Part | undefined;
  place: string;
}

export interface Corner {
  group: Group;
  side: 'left' | 'right';
  wheels: Part[];
  closure: Set<Part>;
  carry: 'wheel' | 'axle' | 'body';
  hang: 'ride' | number;
  body: Map<string, Put>;
  axle: Map<string, Put>;
  chocked: boolean;
  toldLoaded: boolean; // a spring was taken out there under load
  blocked: boolean;
  assumedRide: boolean; // a finding took it to be at ride height, until something is moved there
  carriedSince: Debt; // the operation since which it is carried as it is
}

/** What can drop: an axle part, or an arm with its own limiters. */
export interface Hanging {
  part: Part;
  corners: Corner[];
  limiters: Limiter[];
  assumedHeld: boolean;
}

/** One entry of `limited-by` on one side: a chain of members, the first gone is enough. */
export type Limiter = Member[];

/** A member is a role: the part (or joint) named, and whatever replaces it. */
export interface Member {
  parts: Part[];
  joints: Joint[] | undefined;
}

export interface Hold {
  aids: string[]; // as the packs name them; none: without a name
  item: string;
  side: string;
  path: Debt;
}

/** What an operation acts on, one instance of it. */
export interface Target {
  what: 'part' | 'joint' | 'piece' | 'line' | 'end' | 'hole' | 'face' | 'built-in' | 'words';
  item: string;
  side: string;
  key: string;
  part?: Part;
  joint?: Joint;
  piece?: string;
  end?: End;
  hole?: Hole;
  face?: Face;
  line?: Line;
  lineEnd?: string;
}
