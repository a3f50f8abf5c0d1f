/** What the head of a guide says: whom it fits, what it starts from and leaves, what is owed after it, and what is accepted. */

import type { Place } from '../findings/finding';
import { listed } from '../findings/words';
import type { Duty, StateEntry } from '../model/model';
import type { GuideAccount, Said } from './account';
import { type Change, change } from './change';
import { compareWaivers } from './compare-waivers';
import { itemOf } from './operations-of';
import { variantsOf } from './variants-told';
import type { Version } from './version';

/** @param fresh the name that a thing of the earlier version has now. */
export function compareHead(
  [before, after]: readonly [Version, Version],
  [old, now]: readonly [GuideAccount, GuideAccount],
  fresh: (item: string) => string,
): Change[] {
  const named = (entries: readonly Entry[]) => entries.map((one) => ({ ...one, item: fresh(one.item) }));
  return [
    ...coversChanges(old, now),
    ...saidChanges(old.head, now.head, old.place, now.place),
    ...entryChanges('given', named(statesOf(before, 'given')), statesOf(after, 'given')),
    ...entryChanges('leaves', named(statesOf(before, 'leaves')), statesOf(after, 'leaves')),
    ...entryChanges('owes', named(dutiesOf(before)), dutiesOf(after)),
    ...compareWaivers(before, after, now),
  ];
}

function coversChanges(old: GuideAccount, now: GuideAccount): Change[] {
  const names = [...new Set([...old.covers.keys(), ...now.covers.keys()])].sort();
  return names.flatMap((name): Change[] => {
    const [was, is] = [old.covers.get(name), now.covers.get(name)];
    if (was?.key === is?.key) return [];
    const places = { before: was?.place ?? old.place, after: is?.place ?? now.place };
    if (was === undefined || is === undefined) {
      const values = listed((was ?? is)!.values, 'or');
      const sentence =
        was === undefined
          ? `The guide now tells vehicles apart by ${name}: ${values}.`
          : `The guide no longer tells vehicles apart by ${name}; it was ${values}.`;
      return [change({ kind: 'covers', level: 'work', rank: 5, sentence, ...places })];
    }
    const more = is.values.filter((value) => !was.values.includes(value));
    const less = was.values.filter((value) => !is.values.includes(value));
    if (more.length + less.length === 0) return [];
    const told = [
      ...(more.length === 0 ? [] : [`now also covers ${name}: ${listed(more, 'and')}`]),
      ...(less.length === 0 ? [] : [`no longer covers ${name}: ${listed(less, 'and')}`]),
    ];
    const wider = more.length > 0;
    const from = listed(was.values, 'or');
    const to = listed(is.values, 'or');
    return [
      change({
        kind: 'covers',
        level: 'first',
        // Who is covered now must be safe; who is covered no more must be told.
        rank: wider ? 21 : 30,
        sentence: `The guide ${told.join(' and ')}.`,
        from,
        to,
        ...places,
      }),
    ];
  });
}

/** Keys that are told by what is written; the rest by what they come to. */
const TOLD: Readonly<
  Record<
    string,
    {
      readonly name: string;
      readonly level: Change['level'];
      readonly rank: number;
      readonly kind: Change['kind'];
    }
  >
> = {
  vehicle: { name: 'vehicle file', level: 'first', rank: 19, kind: 'files' },
  kit: { name: 'kit', level: 'first', rank: 19, kind: 'files' },
  follows: { name: 'guide that it goes on from', level: 'first', rank: 25, kind: 'files' },
  when: { name: 'condition of the whole guide', level: 'first', rank: 21, kind: 'condition' },
  side: { name: 'side of the whole guide', level: 'first', rank: 21, kind: 'side' },
  title: { name: 'title', level: 'words', rank: 5, kind: 'words' },
  revision: { name: 'revision', level: 'words', rank: 4, kind: 'words' },
  date: { name: 'date', level: 'words', rank: 4, kind: 'words' },
  note: { name: 'remark of the guide', level: 'words', rank: 40, kind: 'words' },
};

