/**
 * The bound model of one guide: every name tied to its declaration, every condition a set of variants.
 * Plain data made by `bind.ts`; the simulator, the rules and the editor read it and never change it.
 */

import type { Finding, Place, Span } from '../findings/finding';
import type { Quantity } from '../units/quantity';
import type { Tyre } from '../units/tyre';
import type { Diagram } from '../variants/diagram';
import type { World } from '../variants/world';
import type { Instance } from './instances';

export type Side = '' | 'left' | 'right';
/** Where a thing comes from. An implied thing is known only from its use in the guide. */
export type Origin = 'vehicle' | 'kit' | 'implied';

/** What a kind (or a part itself) says beside its places in the graph; see schemas/vehicle.schema.json. */
export interface Attributes {
  readonly system: string | null;
  readonly axle: boolean;
  readonly arm: boolean;
  readonly wheel: boolean;
  readonly bushed: boolean;
  /** Its joints carry the structure, where they do not say otherwise. */
  readonly structural: boolean;
  readonly limitsDrop: boolean;
  readonly storesEnergy: boolean;
  readonly inflates: boolean;
  readonly hub: boolean;
  readonly adjusted: boolean;
  readonly reach: 'outside' | 'beneath';
}

/** What parts and lines have in common. Names are unique over vehicle and kits. */
interface ThingBase {
  readonly name: string;
  /** The kind's name, and it with its ancestors, nearest first; empty where no kind is known. */
  readonly kind: string | null;
  readonly kinds: readonly string[];
  readonly origin: Origin;
  /** Where its name is declared; null when implied. */
  readonly declared: Place | null;
  readonly sided: boolean;
  readonly places: { readonly key: string; readonly values: readonly string[] } | null;
  /** By `makeInstances`, from `sided` and `places`. */
  readonly instances: readonly Instance[];
  /** The variants in which it exists. */
  readonly presence: Diagram;
  /** Implied things that the guide fits, offers up, routes or connects before anything else: they start off the vehicle. */
  readonly startsOff: boolean;
  /** Kit things: what they take the place of, how many are in the box (total), and whether they may be left over. */
  readonly replaces: readonly Thing[];
  readonly quantity: number;
  readonly spare: boolean;
}

/** A limiter of an axle's drop: a list is a chain, of which the first gone is enough. */
export type Limiter = readonly (Part | Joint)[];

export interface Part extends ThingBase {
  readonly type: 'part';
  readonly attributes: Attributes;
  /** Parts it joins; `frame`, `body`, `ground` stand as those words. */
  readonly joins: readonly (Part | string)[];
  readonly joints: ReadonlyMap<string, Joint>;
  readonly ends: ReadonlyMap<string, End>;
  readonly holes: ReadonlyMap<string, Hole>;
  readonly faces: ReadonlyMap<string, Face>;
  /** kg, mm, mm; null where no file says. */
  readonly mass: number | null;
  /** The size of its tyre, where its file says one that can be read. */
  readonly tyre: Tyre | null;
  readonly drop: number | null;
  /** mm from where its wheels are as the vehicle stands, down to where they hang and up to the stop. */
  readonly droop: number | null;
  readonly bump: number | null;
  /** Of a track bar, mm: between its bolts, and how much higher its end at the frame is, as the vehicle stands. */
  readonly length: number | null;
  readonly rise: number | null;
  readonly freeAt: number | null;
  /** kPa. */
  readonly pressure: { readonly low: number; readonly high: number } | null;
  readonly limitedBy: readonly Limiter[];
  readonly coveredBy: readonly Covering[];
  readonly handed: boolean;
}

/** `inside`, `under` or `behind` another part: reached only while that is off. */
export interface Covering {
  readonly how: 'inside' | 'under' | 'behind';
  readonly part: Part;
}

