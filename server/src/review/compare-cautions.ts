/** Cautions that came, went, or say something else. */

import { type CautionAccount, nameOfStep, type StepAccount } from './account';
import { type Change, capital, changeIn } from './change';

/** From the least to the most that it warns of. */
const SIGNALS = ['notice', 'caution', 'warning', 'danger'];

/** A caution that only one of two steps has. */
export interface LooseCaution {
  readonly step: StepAccount;
  readonly other: StepAccount | null;
  readonly caution: CautionAccount;
}

export interface ComparedCautions {
  readonly changes: readonly Change[];
  readonly removed: readonly LooseCaution[];
  readonly added: readonly LooseCaution[];
}

export function compareCautions(before: StepAccount, after: StepAccount): ComparedCautions {
  let old = [...before.cautions];
  let now = [...after.cautions];
  const pairs: [CautionAccount, CautionAccount][] = [];
  const same: readonly ((a: CautionAccount, b: CautionAccount) => boolean)[] = [
    (a, b) => textKey(a) === textKey(b) && a.signal === b.signal,
    (a, b) => textKey(a) === textKey(b),
    alike,
  ];
  for (const test of same) {
    for (const one of old) {
      const other = now.find((candidate) => test(one, candidate));
      if (other === undefined) continue;
      pairs.push([one, other]);
      old = old.filter((left) => left !== one);
      now = now.filter((left) => left !== other);
    }
  }
  return {
    changes: pairs.flatMap(([one, other]) => changesOf(one, other, before, after)),
    removed: old.map((caution) => ({ step: before, other: after, caution })),
    added: now.map((caution) => ({ step: after, other: before, caution })),
  };
}

const textKey = ({ text }: CautionAccount): string => text.split(/\s+/).join(' ');

/** A third of the longer words is the same. */
function alike(a: CautionAccount, b: CautionAccount): boolean {
  const [one, other] = [wordsIn(a), wordsIn(b)];
  const both = [...one].filter((word) => other.has(word)).length;
  return both * 3 >= Math.max(1, Math.min(one.size, other.size));
}

const wordsIn = ({ text }: CautionAccount): Set<string> =>
  new Set(
    text
      .toLowerCase()
      .split(/[^\p{L}\p{N}]+/u)
      .filter((word) => word.length > 3),
  );

function changesOf(
  old: CautionAccount,
  now: CautionAccount,
  before: StepAccount,
  after: StepAccount,
): Change[] {
  const found: Change[] = [];
  const places = { before: old.place, after: now.place };
  const where = nameOfStep(after);
  const weaker = SIGNALS.indexOf(now.signal) < SIGNALS.indexOf(old.signal);
  if (old.signal !== now.signal)
    found.push(
      changeIn(before, after, {
        kind: 'caution-changed',
        level: weaker ? 'first' : 'work',
        rank: weaker ? 14 : 60,
        sentence: `The caution of ${where} is ${weaker ? 'weaker' : 'stronger'}: ${now.signal.toUpperCase()} instead of ${old.signal.toUpperCase()}.`,
        from: old.signal.toUpperCase(),
        to: now.signal.toUpperCase(),
        ...places,
      }),
    );
  // What warns of injury is read before what warns of damage.
  const grave = SIGNALS.indexOf(now.signal) >= SIGNALS.indexOf('warning');
  if (textKey(old) !== textKey(now))
    found.push(
      changeIn(before, after, {
        kind: 'caution-changed',
        level: grave ? 'first' : 'work',
        rank: grave ? 34 : 62,
        sentence: `The caution of ${where} reads otherwise.`,
        from: old.text,
        to: now.text,
        ...places,
      }),
    );
  const claimed = now.covers.filter((rule) => !old.covers.includes(rule));
  const unclaimed = old.covers.filter((rule) => !now.covers.includes(rule));
  if (claimed.length > 0)
    found.push(
      changeIn(before, after, {
        kind: 'caution-changed',
        level: 'first',
        rank: 13,
        sentence: `The caution of ${where} now says that it answers ${claimed.join(', ')}, so that nothing more is told of that there.`,
        ...places,
      }),
    );
  if (unclaimed.length > 0)
    found.push(
      changeIn(before, after, {
        kind: 'caution-changed',
        level: 'work',
        rank: 64,
        sentence: `The caution of ${where} no longer says that it answers ${unclaimed.join(', ')}.`,
        ...places,
      }),
    );
  return found;
}

/** Cautions that are left over: those that went to another step are no loss. */
export function looseCautions(removed: readonly LooseCaution[], added: readonly LooseCaution[]): Change[] {
  const found: Change[] = [];
  let left = [...added];
  for (const { step, other, caution } of removed) {
    const moved = left.find(
      (one) => textKey(one.caution) === textKey(caution) && one.caution.signal === caution.signal,
    );
    left = left.filter((one) => one !== moved);
    const seriousness = SIGNALS.indexOf(caution.signal);
    if (moved !== undefined) {
      found.push(
        changeIn(step, moved.step, {
          kind: 'caution-changed',
          level: 'work',
          rank: 61,
          sentence: `The caution of ${nameOfStep(step)} now stands at ${nameOfStep(moved.step)}.`,
          to: moved.caution.text,
          before: caution.place,
          after: moved.caution.place,
        }),
      );
      continue;
    }
    // With a step that is gone its caution goes; that is told with the step.
    if (other === null) continue;
    found.push(
      changeIn(step, other, {
        kind: 'caution-removed',
        level: 'first',
        rank: 15 - seriousness,
        sentence: `${capital(nameOfStep(other))} has lost its caution (${caution.signal.toUpperCase()}).`,
        from: caution.text,
        before: caution.place,
      }),
    );
  }
  for (const { step, other, caution } of left) {
    if (other === null) continue;
    found.push(
      changeIn(other, step, {
        kind: 'caution-added',
        level: 'work',
        rank: 60,
        sentence: `${capital(nameOfStep(step))} has a new caution (${caution.signal.toUpperCase()}).`,
        to: caution.text,
        after: caution.place,
      }),
    );
  }
  return found;
}
