/** Steps that are new, gone, elsewhere, or not as they were. */

import { listed } from '../findings/words';
import type { Model } from '../model/model';
import { type GuideAccount, nameOfStep, type OperationAccount, type StepAccount } from './account';
import { type Change, capital, change, changeIn } from './change';
import { type ComparedCautions, compareCautions, looseCautions } from './compare-cautions';
import {
  type ComparedOperations,
  compareOperations,
  type Loose,
  plainKey,
  sidedKey,
} from './compare-operations';
import { compareStepItself } from './compare-step-itself';
import type { Matching } from './matching';
import { movesOf } from './moves';

export function compareSteps(
  before: GuideAccount,
  after: GuideAccount,
  matching: Matching,
  later: Model,
): Change[] {
  const found: Change[] = movesOf(before, after, matching);
  const operations: ComparedOperations[] = [];
  const cautions: ComparedCautions[] = [];
  for (const pair of matching.pairs) {
    operations.push(compareOperations(pair.before, pair.after, later));
    cautions.push(compareCautions(pair.before, pair.after));
    found.push(...compareStepItself(pair.before, pair.after, later));
  }
  const removed: Loose[] = [
    ...operations.flatMap((one) => one.removed),
    ...matching.removed.flatMap((step) =>
      step.operations.map((operation) => ({ step, other: null, operation })),
    ),
  ];
  const added: Loose[] = [
    ...operations.flatMap((one) => one.added),
    ...matching.added.flatMap((step) =>
      step.operations.map((operation) => ({ step, other: null, operation })),
    ),
  ];
  const moved = movedOperations(removed, added);
  const replaced = replacedOperations(removed, added, moved);
  const exchanged = new Set(replaced.flatMap(({ old, now }) => [old, now]));
  const left = (one: Loose) => !exchanged.has(one);
  found.push(
    ...operations.flatMap((one) => one.changes),
    ...cautions.flatMap((one) => one.changes),
    ...looseCautions(
      [
        ...cautions.flatMap((one) => one.removed),
        ...matching.removed.flatMap((step) =>
          step.cautions.map((caution) => ({ step, other: null, caution })),
        ),
      ],
      [
        ...cautions.flatMap((one) => one.added),
        ...matching.added.flatMap((step) => step.cautions.map((caution) => ({ step, other: null, caution }))),
      ],
    ),
    ...matching.removed.map((step) => removedStep(step, moved.from)),
    ...matching.added.map((step) => addedStep(step, moved.to)),
    ...withinSteps(removed.filter(left), moved.from, 'removed'),
    ...withinSteps(added.filter(left), moved.to, 'added'),
    ...replaced.map(({ old, now }) => replacedBy(old, now)),
    ...moved.pairs.flatMap(({ old, now }) => movedBetween(old, now)),
  );
  return found;
}

interface Moved {
  readonly pairs: readonly { readonly old: Loose; readonly now: Loose }[];
  /** Where an operation that a step lost is now, and where one that it has was. */
  readonly from: ReadonlyMap<OperationAccount, Loose>;
  readonly to: ReadonlyMap<OperationAccount, Loose>;
}

/** An operation that one step lost and another has is moved. */
function movedOperations(removed: readonly Loose[], added: readonly Loose[]): Moved {
  const pairs: { old: Loose; now: Loose }[] = [];
  const from = new Map<OperationAccount, Loose>();
  const to = new Map<OperationAccount, Loose>();
  for (const key of [sidedKey, plainKey]) {
    const waiting = new Map<string, Loose[]>();
    for (const one of added)
      if (!to.has(one.operation))
        waiting.set(key(one.operation), [...(waiting.get(key(one.operation)) ?? []), one]);
    for (const old of removed) {
      if (from.has(old.operation)) continue;
      const now = waiting.get(key(old.operation))?.shift();
      if (now === undefined) continue;
      pairs.push({ old, now });
      from.set(old.operation, now);
      to.set(now.operation, old);
    }
  }
  return { pairs, from, to };
}

/** In a step that is in both versions one operation stands for another: the same verb on another thing, or another verb on the same. */
function replacedOperations(removed: readonly Loose[], added: readonly Loose[], moved: Moved) {
  const pairs: { old: Loose; now: Loose }[] = [];
  const taken = new Set<Loose>();
  const alike: readonly ((a: OperationAccount, b: OperationAccount) => boolean)[] = [
    (a, b) => a.item === b.item,
    (a, b) => a.verb === b.verb,
  ];
  for (const test of alike)
    for (const old of removed) {
      if (old.other === null || taken.has(old) || moved.from.has(old.operation)) continue;
      const now = added.find(
        (one) =>
          one.step === old.other &&
          !taken.has(one) &&
          !moved.to.has(one.operation) &&
          test(old.operation, one.operation),
      );
      if (now === undefined) continue;
      taken.add(old).add(now);
      pairs.push({ old, now });
    }
  return pairs;
}

function replacedBy(old: Loose, now: Loose): Change {
  return changeIn(old.step, now.step, {
    kind: 'operation-changed',
    ...lossOf([old.operation]),
    sentence: `${capital(nameOfStep(now.step))} now says to ${now.operation.words} instead of to ${old.operation.words}.`,
    variants: now.operation.condition.variants.words,
    from: old.operation.words,
    to: now.operation.words,
    before: old.operation.place,
    after: now.operation.place,
  });
}

