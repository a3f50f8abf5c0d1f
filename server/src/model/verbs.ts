/** What each verb acts on. */

export type Acts =
  | 'part'
  | 'joint'
  | 'piece'
  | 'end'
  | 'hole'
  | 'face'
  | 'line'
  | 'spatial'
  | 'system'
  | 'words';
/** What `part.name` is taken for where the part declares nothing of the sort. */
export type SubKind = 'joint' | 'end' | 'hole' | 'face';

export interface VerbInfo {
  readonly acts: ReadonlySet<Acts>;
  readonly sub: SubKind;
  /** How a message says what it acts on. */
  readonly on: string;
  /** An undeclared name under this verb is a line. */
  readonly lines: boolean;
}

const verb = (acts: readonly Acts[], on: string, sub: SubKind = 'joint', lines = false): VerbInfo => ({
  acts: new Set(acts),
  sub,
  on,
  lines,
});

const CARRIED = verb(['part', 'spatial'], 'the vehicle, one end of it, an axle, an arm or another part');
const CHOCKED = verb(['part', 'spatial'], 'wheels, an axle, one end or the vehicle');
const JOINT = verb(['joint', 'part'], 'a joint');
const JOINTED = verb(['part'], 'a part with its joints');
const PART = verb(['part', 'piece', 'words'], 'a part');
const END = verb(['end', 'part'], 'an end that holds by itself', 'end');
const LINE = verb(['line'], 'a line, a hose, a plug or a cable', 'end', true);
const HELD = verb(['part', 'joint', 'piece', 'end', 'line', 'system', 'spatial'], 'a part or a line');
const SPRUNG = verb(['part'], 'a spring or another part that is pressed together');
const INFLATED = verb(['part', 'system'], 'an air spring or a tyre');
const SYSTEM = verb(
  ['system'],
  'battery, airbags, high-voltage, ignition, levelling, parking-brake, fuel-pressure or air-tank',
);
const FLUID = verb(['part', 'joint', 'line', 'system'], 'a reservoir, a housing or a line');
const WORKED = verb(['hole', 'face', 'part', 'joint', 'end', 'line'], 'a hole, a face or a part', 'face');
const ANYTHING = verb(
  ['part', 'joint', 'piece', 'end', 'hole', 'face', 'line', 'spatial', 'system', 'words'],
  'anything',
);

export const VERBS: ReadonlyMap<string, VerbInfo> = new Map<string, VerbInfo>([
  ...(['raise', 'lower', 'support', 'unsupport'] as const).map((name) => [name, CARRIED] as const),
  ['chock', CHOCKED],
  ['unchock', CHOCKED],
  ['move', verb(['part', 'spatial'], 'the vehicle')],
  ['loosen', JOINT],
  ['remove', verb(['joint', 'part', 'piece', 'words'], 'a joint or a part')],
  ['start', JOINT],
  ['snug', JOINT],
  ['torque', JOINT],
  ['unbolt', JOINTED],
  ['bolt-up', JOINTED],
  ['swing', verb(['part'], 'a part')],
  ['fit', PART],
  ['discard', verb(['part', 'line', 'piece', 'joint', 'words'], 'a part or a line')],
  ['transfer', PART],
  ['offer', verb(['part'], 'a part')],
  ['withdraw', verb(['part'], 'a part')],
  ['free', END],
  ['seat', END],
  ...(['disconnect', 'connect', 'unclip', 'clip', 'route', 'bleed'] as const).map(
    (name) => [name, LINE] as const,
  ),
  ['hold', HELD],
  ['release', HELD],
  ['compress', SPRUNG],
  ['relax', SPRUNG],
  ['inflate', INFLATED],
  ['deflate', INFLATED],
  ['isolate', SYSTEM],
  ['restore', SYSTEM],
  ['switch', SYSTEM],
  ['drain', FLUID],
  ['fill', FLUID],
  ['mark', verb(['hole', 'face', 'part', 'joint', 'end', 'line'], 'a hole, a face or a part', 'hole')],
  ['drill', verb(['hole', 'face', 'part'], 'a hole', 'hole')],
  ['cut', WORKED],
  ['weld', WORKED],
  ['deburr', WORKED],
  ['clean', WORKED],
  ['coat', WORKED],
  ['apply', verb(['words'], 'a stuff')],
  ['renew', verb(['piece', 'joint', 'part', 'line', 'words'], 'a piece or a part')],
  ...(['set', 'adjust', 'record', 'check', 'measure', 'wait'] as const).map(
    (name) => [name, ANYTHING] as const,
  ),
  ['use', verb(['words'], 'a section')],
]);

/** What states, texts and the targets of `to` and `onto` may name. */
export const NAMED: VerbInfo = ANYTHING;
/** `apply: … to:`, `fit: … onto:` and their like: what is there. */
export const PLACED: VerbInfo = verb(
  ['part', 'joint', 'piece', 'end', 'hole', 'face', 'line', 'spatial'],
  'a part, a joint or a face',
);

/** Verbs whose `with` names an aid that the packs must know. */
export const AIDED: ReadonlySet<string> = new Set([
  'raise',
  'lower',
  'support',
  'unsupport',
  'hold',
  'compress',
]);
/** Verbs that work the metal of a part, the frame's and the body's too. */
export const METAL_VERBS: ReadonlySet<string> = new Set([
  'mark',
  'drill',
  'cut',
  'weld',
  'deburr',
  'clean',
  'coat',
]);
/** Verbs that speak of a joint where a part is named: a part without a joint is a wrong target. */
export const JOINT_VERBS: ReadonlySet<string> = new Set(['loosen', 'start', 'snug', 'torque']);
/** An undeclared thing whose first operation is one of these starts off the vehicle. */
export const ARRIVES_BY: Readonly<Record<'part' | 'line', ReadonlySet<string>>> = {
  part: new Set(['fit', 'bolt-up', 'offer', 'start']),
  line: new Set(['route', 'connect']),
};
/** Verbs that only a part, never a line, is the target of. */
export const PART_VERBS: ReadonlySet<string> = new Set(
  [...VERBS].filter(([, info]) => info.acts.has('part') && !info.acts.has('line')).map(([name]) => name),
);
