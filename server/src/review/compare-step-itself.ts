/** What a step says beside its operations: for whom and when it is done, by how many, how long, and in which words. */

import { listed } from '../findings/words';
import type { BoundTime, Model } from '../model/model';
import { nameOfStep, type StepAccount } from './account';
import { type Change, capital, changeIn } from './change';
import { becameInWords, sidesInWords } from './qualifier-changes';
import { extentOf } from './variants-told';

export function compareStepItself(before: StepAccount, after: StepAccount, later: Model): Change[] {
  const found: Change[] = [];
  const name = nameOfStep(after);
  const add = (told: Parameters<typeof changeIn>[2]): void => {
    found.push(changeIn(before, after, told));
  };
  const heavy = after.operations.some(
    ({ weight }) => weight.holds || weight.lifts || (weight.secures && weight.vital),
  );
  const extent =
    before.condition.written === after.condition.written
      ? 'same'
      : extentOf(before.condition.variants, after.condition.variants, later);
  if (extent !== 'same') {
    const [from, to] = [
      before.condition.variants.words ?? 'always',
      after.condition.variants.words ?? 'always',
    ];
    add({
      kind: 'condition',
      level: extent === 'more' || !heavy ? 'work' : 'first',
      rank: extent === 'more' ? 26 : 24,
      sentence: `${capital(name)} is now done ${to}; before, ${from}.`,
      from,
      to,
    });
  }
  if (before.side !== after.side && before.sides !== after.sides) {
    const [from, to] = [before.sides, after.sides].map(sidesInWords) as [string, string];
    add({
      kind: 'side',
      level: after.sides.length < before.sides.length ? 'first' : 'work',
      rank: 28,
      sentence: `${capital(name)} is now done ${to}; before, ${from}.`,
      from,
      to,
    });
  }
  if (before.optional !== after.optional)
    add({
      kind: 'step-changed',
      level: after.optional ? 'first' : 'work',
      rank: 27,
      sentence: after.optional
        ? `${capital(name)} is now the fitter's choice; before, it was always done.`
        : `${capital(name)} is now always done; before, it was the fitter's choice.`,
    });
  if (before.people !== after.people)
    add({
      kind: 'people',
      level: after.people < before.people ? 'first' : 'work',
      rank: after.people < before.people ? 23 : 44,
      sentence: `${capital(name)} is for ${people(after.people)} instead of ${people(before.people)}.`,
      from: people(before.people),
      to: people(after.people),
    });
  if (before.draft !== after.draft)
    add({
      kind: 'step-changed',
      level: after.draft ? 'work' : 'words',
      rank: 70,
      sentence: after.draft
        ? `${capital(name)} is marked as a draft that nobody has read yet.`
        : `${capital(name)} is no longer marked as a draft.`,
    });
  const [from, to] = [before.time, after.time].map(timeInWords) as [string | null, string | null];
  if (from !== to)
    add({
      kind: 'time',
      level: 'words',
      rank: 20,
      sentence:
        from === null
          ? `${capital(name)} now says how long it takes: ${to}.`
          : to === null
            ? `${capital(name)} no longer says how long it takes; it was ${from}.`
            : `${capital(name)} takes ${to} instead of ${from}.`,
      from,
      to,
    });
  if (words(before.text) !== words(after.text))
    add({
      kind: 'words',
      level: 'words',
      rank: 10,
      sentence:
        before.text === ''
          ? `${capital(name)} now has words of its own.`
          : after.text === ''
            ? `${capital(name)} has lost its words; its operations are printed.`
            : `The words of ${name} changed.`,
      from: before.text || null,
      to: after.text || null,
    });
  found.push(...besideChanges(before, after));
  return found;
}

const words = (text: string): string => text.split(/\s+/).join(' ');
const people = (count: number): string => (count === 1 ? 'one person' : `${count} people`);

/** `12 min`, `6 min (4 to 12)`, `3 min a side`. */
export function timeInWords(time: BoundTime | null): string | null {
  if (time === null) return null;
  const { low, likely, high, eachSide } = time;
  const figure = minutes(likely);
  const range = low === likely && high === likely ? '' : ` (${bare(low)} to ${minutes(high)})`;
  return `${figure}${range}${eachSide ? ' a side' : ''}`;
}

const bare = (value: number): string => String(Number(value.toFixed(2)));
const minutes = (value: number): string =>
  value < 1 && value > 0 ? `${Number((value * 60).toFixed(1))} s` : `${bare(value)} min`;

const NAMES: Readonly<Record<string, string>> = {
  skill: 'who may do it',
  note: 'the remark',
  figure: 'the figure',
  figures: 'the figures',
};

function besideChanges(before: StepAccount, after: StepAccount): Change[] {
  const keys = [...new Set([...before.beside.keys(), ...after.beside.keys()])].sort();
  return keys.flatMap((key): Change[] => {
    const [was, is] = [before.beside.get(key), after.beside.get(key)];
    if (was?.key === is?.key) return [];
    const places = { before: was?.place ?? before.place, after: is?.place ?? after.place };
    const [from, to] = [was?.shown ?? null, is?.shown ?? null];
    const name = nameOfStep(after);
    if (key === 'tools') {
      const [old, now] = [toolsIn(from), toolsIn(to)];
      const more = now.filter((one) => !old.includes(one));
      const less = old.filter((one) => !now.includes(one));
      if (more.length + less.length === 0) return [];
      const told = [
        ...(more.length === 0 ? [] : [`now asks for ${listed(more)}`]),
        ...(less.length === 0 ? [] : [`no longer asks for ${listed(less)}`]),
      ];
      return [
        changeIn(before, after, {
          kind: 'step-changed',
          level: 'work',
          rank: 50,
          sentence: `${capital(name)} ${told.join(' and ')}.`,
          from: listed(less) || null,
          to: listed(more) || null,
          ...places,
        }),
      ];
    }
    const what = NAMES[key] ?? key;
    return [
      changeIn(before, after, {
        kind: key === 'skill' ? 'step-changed' : 'words',
        level: 'words',
        rank: key === 'skill' ? 15 : 40,
        sentence:
          key === 'skill'
            ? `${capital(name)} is for ${to ?? 'nobody in particular'} instead of ${from ?? 'nobody in particular'}.`
            : `${capital(what)} of ${name} ${becameInWords(from, to)}.`,
        from,
        to,
        ...places,
      }),
    ];
  });
}

const toolsIn = (shown: string | null): string[] =>
  shown === null ? [] : shown.split(', ').map((one) => one.trim());
