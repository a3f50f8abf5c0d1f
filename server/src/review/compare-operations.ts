/** What is done otherwise within a step. */

import { listed } from '../findings/words';
import type { Model } from '../model/model';
import { nameOfStep, type OperationAccount, type StepAccount } from './account';
import { type Change, capital, changeIn } from './change';
import { staying } from './least-moves';
import { insteadOf, qualifierChange, sidesInWords } from './qualifier-changes';
import { extentOf } from './variants-told';

/** Operations that only one of two steps has; later it is seen whether they went to, or came from, another step. */
export interface Loose {
  readonly step: StepAccount;
  /** The step of the other version. */
  readonly other: StepAccount | null;
  readonly operation: OperationAccount;
}

export interface ComparedOperations {
  readonly changes: readonly Change[];
  readonly removed: readonly Loose[];
  readonly added: readonly Loose[];
}

interface Pair {
  readonly old: OperationAccount;
  readonly now: OperationAccount;
}

export function compareOperations(before: StepAccount, after: StepAccount, later: Model): ComparedOperations {
  const { pairs, removed, added } = matched(before.operations, after.operations);
  const changes = joined(pairs.flatMap((pair) => changesOf(pair, before, after, later)));
  const order = orderOf(pairs, before, after);
  return {
    changes: order === null ? changes : [...changes, order],
    removed: removed.map((operation) => ({ step: before, other: after, operation })),
    added: added.map((operation) => ({ step: after, other: before, operation })),
  };
}

/** Same verb on the same thing; of several those that say the same, then in order. What is left over by its thing alone is no pair. */
function matched(before: readonly OperationAccount[], after: readonly OperationAccount[]) {
  const pairs: Pair[] = [];
  let old = [...before];
  let now = [...after];
  for (const key of [wholeKey, sidedKey, plainKey]) {
    const waiting = new Map<string, OperationAccount[]>();
    for (const one of now) waiting.set(key(one), [...(waiting.get(key(one)) ?? []), one]);
    old = old.filter((one) => {
      const other = waiting.get(key(one))?.shift();
      if (other === undefined) return true;
      pairs.push({ old: one, now: other });
      return false;
    });
    now = [...waiting.values()].flat();
  }
  const places = new Map(after.map((one, index) => [one, index]));
  const byPlace = (a: OperationAccount, b: OperationAccount) => places.get(a)! - places.get(b)!;
  pairs.sort((a, b) => byPlace(a.now, b.now));
  return { pairs, removed: old, added: now.sort(byPlace) };
}

export const plainKey = ({ verb, item }: OperationAccount): string => `${verb} ${item}`;
export const sidedKey = (one: OperationAccount): string =>
  `${plainKey(one)} ${one.sides} ${one.condition.written}`;
const wholeKey = (one: OperationAccount): string =>
  [
    sidedKey(one),
    one.aids.join(', '),
    one.figures?.key ?? '',
    ...[...one.qualifiers].map(([key, { key: value }]) => `${key}: ${value}`).sort(),
  ].join('\n');

/** A change of one operation, before those of a list are told as one. */
interface Raw extends Omit<Change, 'sentence'> {
  readonly verb: string;
  readonly item: string;
  /** The sentence for one or several things. */
  readonly sentence: (items: string) => string;
}

