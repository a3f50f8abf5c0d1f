/** Which step of the one version is which of the other: by id, else by what is done and said in it. */

import { diffArrays } from 'diff';
import type { StepAccount } from './account';
import { staying } from './least-moves';

export interface Pair {
  readonly before: StepAccount;
  readonly after: StepAccount;
  /** It runs at another place among the others. */
  readonly moved: boolean;
}

export interface Matching {
  /** In the order of the later version. */
  readonly pairs: readonly Pair[];
  readonly removed: readonly StepAccount[];
  readonly added: readonly StepAccount[];
}

/** Two steps are the same one changed where at least this much of what they do and say is alike. */
const ALIKE = 0.5;

/** Matches the steps of two versions; what stands at another number is no change, what runs at another place is moved. */
export function matchSteps(before: readonly StepAccount[], after: readonly StepAccount[]): Matching {
  const found = new Map<StepAccount, StepAccount>();
  const taken = new Set<StepAccount>();
  const take = (old: StepAccount, fresh: StepAccount): void => {
    found.set(old, fresh);
    taken.add(fresh);
  };
  const byKey = new Map(after.flatMap((step) => (step.key === null ? [] : [[step.key, step] as const])));
  for (const step of before) {
    const same = step.key === null ? undefined : byKey.get(step.key);
    if (same !== undefined && !taken.has(same)) take(step, same);
  }
  for (const sameness of [wholeOf, ({ text }: StepAccount) => text, doneIn]) {
    const old = before.filter((step) => !found.has(step) && sameness(step) !== '');
    const fresh = after.filter((step) => !taken.has(step) && sameness(step) !== '');
    for (const [one, other] of inOrder(old, fresh, sameness)) take(one, other);
  }
  nearest(before, after, found, taken, take);
  const placeOf = new Map(after.map((step, index) => [step, index]));
  const matched = before.filter((step) => found.has(step));
  const order = matched.map((step) => placeOf.get(found.get(step)!)!);
  const still = staying(order, (index) => loadOf(matched[index]!));
  const pairs = matched
    .map((step, index): Pair => ({ before: step, after: found.get(step)!, moved: !still.has(index) }))
    .sort((a, b) => placeOf.get(a.after)! - placeOf.get(b.after)!);
  return {
    pairs,
    removed: before.filter((step) => !found.has(step)),
    added: after.filter((step) => !taken.has(step)),
  };
}

/** Steps that are alike in a way, those that keep their order first, then the rest one by one. */
function* inOrder(
  before: readonly StepAccount[],
  after: readonly StepAccount[],
  sameness: (step: StepAccount) => string,
): Generator<readonly [StepAccount, StepAccount]> {
  let [old, fresh] = [0, 0];
  const left: StepAccount[] = [];
  const right: StepAccount[] = [];
  for (const { value, added, removed } of diffArrays(before.map(sameness), after.map(sameness))) {
    if (removed) left.push(...before.slice(old, old + value.length));
    else if (added) right.push(...after.slice(fresh, fresh + value.length));
    else
      for (let index = 0; index < value.length; index++) yield [before[old + index]!, after[fresh + index]!];
    if (!added) old += value.length;
    if (!removed) fresh += value.length;
  }
  const waiting = new Map<string, StepAccount[]>();
  for (const step of right) waiting.set(sameness(step), [...(waiting.get(sameness(step)) ?? []), step]);
  for (const step of left) {
    const other = waiting.get(sameness(step))?.shift();
    if (other !== undefined) yield [step, other];
  }
}

/** The rest by likeness, the most alike first; of equals those that stand nearest. */
function nearest(
  before: readonly StepAccount[],
  after: readonly StepAccount[],
  found: ReadonlyMap<StepAccount, StepAccount>,
  taken: ReadonlySet<StepAccount>,
  take: (old: StepAccount, fresh: StepAccount) => void,
): void {
  const old = before.flatMap((step, index) =>
    found.has(step) ? [] : [{ step, index, parts: partsOf(step) }],
  );
  const fresh = after.flatMap((step, index) =>
    taken.has(step) ? [] : [{ step, index, parts: partsOf(step) }],
  );
  const shift = after.length / Math.max(1, before.length);
  const likely = old.flatMap((one) =>
    fresh.flatMap((other) => {
      const likeness = likenessOf(one.parts, other.parts);
      const away = Math.abs(one.index * shift - other.index);
      return likeness < ALIKE ? [] : [{ one, other, likeness, away }];
    }),
  );
  likely.sort(
    (a, b) =>
      b.likeness - a.likeness ||
      a.away - b.away ||
      a.one.index - b.one.index ||
      a.other.index - b.other.index,
  );
  const done = new Set<StepAccount>();
  for (const { one, other } of likely) {
    if (done.has(one.step) || done.has(other.step)) continue;
    done.add(one.step).add(other.step);
    take(one.step, other.step);
  }
}

interface Parts {
  readonly done: ReadonlySet<string>;
  readonly things: ReadonlySet<string>;
  readonly words: ReadonlySet<string>;
}

const partsOf = ({ operations, text }: StepAccount): Parts => ({
  done: new Set(operations.map(({ verb, item }) => `${verb} ${item}`)),
  things: new Set(operations.map(({ item }) => item)),
  words: new Set(
    text
      .toLowerCase()
      .split(/[^\p{L}\p{N}]+/u)
      .filter((word) => word.length > 3),
  ),
});

/** From 0 to 1. What is done counts more than the words; where one has no operations the words alone. */
function likenessOf(one: Parts, other: Parts): number {
  const words = shareOf(one.words, other.words);
  if (one.done.size === 0 || other.done.size === 0) return words;
  const done = (2 * shareOf(one.done, other.done) + shareOf(one.things, other.things)) / 3;
  return one.words.size === 0 || other.words.size === 0 ? done : 0.65 * done + 0.35 * words;
}

function shareOf(one: ReadonlySet<string>, other: ReadonlySet<string>): number {
  if (one.size + other.size === 0) return 0;
  let both = 0;
  for (const item of one) if (other.has(item)) both++;
  return (2 * both) / (one.size + other.size);
}

const doneIn = ({ operations }: StepAccount): string =>
  operations.map(({ verb, item, sides }) => `${verb} ${item} ${sides}`).join('; ');

const wholeOf = (step: StepAccount): string => `${step.text}\n${doneIn(step)}\n${step.condition.written}`;

/** What it costs to move a step: about one for each, so that few move; of two that changed places the one that does less. */
function loadOf(step: StepAccount): number {
  let hash = 0;
  for (const character of step.key ?? wholeOf(step)) hash = (hash * 31 + character.codePointAt(0)!) % 9973;
  // The last digits settle ties in the same way in whichever direction two versions are compared.
  return 1 + Math.min(99, step.operations.length) / 10_000 + hash / 1e10;
}