export interface Joint {
  readonly type: 'joint';
  readonly name: string;
  readonly part: Part;
  /** `part.joint`. */
  readonly full: string;
  readonly declared: Place | null;
  readonly presence: Diagram;
  readonly bolts: number;
  readonly thread: string | null;
  readonly class: string | null;
  readonly hex: string | null;
  /** The size of an inner key, and what the other side is held with, as written. */
  readonly key: string | null;
  readonly counterhold: string | null;
  readonly nut: 'plain' | 'flag' | 'self-locking' | 'slotted' | null;
  /** The class that the nut is marked with, as written. */
  readonly nutClass: string | null;
  /** What the bolt is screwed into where that is no nut, and the mm of thread that bear. */
  readonly into: 'steel' | 'cast-iron' | 'aluminium' | null;
  readonly engagement: number | null;
  readonly stack: readonly string[];
  readonly stretch: boolean;
  /** As §5 of schemas/semantics.md decides it: own word, else no stack and the kind's word. */
  readonly bushed: boolean;
  readonly lubricated: boolean | null;
  readonly structural: boolean;
  /** It says so, or its part is of such a kind. */
  readonly carries: boolean;
  readonly loosenFirst: 'on-ground' | null;
  readonly holdsSpring: boolean;
  /** A clip, a wing nut, a quarter turn: no tool and no torque, snug is as far as it goes. */
  readonly handTight: boolean;
  readonly torque: Quantity | null;
  /** The angle that is added, the pattern and the stages that its file gives. */
  readonly thenAngle: Quantity | null;
  readonly pattern: string | null;
  readonly stages: readonly Quantity[];
  readonly coveredBy: readonly Covering[];
  /** It says itself what covers it, be it nothing: what covers its part is then no hindrance. */
  readonly ownCover: boolean;
  /** Pieces that are used up: name to when. */
  readonly singleUse: ReadonlyMap<string, 'out' | 'slackened'>;
  /** Kit joints that take over an old one: which, and the pieces that come new with the kit. */
  readonly takesOver: { readonly joint: Joint; readonly newPieces: ReadonlySet<string> } | null;
}

export interface End {
  readonly type: 'end';
  readonly name: string;
  readonly part: Part;
  readonly full: string;
  /** What holds it until it is freed: `taper`, `press` …; null where nobody says. */
  readonly seat: string | null;
}

export interface Hole {
  readonly type: 'hole';
  readonly name: string;
  readonly part: Part;
  readonly full: string;
  readonly count: number;
  /** mm. */
  readonly size: number | null;
  /** The threads, as written, of the bolt that goes through, and of what is tapped into it. */
  readonly bolt: string | null;
  readonly tap: string | null;
}

export interface Face {
  readonly type: 'face';
  readonly name: string;
  readonly part: Part;
  readonly full: string;
}

export interface Line extends ThingBase {
  readonly type: 'line';
  readonly lineType: string | null;
  readonly spans: readonly (Part | string)[];
  /** Named ends; a line without any has the one end ''. */
  readonly ends: readonly string[];
  readonly heldBy: Part | null;
  /** mm: between its fittings, between its ends as seen from above, and how much higher the end at the body is. */
  readonly length: number | null;
  readonly across: number | null;
  readonly rise: number | null;
  /** Kit parts that replace `heldBy`: the line is held while any of them is on. */
  readonly heldByNew: readonly Part[];
  /** mm. */
  readonly slack: number | null;
  readonly slackFree: number | null;
  /** Path to slack in mm, first is the one it arrives on. */
  readonly paths: ReadonlyMap<string, number | null>;
  readonly retracts: boolean;
  readonly circuit: string | null;
}

export type Thing = Part | Line;

/** A row of a kit's table of clearances. */
export interface Clearance {
  readonly set: Diagram;
  readonly value: Tyre;
  /** What the row says of the wheel, as written: `wheel-width` to `8 in`. */
  readonly wheel: ReadonlyMap<string, string>;
  readonly note: string | null;
}

/** Kit hardware: loose pieces with what they are for. */
export interface Hardware {
  readonly name: string;
  readonly declared: Place;
  readonly quantity: number | null;
  /** Of its bolt, or of the nut where it is for nuts, as written. */
  readonly thread: string | null;
  readonly class: string | null;
  /** Joints, with the piece where it is one piece of them. */
  readonly serves: readonly { readonly joint: Joint; readonly piece: string | null }[];
}