function changesOf({ old, now }: Pair, before: StepAccount, after: StepAccount, later: Model): Raw[] {
  const found: Raw[] = [];
  const { verb, item, weight } = now;
  const where = nameOfStep(after);
  const add = (
    told: Pick<Raw, 'kind' | 'level' | 'rank' | 'sentence'> & Partial<Omit<Change, 'sentence'>>,
  ): void => {
    const { sentence, ...rest } = told;
    const variants = now.condition.variants.words;
    const place = { before: old.place, after: now.place, variants };
    found.push({
      ...changeIn(before, after, { ...rest, sentence: '', ...place, ...pick(rest) }),
      sentence,
      verb,
      item,
    });
  };
  const dangerous = weight.holds || weight.lifts;
  const graded = { level: dangerous || (weight.secures && weight.vital) ? 'first' : 'work' } as const;
  if (old.figures?.key !== now.figures?.key) {
    const [from, to] = [old.figures?.shown ?? null, now.figures?.shown ?? null];
    add({
      kind: 'torque',
      level: 'first',
      rank: weight.vital ? 20 : 24,
      from,
      to,
      sentence: (items) =>
        from === null
          ? `${capital(where)} now says a figure of its own for ${items}, ${to}; before, that of the data held.`
          : to === null
            ? `${capital(where)} no longer says ${from} for ${items}: the figure of the data holds.`
            : `${capital(where)} tightens ${items} to ${to} instead of ${from}${directionOf(old, now)}.`,
    });
  }
  if (old.aids.join(', ') !== now.aids.join(', ')) {
    const [from, to] = [listed(old.aids), listed(now.aids)];
    add({
      kind: 'aid',
      ...graded,
      rank: dangerous ? 22 : 40,
      from: from || null,
      to: to || null,
      sentence: (items) =>
        insteadOf(
          where,
          `${verb} ${items}`,
          to === '' ? '' : `with ${to}`,
          from === '' ? '' : `with ${from}`,
        ),
    });
  }
  const extent =
    old.condition.written === now.condition.written
      ? 'same'
      : extentOf(old.condition.variants, now.condition.variants, later);
  if (extent !== 'same') {
    const [from, to] = [old.condition.variants.words ?? 'always', now.condition.variants.words ?? 'always'];
    add({
      kind: 'condition',
      level: extent === 'more' && !dangerous ? 'work' : graded.level,
      rank: 30,
      from,
      to,
      variants: null,
      sentence: (items) => `${capital(where)} now says to ${verb} ${items} ${to}; before, ${from}.`,
    });
  }
  if (old.side !== now.side && old.sides !== now.sides) {
    const [from, to] = [sidesInWords(old.sides), sidesInWords(now.sides)];
    add({
      kind: 'side',
      level: now.sides.length < old.sides.length ? graded.level : 'work',
      rank: 28,
      from,
      to,
      sentence: (items) => `${capital(where)} now says to ${verb} ${items} ${to}; before, ${from}.`,
    });
  }
  for (const key of [...new Set([...old.qualifiers.keys(), ...now.qualifiers.keys()])].sort()) {
    const [was, is] = [old.qualifiers.get(key), now.qualifiers.get(key)];
    if (was?.key === is?.key || (key === 'stages' && old.figures?.key !== now.figures?.key && was && is))
      continue;
    add({
      ...qualifierChange(key, was, is, verb, where, dangerous),
      before: was?.place ?? old.place,
      after: is?.place ?? now.place,
    });
  }
  return found;
}

/** What `changeIn` does not take for granted. */
const pick = ({ before, after, variants }: Partial<Change>): Partial<Change> => ({
  ...(before === undefined ? {} : { before }),
  ...(after === undefined ? {} : { after }),
  ...(variants === undefined ? {} : { variants }),
});

/** `, 5 N·m more`, where both are one figure. */
function directionOf(old: OperationAccount, now: OperationAccount): string {
  const [a, b] = [old.figures?.only, now.figures?.only];
  if (a === null || b === null || a === undefined || b === undefined) return '';
  const percent = Math.round(((b.nominal - a.nominal) / a.nominal) * 100);
  if (!Number.isFinite(percent) || percent === 0) return '';
  return `, ${Math.abs(percent)} % ${percent > 0 ? 'more' : 'less'}`;
}

/** Changes that differ only in the thing they are of are told as one. */
function joined(raw: readonly Raw[]): Change[] {
  const groups = new Map<string, Raw[]>();
  for (const one of raw) {
    const key = one.sentence('…');
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].map((group) => {
    const { sentence, verb: _verb, item: _item, ...rest } = group[0]!;
    const rank = Math.min(...group.map((one) => one.rank));
    return { ...rest, rank, sentence: sentence(listed([...new Set(group.map(({ item }) => item))])) };
  });
}

/** That the operations of a step come in another order. */
function orderOf(pairs: readonly Pair[], before: StepAccount, after: StepAccount): Change | null {
  const places = new Map(after.operations.map((one, index) => [one, index]));
  const old = before.operations.flatMap((one) => pairs.find((pair) => pair.old === one) ?? []);
  const order = old.map(({ now }) => places.get(now)!);
  const still = staying(order);
  if (still.size === old.length) return null;
  const moved = old.filter((_, index) => !still.has(index));
  const first = moved[0]!.now;
  const next = after.operations[places.get(first)! + 1];
  const previous = after.operations[places.get(first)! - 1];
  const where =
    next !== undefined
      ? `before ${next.words}`
      : previous !== undefined
        ? `after ${previous.words}`
        : 'elsewhere';
  const others = moved.length === 1 ? '' : ` (and ${moved.length - 1} more in another order)`;
  const dangerous = old.some(({ now }) => now.weight.holds || now.weight.lifts);
  return changeIn(before, after, {
    kind: 'order',
    level: dangerous ? 'first' : 'work',
    rank: dangerous ? 34 : 30,
    sentence: `In ${nameOfStep(after)}, ${first.words} now comes ${where}${others}.`,
    before: moved[0]!.old.place,
    after: first.place,
  });
}