/** How much it is that something is no longer done. */
function lossOf(operations: readonly OperationAccount[]): Pick<Change, 'level' | 'rank'> {
  if (operations.some(({ weight }) => weight.holds)) return { level: 'first', rank: 10 };
  if (operations.some(({ verb }) => verb === 'bleed')) return { level: 'first', rank: 11 };
  if (operations.some(({ weight }) => weight.secures && weight.vital)) return { level: 'first', rank: 16 };
  if (operations.some(({ weight }) => weight.lifts || weight.secures)) return { level: 'first', rank: 18 };
  return { level: 'work', rank: 10 };
}

function removedStep(step: StepAccount, moved: ReadonlyMap<OperationAccount, Loose>): Change {
  const lost = step.operations.filter((operation) => !moved.has(operation));
  const into = [...new Set(step.operations.flatMap((one) => moved.get(one)?.step ?? []))];
  const name = capital(nameOfStep(step));
  const still = into.length === 0 ? '' : `what it did is now done in ${listed(into.map(nameOfStep))}`;
  const what =
    lost.length === 0
      ? still
      : `nothing says any more to ${listed(lost.map(({ words }) => words))}${still === '' ? '' : `; the rest of ${still}`}`;
  const loss = lost.length === 0 && still !== '' ? ({ level: 'work', rank: 12 } as const) : lossOf(lost);
  const [caution] = step.cautions;
  return change({
    kind: 'step-removed',
    ...loss,
    sentence: `${name} is gone${what === '' ? '' : `: ${what}`}.`,
    variants: step.condition.variants.words,
    from:
      [step.text, ...(caution === undefined ? [] : [`${caution.signal.toUpperCase()}: ${caution.text}`])]
        .filter(Boolean)
        .join(' ') || null,
    step,
    before: step.place,
  });
}

function addedStep(step: StepAccount, moved: ReadonlyMap<OperationAccount, Loose>): Change {
  const fresh = step.operations.filter((operation) => !moved.has(operation));
  const from = [...new Set(step.operations.flatMap((one) => moved.get(one)?.step ?? []))];
  const taken = from.length === 0 ? '' : `taken out of ${listed(from.map(nameOfStep))}`;
  const what = [fresh.length === 0 ? '' : listed(fresh.map(({ words }) => words)), taken].filter(Boolean);
  const heavy = fresh.some(({ weight }) => weight.lifts || weight.holds);
  return change({
    kind: 'step-added',
    level: 'work',
    rank: heavy ? 14 : 16,
    sentence: `${capital(nameOfStep(step))} is new${what.length === 0 ? ', and has no operations' : `: ${what.join('; the rest is ')}`}.`,
    variants: step.condition.variants.words,
    to:
      [step.text, ...step.cautions.map(({ signal, text }) => `${signal.toUpperCase()}: ${text}`)]
        .filter(Boolean)
        .join(' ') || null,
    step,
    after: step.place,
  });
}

/** What a step that is in both versions does no more, or does besides, told once for each step. */
function withinSteps(
  loose: readonly Loose[],
  moved: ReadonlyMap<OperationAccount, Loose>,
  how: 'removed' | 'added',
): Change[] {
  const steps = new Map<StepAccount, Loose[]>();
  for (const one of loose) {
    if (one.other === null || moved.has(one.operation)) continue;
    steps.set(one.step, [...(steps.get(one.step) ?? []), one]);
  }
  return [...steps].map(([step, ones]) => {
    const operations = ones.map(({ operation }) => operation);
    const other = ones[0]!.other!;
    const [before, after] = how === 'removed' ? [step, other] : [other, step];
    const what = listed(operations.map(({ words }) => words));
    const place = operations[0]!.place;
    return changeIn(before, after, {
      kind: how === 'removed' ? 'operation-removed' : 'operation-added',
      ...(how === 'removed' ? lossOf(operations) : { level: 'work', rank: 15 }),
      sentence:
        how === 'removed'
          ? `${capital(nameOfStep(after))} no longer says to ${what}.`
          : `${capital(nameOfStep(after))} now also says to ${what}.`,
      variants: operations[0]!.condition.variants.words,
      ...(how === 'removed' ? { before: place } : { after: place }),
    });
  });
}

/** Work that went from a step to another, where both are in both versions; the rest is told with the step that came or went. */
function movedBetween(old: Loose, now: Loose): Change[] {
  if (old.other === null || now.other === null) return [];
  const { weight, words } = now.operation;
  const dangerous = weight.holds || weight.lifts;
  return [
    changeIn(old.step, now.step, {
      kind: 'operation-moved',
      level: dangerous ? 'first' : 'work',
      rank: dangerous ? 36 : 22,
      sentence: `${capital(words)} is now done in ${nameOfStep(now.step)} instead of ${nameOfStep(old.step)}.`,
      before: old.operation.place,
      after: now.operation.place,
      variants: now.operation.condition.variants.words,
    }),
  ];
}