function saidChanges(
  old: ReadonlyMap<string, Said>,
  now: ReadonlyMap<string, Said>,
  oldPlace: Place,
  newPlace: Place,
): Change[] {
  return Object.entries(TOLD).flatMap(([key, { name, level, rank, kind }]) => {
    const [was, is] = [old.get(key), now.get(key)];
    if (was?.key === is?.key) return [];
    const long = key === 'note' || key === 'title';
    const sentence =
      was === undefined
        ? `The ${name} is new${long ? '' : `: ${is!.shown}`}.`
        : is === undefined
          ? `The ${name} is gone${long ? '' : `; it was ${was.shown}`}.`
          : long
            ? `The ${name} reads otherwise.`
            : `The ${name} is ${is.shown} instead of ${was.shown}.`;
    const places = { before: was?.place ?? oldPlace, after: is?.place ?? newPlace };
    return [
      change({ kind, level, rank, sentence, from: was?.shown ?? null, to: is?.shown ?? null, ...places }),
    ];
  });
}

interface Entry {
  readonly item: string;
  readonly said: string;
  readonly place: Place;
  readonly variants: string | null;
}

function statesOf({ model }: Version, key: 'given' | 'leaves'): Entry[] {
  const states = model[key].map(({ target, state, sides, place, set }: StateEntry): Entry => {
    const side = sides.length === 1 && sides[0] !== '' ? ` on the ${sides[0]}` : '';
    return { item: `${itemOf(target)}${side}`, said: state, place, variants: variantsOf(model, set).words };
  });
  const operations = (key === 'given' ? model.givenOperations : []).flatMap(
    ({ verb, targets, place, guard }) =>
      targets.map((target) => ({
        item: itemOf(target),
        said: `by ${verb}`,
        place,
        variants: variantsOf(model, guard).words,
      })),
  );
  return [...states, ...operations];
}

function dutiesOf({ model }: Version): Entry[] {
  return model.owes.map(({ target, qualifiers, place, set }: Duty) => ({
    item: itemOf(target),
    said: [...qualifiers]
      .flatMap(([key, value]) => (key === 'because' ? [] : [`${key} ${value}`]))
      .sort()
      .join(', '),
    place,
    variants: variantsOf(model, set).words,
  }));
}

type Sentence = (entry: Entry) => string;
const SENTENCES: Readonly<
  Record<
    'given' | 'leaves' | 'owes',
    { readonly more: Sentence; readonly less: Sentence; readonly now: (a: Entry, b: Entry) => string }
  >
> = {
  given: {
    more: ({ item, said }) => `The guide now starts with ${item} ${said}.`,
    less: ({ item, said }) => `The guide no longer starts with ${item} ${said}.`,
    now: (a, b) => `The guide starts with ${b.item} ${b.said} instead of ${a.said}.`,
  },
  leaves: {
    more: ({ item, said }) => `The guide now leaves ${item} ${said}, on purpose.`,
    less: ({ item, said }) => `The guide no longer leaves ${item} ${said}.`,
    now: (a, b) => `The guide leaves ${b.item} ${b.said} instead of ${a.said}.`,
  },
  owes: {
    more: ({ item, said }) => `The hand-over sheet now asks to check ${item} ${said}`.trim().concat('.'),
    less: ({ item, said }) =>
      `The hand-over sheet no longer asks to check ${item} ${said}`.trim().concat('.'),
    now: (a, b) =>
      `The hand-over sheet asks to check ${b.item} ${b.said || 'at any time'} instead of ${a.said || 'at any time'}.`,
  },
};

function entryChanges(
  kind: 'given' | 'leaves' | 'owes',
  old: readonly Entry[],
  now: readonly Entry[],
): Change[] {
  const found: Change[] = [];
  const waiting = new Map(old.map((entry) => [`${entry.item}\n${entry.variants}`, entry]));
  const plain = SENTENCES[kind];
  for (const entry of now) {
    const was = waiting.get(`${entry.item}\n${entry.variants}`);
    waiting.delete(`${entry.item}\n${entry.variants}`);
    if (was?.said === entry.said) continue;
    found.push(
      change({
        kind,
        // To start from more, or to leave more, is to do less; a duty more is none the worse.
        level: kind === 'owes' && was === undefined ? 'work' : 'first',
        rank: kind === 'owes' ? 27 : 26,
        sentence: was === undefined ? plain.more(entry) : plain.now(was, entry),
        variants: entry.variants,
        before: was?.place ?? null,
        after: entry.place,
      }),
    );
  }
  for (const entry of waiting.values())
    found.push(
      change({
        kind,
        level: kind === 'leaves' ? 'work' : 'first',
        rank: kind === 'owes' ? 17 : 26,
        sentence: plain.less(entry),
        variants: entry.variants,
        before: entry.place,
      }),
    );
  return found;
}
