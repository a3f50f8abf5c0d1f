// Reading an operation: its verb, its targets, its qualifiers.
import { isMap, type Raw, text, texts } from './raw.ts';

export const VERBS = [
  ...[
    'raise',
    'lower',
    'support',
    'unsupport',
    'chock',
    'unchock',
    'move',
    'loosen',
    'remove',
    'start',
    'snug',
  ],
  ...[
    'torque',
    'unbolt',
    'bolt-up',
    'swing',
    'fit',
    'discard',
    'transfer',
    'offer',
    'withdraw',
    'free',
    'seat',
  ],
  ...['disconnect', 'connect', 'unclip', 'clip', 'route', 'hold', 'release', 'compress', 'relax', 'inflate'],
  ...[
    'deflate',
    'isolate',
    'restore',
    'switch',
    'drain',
    'fill',
    'bleed',
    'mark',
    'drill',
    'cut',
    'weld',
    'deburr',
  ],
  ...['clean', 'coat', 'apply', 'renew', 'set', 'adjust', 'record', 'check', 'measure', 'wait', 'use'],
];

/** Verbs whose target may be any words at all. */
export const FREE_WORDS = ['check', 'measure', 'record', 'set', 'adjust', 'wait', 'move'];

/** Verbs that work metal: under these `frame` and `body` are parts. */
export const METAL_VERBS = ['mark', 'drill', 'cut', 'weld', 'deburr', 'coat', 'clean'];

/** Verbs that act on joints: a part named there means all its joints. */
export const JOINT_VERBS = ['loosen', 'start', 'snug', 'torque'];

export interface Operation {
  verb: string;
  targets: string[];
  raw: Raw;
}

/** An operation of a `do` list, or undefined if it has no verb. */
export function readOperation(value: unknown): Operation | undefined {
  if (!isMap(value)) return undefined;
  const verb = VERBS.find((one) => value[one] !== undefined);
  if (verb === undefined) return undefined;
  const targets = verb === 'apply' ? texts(value.to) : texts(value[verb]);
  return { verb, targets, raw: value };
}

/** The section of a guide that has this title or id. */
export function findSection(
  guide: Raw,
  wanted: string | undefined,
): { section: Raw; number: number } | undefined {
  const sections = Array.isArray(guide.sections) ? guide.sections : [];
  const index = sections.findIndex((one) => isMap(one) && (one.id === wanted || one.title === wanted));
  const section = sections[index];
  return isMap(section) ? { section, number: index + 1 } : undefined;
}

/** What `use` names: another guide's section, or a section of the same guide; and the names to exchange. */
export function readUse(raw: Raw): {
  guide: string | undefined;
  section: string | undefined;
  names: Record<string, string>;
} {
  const use = raw.use;
  const names: Record<string, string> = {};
  for (const source of [raw.with, isMap(use) ? use.with : undefined]) {
    if (!isMap(source)) continue;
    for (const [theirs, ours] of Object.entries(source)) names[theirs] = text(ours) ?? theirs;
  }
  if (!isMap(use)) return { guide: undefined, section: text(use), names };
  return { guide: text(use.guide), section: text(use.section), names };
}

/** A target with its first name exchanged. */
export function exchange(target: string, names: Record<string, string>): string {
  const [first = '', ...rest] = target.split('.');
  return [names[first] ?? first, ...rest].join('.');
}
