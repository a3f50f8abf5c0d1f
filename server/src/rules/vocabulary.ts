/** The words a rule may use: states and what they are said of, and what each verb acts on (schemas/semantics.md §7). */

import { type Acts, JOINT_VERBS, VERBS } from '../model/verbs';

/** What an operation acts on, as `what:` names it. */
export type Sort = 'joint' | 'part' | 'line' | 'end' | 'hole' | 'face' | 'piece' | 'built-in' | 'words';

export const SORTS: readonly Sort[] = [
  'joint',
  'part',
  'line',
  'end',
  'hole',
  'face',
  'piece',
  'built-in',
  'words',
];

/** What each of these is. */
export const SORT_WORDS: Readonly<Record<Sort, string>> = {
  joint: 'what holds a part: a bolt, a nut, a set of them',
  part: 'a part as a whole',
  line: 'a hose, a plug, a cable, or one end of it',
  end: 'an end that holds by itself: a taper, a press fit, a clamp',
  hole: 'a hole',
  face: 'a face',
  piece: 'a small piece of a joint: a pin, a washer',
  'built-in': 'a system, or the vehicle and its ends',
  words: 'free words, as check and record name them',
};

/** What the words of `of` mean, from the item that is watched. */
export const RELATIONS: Readonly<Record<string, string>> = {
  same: 'what the watched operation acts on',
  part: 'the part that it belongs to',
  joints: 'the joints of that part',
  axle: 'the axle that it hangs on',
  vehicle: 'the vehicle',
  any: 'anything at all; only where an operation is looked for',
};

const JOINTS: readonly Sort[] = ['joint', 'piece', 'part'];
const PARTS: readonly Sort[] = ['part', 'joint', 'end', 'hole', 'face', 'line', 'piece'];
const PLACED: readonly Sort[] = ['part', 'joint', 'end', 'hole', 'face', 'line', 'piece', 'built-in'];
const METAL: readonly Sort[] = ['hole', 'face', 'part'];

export interface StateWord {
  /** What it may be said of; of a part the joint's words mean one of its joints. */
  readonly of: readonly Sort[];
  readonly about: string;
}

/** Every state that a rule may ask for, beside the values of switches. */
export const STATES: Readonly<Record<string, StateWord>> = {
  tight: { of: JOINTS, about: 'tight as the vehicle arrived' },
  loose: { of: JOINTS, about: 'slackened, still in' },
  out: { of: JOINTS, about: 'taken out' },
  started: { of: JOINTS, about: 'started by hand' },
  snug: { of: JOINTS, about: 'run down, without its final torque' },
  final: { of: JOINTS, about: 'at its final torque' },
  untouched: { of: JOINTS, about: 'moved by no operation so far' },
  fitted: { of: PARTS, about: 'on the vehicle' },
  off: { of: PARTS, about: 'taken off' },
  swung: { of: PARTS, about: 'swung aside' },
  discarded: { of: PARTS, about: 'thrown away' },
  boxed: { of: PARTS, about: 'still in the box of the kit' },
  offered: { of: PARTS, about: 'offered up as a template' },
  connected: { of: ['line'], about: 'connected at all its ends' },
  disconnected: { of: ['line'], about: 'disconnected at one end or more' },
  clipped: { of: ['line'], about: 'in its clips' },
  unclipped: { of: ['line'], about: 'out of its clips' },
  bled: { of: ['line'], about: 'not opened, or bled since' },
  unbled: { of: ['line'], about: 'opened and not bled since' },
  checked: { of: ['line'], about: 'not opened, or checked since' },
  unchecked: { of: ['line'], about: 'opened and not checked since' },
  seated: { of: ['end', 'part'], about: 'held by its own taper, press or clamp' },
  freed: { of: ['end', 'part'], about: 'freed from its taper, press or clamp' },
  none: { of: ['hole'], about: 'not even marked' },
  marked: { of: ['hole'], about: 'marked out' },
  pilot: { of: ['hole'], about: 'drilled below its size' },
  size: { of: ['hole'], about: 'drilled to its size' },
  raw: { of: METAL, about: 'cut, drilled or welded, and not deburred' },
  deburred: { of: METAL, about: 'deburred, and not protected' },
  protected: { of: METAL, about: 'protected against rust' },
  held: { of: PLACED, about: 'held by an aid' },
  compressed: { of: ['part'], about: 'held together by a compressor' },
  empty: { of: ['part'], about: 'without air' },
  live: { of: ['built-in'], about: 'not isolated' },
  safe: { of: ['built-in'], about: 'isolated' },
  full: { of: PLACED, about: 'not drained, or filled since' },
  drained: { of: PLACED, about: 'drained and not filled since' },
  'ride-height': { of: PLACED, about: 'every corner of it at ride height' },
  'on-ground': { of: PLACED, about: 'every corner of it on its wheel, on the ground' },
  raised: { of: PLACED, about: 'every corner of it off the ground' },
  'jack-alone': { of: PLACED, about: 'a corner of it raised on something that nobody may work under' },
  recorded: { of: SORTS, about: 'recorded so that it can be set again' },
};

const ACTS_AS: Readonly<Record<Acts, Sort>> = {
  part: 'part',
  joint: 'joint',
  piece: 'piece',
  end: 'end',
  hole: 'hole',
  face: 'face',
  line: 'line',
  spatial: 'built-in',
  system: 'built-in',
  words: 'words',
};

/** What the operations of a verb act on, one by one: a part named under `torque` stands for its joints. */
export function sortsOfVerb(verb: string): ReadonlySet<Sort> {
  const info = VERBS.get(verb);
  // `apply` acts on its `to`.
  if (info === undefined || verb === 'apply') return new Set(SORTS);
  const sorts = new Set([...info.acts].map((one) => ACTS_AS[one]));
  if (JOINT_VERBS.has(verb)) sorts.delete('part');
  return sorts;
}
