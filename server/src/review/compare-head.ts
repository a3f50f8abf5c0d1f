/** What the head of a guide says: whom it fits, what it starts from and leaves, what is owed after it, and what is accepted. */

import type { Place } from '../findings/finding';
import { listed } from '../findings/words';
import type { Duty, StateEntry, Waiver } from '../model/model';
import { type GuideAccount, nameOfStep, type Said, type SectionAccount, type StepAccount } from './account';
import { type Change, change } from './change';
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
    ...waiverChanges(before, after, now),
  ];
}

function coversChanges(old: GuideAccount, now: GuideAccount): Change[] {
  const names = [...new Set([...old.covers.keys(), ...now.covers.keys()])].sort();
  return names.flatMap((name): Change[] => {
    const [was, is] = [old.covers.get(name), now.covers.get(name)];
    if (was?.key === is?.key) return [];
    const places = { before: old.place, after: now.place };
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
        level: wider ? 'first' : 'work',
        rank: wider ? 21 : 5,
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

function waiverChanges(before: Version, after: Version, account: GuideAccount): Change[] {
  const found: Change[] = [];
  const left = [...before.model.waivers];
  for (const one of after.model.waivers) {
    const index = indexOf(left, one);
    const was = index < 0 ? undefined : left.splice(index, 1)[0];
    const who = `${one.by || 'nobody by name'}, until ${one.until ?? 'no day at all'}: ${one.because || 'no reason given'}`;
    if (was === undefined) {
      found.push(
        change({
          kind: 'waiver-added',
          level: 'first',
          rank: 12,
          sentence: `${one.rule} is now waived${whereOf(one, account)}, by ${who}`.replace(/\.?$/, '.'),
          step: stepOf(one, account),
          after: one.place,
          rule: one.rule,
        }),
      );
    } else if (was.until !== one.until || was.by !== one.by || was.because.trim() !== one.because.trim()) {
      const longer = (one.until ?? '9') > (was.until ?? '9');
      found.push(
        change({
          kind: 'waiver-changed',
          level: longer || was.by !== one.by ? 'first' : 'work',
          rank: 37,
          sentence:
            `The waiver of ${one.rule} ${longer ? 'holds longer' : 'reads otherwise'}: by ${who}`.replace(
              /\.?$/,
              '.',
            ),
          from: `${was.by}, ${was.until ?? ''}: ${was.because}`,
          to: `${one.by}, ${one.until ?? ''}: ${one.because}`,
          before: was.place,
          after: one.place,
          rule: one.rule,
        }),
      );
    }
  }
  for (const one of left)
    found.push(
      change({
        kind: 'waiver-removed',
        level: 'work',
        rank: 85,
        sentence: `${one.rule} is no longer waived.`,
        before: one.place,
        rule: one.rule,
      }),
    );
  return found;
}

const stepOf = ({ path }: Waiver, { steps }: GuideAccount): StepAccount | null =>
  steps.find((step) => path === step.path || path.startsWith(`${step.path}.`)) ?? null;

function whereOf(waiver: Waiver, account: GuideAccount): string {
  const step = stepOf(waiver, account);
  if (step !== null) return ` in ${nameOfStep(step)}`;
  if (waiver.path === '0') return ' in the whole guide';
  const section = account.sections.find(({ number }) => String(number) === waiver.path);
  return section === undefined ? '' : ` in the section "${section.title}"`;
}

/** The same waiver: of its rule, with its reason if there is one such. */
function indexOf(waivers: readonly Waiver[], { rule, because, until }: Waiver): number {
  const tests: readonly ((one: Waiver) => boolean)[] = [
    (one) => one.because === because && one.until === until,
    (one) => one.because === because,
    () => true,
  ];
  for (const test of tests) {
    const index = waivers.findIndex((one) => one.rule === rule && test(one));
    if (index >= 0) return index;
  }
  return -1;
}

/** Sections with other conditions, titles, or people. */
export function compareSections(
  old: GuideAccount,
  now: GuideAccount,
  laterSection: (section: SectionAccount) => SectionAccount | null,
): Change[] {
  const found: Change[] = [];
  const kept = new Set<SectionAccount>();
  for (const section of old.sections) {
    const other = laterSection(section);
    if (other === null) {
      found.push(
        change({
          kind: 'section-removed',
          level: 'work',
          rank: 8,
          sentence: `The section "${section.title}" is gone.`,
          before: section.place,
        }),
      );
      continue;
    }
    kept.add(other);
    const places = { before: section.place, after: other.place };
    if (section.title !== other.title)
      found.push(
        change({
          kind: 'section-changed',
          level: 'words',
          rank: 6,
          sentence: `The section "${section.title}" is now called "${other.title}".`,
          from: section.title,
          to: other.title,
          ...places,
        }),
      );
    if (section.condition.written !== other.condition.written)
      found.push(
        change({
          kind: 'condition',
          level: other.condition.written === '' ? 'work' : 'first',
          rank: 24,
          sentence:
            other.condition.written === ''
              ? `The section "${other.title}" is now always done; before, only with ${section.condition.shown}.`
              : `The section "${other.title}" is now done only with ${other.condition.shown}; before, ${section.condition.written === '' ? 'always' : `only with ${section.condition.shown}`}.`,
          ...places,
        }),
      );
    if (section.side !== other.side)
      found.push(
        change({
          kind: 'side',
          level: other.side === '' ? 'work' : 'first',
          rank: 28,
          sentence: `The section "${other.title}" is now done on ${other.side || 'both sides'}; before, on ${section.side || 'both sides'}.`,
          ...places,
        }),
      );
    if (section.skill !== other.skill)
      found.push(
        change({
          kind: 'section-changed',
          level: 'words',
          rank: 15,
          sentence: `The section "${other.title}" is for ${other.skill ?? 'nobody in particular'} instead of ${section.skill ?? 'nobody in particular'}.`,
          ...places,
        }),
      );
    if (section.note !== other.note)
      found.push(
        change({
          kind: 'words',
          level: 'words',
          rank: 40,
          sentence: `The remark of the section "${other.title}" reads otherwise.`,
          from: section.note,
          to: other.note,
          ...places,
        }),
      );
  }
  for (const section of now.sections)
    if (!kept.has(section))
      found.push(
        change({
          kind: 'section-added',
          level: 'work',
          rank: 8,
          sentence: `The section "${section.title}" is new.`,
          after: section.place,
        }),
      );
  return found;
}
