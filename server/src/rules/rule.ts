/** A rule as its pack says it, with defaults filled in. */

import type { Harm, Place, Severity } from '../findings/finding';
import type { OpenDocument } from '../schema/document';
import type { Rule as RuleDocument } from '../schema/generated/types';

export const FAMILIES = [
  'never',
  'needs',
  'never-while',
  'first',
  'later',
  'at-most-once',
  'next',
  'built-in',
] as const;
export type Family = (typeof FAMILIES)[number];

/** The items meant by `of`: a word, or items by name, kind or free words. */
export type RelatedTo =
  | 'same'
  | 'part'
  | 'joints'
  | 'axle'
  | 'vehicle'
  | 'any'
  | { readonly item: readonly string[] }
  | { readonly words: readonly string[] }
  | { readonly kind: readonly string[]; readonly on: 'axle' | 'side' | 'vehicle' };

export interface Need {
  readonly of: RelatedTo;
  readonly state: readonly string[];
  readonly every: boolean;
  /** The finding tells of the open state itself: what is owed for it is told with it. */
  readonly settles: boolean;
}

export type Excuse = Need | { readonly people: number } | { readonly caution: true };

export interface Pattern {
  readonly verb: readonly string[];
  readonly of: RelatedTo;
  readonly qualifier: ReadonlyMap<string, readonly string[]>;
}

/** An operation that came earlier, until one of `since` undoes it. */
export interface Earlier extends Pattern {
  /** Without `of`: on the related item, or on one that the rule watches. */
  readonly since: { readonly verb: readonly string[]; readonly of: RelatedTo | null };
}

export interface Watch {
  readonly verb: readonly string[];
  readonly kind: readonly string[];
  readonly what: readonly string[];
  readonly item: readonly string[];
  readonly joint: ReadonlyMap<string, readonly string[]>;
  readonly qualifier: ReadonlyMap<string, readonly string[]>;
  /** What is watched only once this came; null where it always is. */
  readonly after: Earlier | null;
}

/** The operation that a fix adds, as far as the rule says it: what is left out follows from the rule itself. */
export interface Repair {
  readonly verb: string;
  readonly of: RelatedTo | null;
  readonly with: string | null;
  readonly to: string | null;
  /** When it is due, where it may be handed over for after delivery. */
  readonly after: string | null;
  readonly text: string | null;
}

export interface Rule {
  readonly id: string;
  readonly pack: string;
  /** On unless it is switched off. */
  readonly core: boolean;
  /** Whether the pack says `core` at all. */
  readonly saysCore: boolean;
  /** Takes the place of the rule of this id in an earlier pack. */
  readonly overrides: boolean;
  readonly harm: Harm;
  readonly severity: Severity | null;
  readonly says: string;
  readonly reason: string;
  readonly source: string;
  readonly family: Family;
  readonly watch: Watch;
  readonly need: Need | null;
  readonly first: Earlier | null;
  readonly later: (Pattern & { readonly before: Pattern | null; readonly earlier: boolean }) | null;
  readonly next: Pattern | null;
  readonly unless: readonly Excuse[];
  readonly parameters: ReadonlyMap<string, unknown>;
  readonly repair: Repair | null;
  readonly place: Place;
}

type Loose = Record<string, unknown>;

const list = (value: unknown): readonly string[] =>
  value === undefined || value === null ? [] : Array.isArray(value) ? value.map(String) : [String(value)];

const table = (value: unknown): ReadonlyMap<string, readonly string[]> =>
  new Map(Object.entries((value ?? {}) as Loose).map(([key, wanted]) => [key, list(wanted)]));

function related(value: unknown): RelatedTo {
  if (value === undefined || value === null) return 'same';
  if (typeof value === 'string') return value as RelatedTo;
  const map = value as Loose;
  if ('item' in map) return { item: list(map.item) };
  if ('words' in map) return { words: list(map.words) };
  return { kind: list(map.kind), on: (map.on as 'axle' | 'side' | 'vehicle' | undefined) ?? 'vehicle' };
}

function need(value: unknown): Need {
  const map = value as Loose;
  return {
    of: related(map.of),
    state: list(map.state),
    every: map.every === true,
    settles: map.settles === true,
  };
}

function excuse(value: unknown): Excuse {
  const map = value as Loose;
  if (typeof map.people === 'number') return { people: map.people };
  if (map.caution === true) return { caution: true };
  return need(value);
}

function pattern(value: unknown): Pattern {
  const map = value as Loose;
  return { verb: list(map.verb), of: related(map.of), qualifier: table(map.qualifier) };
}

function earlier(value: unknown): Earlier {
  const since = ((value as Loose).since ?? {}) as Loose;
  const of = since.of === undefined ? null : related(since.of);
  return { ...pattern(value), since: { verb: list(since.verb), of } };
}

function repair(map: Loose): Repair {
  const word = (key: string): string | null => (typeof map[key] === 'string' ? (map[key] as string) : null);
  return {
    verb: word('verb') ?? '',
    of: map.of === undefined ? null : related(map.of),
    with: word('with'),
    to: word('to'),
    after: word('after'),
    text: word('text'),
  };
}

/** The rules of a pack, in order; a rule without a family is left out (the pack's own findings say so). */
export function rulesOf(pack: OpenDocument): readonly Rule[] {
  if (pack.kind !== 'rules') return [];
  return (pack.value.rules ?? []).flatMap((document: RuleDocument) => {
    const raw = document as unknown as Loose;
    const family = FAMILIES.find((name) => raw[name] !== undefined && raw[name] !== false);
    if (family === undefined || typeof raw.id !== 'string') return [];
    const watch = (raw.watch ?? {}) as Loose;
    const later = raw.later as Loose | undefined;
    return [
      {
        id: raw.id,
        pack: pack.value.pack,
        core: raw.core === true,
        saysCore: raw.core !== undefined,
        overrides: raw.overrides === true,
        harm: raw.harm as Harm,
        severity: null,
        says: String(raw.says ?? ''),
        reason: String(raw.reason ?? ''),
        source: String(raw.source ?? 'common practice'),
        family,
        watch: {
          verb: list(watch.verb),
          kind: list(watch.kind),
          what: list(watch.what),
          item: list(watch.item),
          joint: table(watch.joint),
          qualifier: table(watch.qualifier),
          after: watch.after === undefined ? null : earlier(watch.after),
        },
        need: family === 'needs' || family === 'never-while' ? need(raw[family]) : null,
        first: raw.first === undefined ? null : earlier(raw.first),
        later:
          later === undefined
            ? null
            : {
                ...pattern(later),
                before: later.before === undefined ? null : pattern(later.before),
                earlier: later.earlier === true,
              },
        next: raw.next === undefined ? null : pattern(raw.next),
        unless: ((raw.unless as unknown[] | undefined) ?? []).map(excuse),
        repair: raw.repair === undefined ? null : repair(raw.repair as Loose),
        parameters: new Map(Object.entries((raw.with ?? {}) as Loose)),
        place: pack.at.header(document),
      },
    ];
  });
}