export interface Aid {
  readonly name: string;
  readonly known: boolean;
  readonly raises: boolean;
  readonly carries: boolean;
  readonly lowers: boolean;
  readonly workUnder: boolean;
  readonly holds: boolean;
  readonly compresses: boolean;
  readonly jack: boolean;
  readonly takesWheels: boolean;
  /** kg. */
  readonly rating: number | null;
}

/** What an operation acts on, with the span of the word that says so. */
export type Target = { readonly span: Span; readonly written: string } & (
  | { readonly type: 'part'; readonly part: Part }
  | { readonly type: 'joint'; readonly joint: Joint }
  | { readonly type: 'piece'; readonly joint: Joint; readonly piece: string }
  | { readonly type: 'end'; readonly end: End }
  | { readonly type: 'hole'; readonly hole: Hole }
  | { readonly type: 'face'; readonly face: Face }
  | { readonly type: 'line'; readonly lines: readonly Line[]; readonly end: string | null }
  | { readonly type: 'built-in'; readonly name: string }
  | { readonly type: 'words'; readonly text: string }
);

/** A value by variant: the first whose set holds counts. */
export type ByVariant<T> = readonly { readonly set: Diagram; readonly value: T }[];

export interface BoundOperation {
  /** `section.step.operation` from 1; inside a `use`, the use's path, `/` and the path there. */
  readonly path: string;
  readonly verb: string;
  readonly targets: readonly Target[];
  /** The verb with its target, in the document it is written in. */
  readonly place: Place;
  /** Variants in which it is done, conditions of guide, section, step and own; presence of the target not included. */
  readonly guard: Diagram;
  /** What its own and outer `side` leave: left, right or both. Never empty (an empty one is a finding and the operation is dropped). */
  readonly sides: readonly Side[];
  /** True where `side` stands on the operation or outside it: axle work then concerns those corners alone. */
  readonly sideSaid: boolean;
  /** Place qualifiers: key to the places named. */
  readonly stations: ReadonlyMap<string, readonly string[]>;
  readonly aids: readonly Aid[];
  readonly onto: { readonly aids: readonly Aid[]; readonly target: Target | null };
  /** Torque figure: a quantity, `maker`, or nothing said (empty list). */
  readonly figure: ByVariant<Quantity | 'maker'>;
  /** `by` and `to` as quantities in SI base of station units (mm, kPa), where they are. */
  readonly by: Quantity | null;
  readonly to: Quantity | null;
  /** Words of `to`, `path`, `end`, `at`, `else`, `pattern`, `expect` as text, and whatever else the verb takes. */
  readonly words: ReadonlyMap<string, string>;
  readonly newPieces: readonly string[];
  readonly stays: readonly string[];
  readonly article: Side;
  readonly ifNeeded: boolean;
  /** `apply`, `transfer`: targets of `to`. */
  readonly toTargets: readonly Target[];
  /** Things of the model that `with` names (`relax: bar`, `with: adjuster`); words for aids are in `aids`. */
  readonly withTargets: readonly Target[];
  /** Names in `when: { found: … }` of the operation, and of its step and what stands around that (`onStep`), with the place of the name. */
  readonly foundNames: readonly { readonly name: string; readonly place: Place; readonly onStep: boolean }[];
  /** Any value of a qualifier, for rules and hover. */
  readonly qualifiers: ReadonlyMap<string, unknown>;
  /** Span of a qualifier's value, by name. */
  readonly spans: ReadonlyMap<string, Span>;
}

/** The time a step says, in minutes. One figure stands in all three. */
export interface BoundTime {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
  /** `time: { each-side: … }`: to be multiplied by the sides worked on. Else it is for the whole step, never multiplied. */
  readonly eachSide: boolean;
}

