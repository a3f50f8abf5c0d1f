/** Steps and sections that run at another place. */

import { type GuideAccount, nameOfStep, type SectionAccount, type StepAccount } from './account';
import { type Change, capital, changeIn } from './change';
import type { Matching, Pair } from './matching';

export function movesOf(before: GuideAccount, after: GuideAccount, { pairs }: Matching): Change[] {
  const oldPlace = new Map(before.steps.map((step, index) => [step, index]));
  const newPlace = new Map(after.steps.map((step, index) => [step, index]));
  const laterOf = new Map(pairs.map((pair) => [pair.before, pair.after]));
  return blocksOf(pairs, oldPlace, newPlace).map((block) => {
    const [first, last] = [block[0]!, block.at(-1)!];
    const preceding = before.steps[oldPlace.get(first.before)! - 1];
    const previous = after.steps[newPlace.get(first.after)! - 1];
    const from =
      preceding === undefined
        ? 'it was the first'
        : `it came after ${nameOfStep(laterOf.get(preceding) ?? preceding)}`;
    const to = previous === undefined ? 'the first of all' : `after ${nameOfStep(previous)}`;
    const section = wholeSection(block, before, after);
    const many = block.length > 1;
    const what =
      section !== null
        ? `the section "${section.title}" (steps ${first.after.number} to ${last.after.number})`
        : many
          ? `${nameOfStep(first.after).replace('step', 'steps')} to ${last.after.number}`
          : nameOfStep(first.after);
    const come =
      previous === undefined
        ? many && section === null
          ? 'are now'
          : 'is now'
        : many && section === null
          ? 'now come'
          : 'now comes';
    const heavy = crosses(block, pairs, oldPlace, newPlace);
    return changeIn(first.before, first.after, {
      kind: 'step-moved',
      level: heavy ? 'first' : 'work',
      rank: heavy ? 35 : 20,
      sentence: `${capital(what)} ${come} ${to}; before, ${from.replace('it ', many && section === null ? 'they ' : 'it ').replace('they was', 'they were')}.`,
    });
  });
}

/** Moved steps that stand together in both versions are one block. */
function blocksOf(
  pairs: readonly Pair[],
  oldPlace: ReadonlyMap<StepAccount, number>,
  newPlace: ReadonlyMap<StepAccount, number>,
): Pair[][] {
  const blocks: Pair[][] = [];
  for (const pair of pairs) {
    if (!pair.moved) continue;
    const last = blocks.at(-1)?.at(-1);
    const together =
      last !== undefined &&
      oldPlace.get(last.before)! + 1 === oldPlace.get(pair.before)! &&
      newPlace.get(last.after)! + 1 === newPlace.get(pair.after)!;
    if (together) blocks.at(-1)!.push(pair);
    else blocks.push([pair]);
  }
  return blocks;
}

/** The section that a block is all of, in both versions. */
function wholeSection(
  block: readonly Pair[],
  before: GuideAccount,
  after: GuideAccount,
): SectionAccount | null {
  if (block.length < 2) return null;
  const { section } = block[0]!.after;
  const old = block[0]!.before.section;
  const whole =
    after.steps.filter((step) => step.section === section).length === block.length &&
    before.steps.filter((step) => step.section === old).length === block.length &&
    block.every((pair) => pair.after.section === section && pair.before.section === old);
  return whole ? (after.sections.find(({ number }) => number === section) ?? null) : null;
}

/** Whether a block holds, lifts or secures something, or went past a step that does. */
function crosses(
  block: readonly Pair[],
  pairs: readonly Pair[],
  oldPlace: ReadonlyMap<StepAccount, number>,
  newPlace: ReadonlyMap<StepAccount, number>,
): boolean {
  const { before, after } = block[0]!;
  const heavy = ({ operations }: StepAccount) =>
    operations.some(({ weight }) => weight.holds || weight.lifts);
  const past = pairs.filter(
    (one) =>
      !block.includes(one) &&
      oldPlace.get(one.before)! < oldPlace.get(before)! !== newPlace.get(one.after)! < newPlace.get(after)!,
  );
  return block.some((pair) => heavy(pair.after)) || past.some((pair) => heavy(pair.after));
}
