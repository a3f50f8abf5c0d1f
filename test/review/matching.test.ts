import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { OperationAccount, StepAccount } from '../../server/src/review/account';
import { matchSteps } from '../../server/src/review/matching';
import { ALL } from '../../server/src/review/variants-told';

const PLACE = { uri: '/a', span: { start: 0, end: 0 } };
const ALWAYS = { written: '', shown: '', variants: ALL };

const operation = (verb: string, item: string): OperationAccount => ({
  verb,
  item,
  words: `${verb} ${item}`,
  side: '',
  sides: 'left, right',
  condition: ALWAYS,
  aids: [],
  figures: null,
  qualifiers: new Map(),
  place: PLACE,
  path: '1.1.1',
  weight: { holds: false, secures: false, lifts: false, vital: false },
});

const step = (
  text: string,
  operations: readonly OperationAccount[],
  key: string | null = null,
): StepAccount => ({
  key,
  id: key,
  number: '1.1',
  section: 1,
  path: '1.1',
  place: PLACE,
  text,
  title: text,
  operations,
  cautions: [],
  condition: ALWAYS,
  side: '',
  sides: 'left+right',
  people: 1,
  time: null,
  optional: false,
  draft: false,
  beside: new Map(),
});

/** Steps that have nothing in common. */
const numbered = (count: number) =>
  Array.from({ length: count }, (_, index) =>
    step(`Work on thing${index} now`, [operation('remove', `thing${index}`)]),
  );

describe('steps of two versions', () => {
  it('are the same by their id, whatever became of them', () => {
    const old = [step('Take it off', [operation('remove', 'a')], 'one')];
    const now = [step('Something else', [operation('fit', 'b')], 'one')];
    expect(matchSteps(old, now).pairs).toHaveLength(1);
    expect(matchSteps(old, [{ ...now[0]!, key: 'other' }])).toMatchObject({ pairs: [], removed: old });
  });

  it('are the same by what is done, where the words are others, and by the words, where what is done is', () => {
    const [old] = numbered(1);
    expect(matchSteps([old!], [{ ...old!, text: 'Quite another sentence' }]).pairs).toHaveLength(1);
    expect(matchSteps([old!], [{ ...old!, operations: [operation('fit', 'b')] }]).pairs).toHaveLength(1);
    const more = {
      ...old!,
      text: 'Work on thing0 soon',
      operations: [...old!.operations, operation('clean', 'thing0')],
    };
    expect(matchSteps([old!], [more]).pairs).toHaveLength(1);
  });

  it('of several that read alike keep their order', () => {
    const wipe = step('Wipe it clean', [operation('clean', 'face')]);
    const [a, b] = numbered(2) as [StepAccount, StepAccount];
    const old = [{ ...wipe }, a, { ...wipe }, b];
    const { pairs, removed } = matchSteps(old, [a, { ...wipe }, b]);
    expect(removed).toEqual([old[0]]);
    expect(pairs.every(({ moved }) => !moved)).toBe(true);
  });

  it('are all found again, and as few as can be have moved', () => {
    const edits = fc.integer({ min: 0, max: 12 }).chain((count) =>
      fc.record({
        count: fc.constant(count),
        order: fc.shuffledSubarray(Array.from({ length: count }, (_, index) => index)),
      }),
    );
    fc.assert(
      fc.property(edits, ({ count, order }) => {
        const old = numbered(count);
        const now = order.map((index) => ({ ...old[index]! }));
        const { pairs, removed, added } = matchSteps(old, now);
        expect(added).toEqual([]);
        expect(removed.length).toBe(count - order.length);
        expect(pairs.every(({ before, after }) => before.text === after.text)).toBe(true);
        const stay = pairs.filter(({ moved }) => !moved).map(({ before }) => old.indexOf(before));
        expect(stay).toEqual([...stay].sort((a, b) => a - b));
        expect(stay.length).toBe(longest(order));
        // The other way round the same ones have moved.
        const back = matchSteps(now, old).pairs.filter(({ moved }) => moved);
        expect(new Set(back.map(({ before }) => before.text))).toEqual(
          new Set(pairs.filter(({ moved }) => moved).map(({ before }) => before.text)),
        );
      }),
    );
  });
});

/** The length of the longest rising run, by comparing every pair. */
function longest(order: readonly number[]): number {
  const best: number[] = [];
  order.forEach((place, index) => {
    best.push(1 + Math.max(0, ...best.filter((_, before) => before < index && order[before]! < place)));
  });
  return Math.max(0, ...best);
}