export interface BoundStep {
  /** `section.step`. */
  readonly path: string;
  readonly id: string | null;
  readonly place: Place;
  /** The uses that brought it in, the guide's own first: where each is written, and the title of the section that it takes. */
  readonly uses: readonly { readonly place: Place; readonly section: string }[];
  /** Text, else its operations in words; for related places and the trace. */
  readonly title: string;
  readonly guard: Diagram;
  /** One pass with both sides, or with `side: each` one for each side. */
  readonly passes: readonly (readonly Side[])[];
  readonly operations: readonly BoundOperation[];
  readonly people: number;
  /** Who may do it: by its own word, and by that of what stands around it. */
  readonly skill: string | null;
  readonly skillAround: string | null;
  /** What the step says of its own time; null where it says nothing or nothing that can be read. */
  readonly time: BoundTime | null;
  /** It says a time of its own, which cannot be read. */
  readonly timeLost: boolean;
  readonly hasCaution: boolean;
  /** Rules that a caution of this step covers. */
  readonly covered: ReadonlySet<string>;
  /** Operations are there and all of them bound to declared things. */
  readonly checked: boolean;
  /** Something of it could not be read, or an operation cannot be done: that is its finding. */
  readonly lost: boolean;
  readonly section: number;
  /** Where it is marked as a draft that nobody has read yet. */
  readonly draft?: Place;
}

/** An entry of `given`, `leaves` or of what `follows` leaves. */
export interface StateEntry {
  /** Sides it is said of. */
  readonly sides: readonly Side[];
  readonly target: Target;
  readonly state: string;
  readonly place: Place;
  readonly set: Diagram;
}

export interface Duty {
  readonly verb: 'check';
  readonly target: Target;
  /** What it says beside the item: `after`, `before`, `because`. */
  readonly qualifiers: ReadonlyMap<string, string>;
  readonly place: Place;
  readonly set: Diagram;
}

/**
 * A waiver, with the path of what it stands on: `0` the guide, `2` a section, `2.3` a step, `2.3.1` an operation; within a
 * used section with the path of the use before it.
 */
export interface Waiver {
  readonly path: string;
  readonly rule: string;
  readonly because: string;
  readonly by: string;
  /** ISO date, the last day it holds; null where it does not say or no day can be read. */
  readonly until: string | null;
  /** Where its rule is named. */
  readonly place: Place;
  /** Where the rest is written; null for what it does not say. */
  readonly places: { readonly [key in 'because' | 'by' | 'until']: Place | null };
  /** It came with a section of another guide. */
  readonly used: boolean;
}

/** What a rule could not decide, and the property that would have told. */
export interface Undecided {
  readonly rule: string;
  readonly item: string;
  readonly property: string;
}

export interface Model {
  readonly uri: string;
  readonly title: string;
  readonly world: World;
  /** Variants the guide covers; everything is asked inside it. */
  readonly universe: Diagram;
  readonly things: ReadonlyMap<string, Thing>;
  readonly hardware: readonly Hardware[];
  /** The largest tyre that clears, row by row of the kits; without those whose condition is not understood. */
  readonly clearances: readonly Clearance[];
  readonly aids: ReadonlyMap<string, Aid>;
  readonly steps: readonly BoundStep[];
  readonly given: readonly StateEntry[];
  readonly givenOperations: readonly BoundOperation[];
  readonly follows: {
    readonly place: Place;
    /** What the other guide leaves: taken over, and owed here. */
    readonly entries: readonly StateEntry[];
    /** What the other guide has fitted, connected or scrapped: so from the start, owing nothing. */
    readonly done: readonly StateEntry[];
  } | null;
  readonly leaves: readonly StateEntry[];
  readonly owes: readonly Duty[];
  /** Where the guide names its kit, for what of it is never used. */
  readonly kitPlace: Place;
  readonly waivers: readonly Waiver[];
  readonly findings: readonly Finding[];
  /** What binding left undecided: a name that no file declares though there is a vehicle file. */
  readonly undecided: readonly Undecided[];
  /** True where no vehicle file was named: implied things are then the normal case. */
  readonly withoutVehicle: boolean;
  readonly kinds: ReadonlyMap<string, Kind>;
}

/** A kind of part or line after its ancestors were merged in. */
export interface Kind {
  readonly name: string;
  /** Itself and its ancestors. */
  readonly line: readonly string[];
  readonly words: readonly string[];
  readonly forLines: boolean;
  readonly attributes: Attributes;
  readonly lineType: string | null;
  readonly sided: boolean;
  readonly mass: number | null;
}
