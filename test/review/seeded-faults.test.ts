/** Edits as writers make them by mistake: each is seen, in its step, and seen backwards where the versions change places. */

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ChangeKind } from '../../server/src/review/change';
import type { ComparedGuide } from '../../server/src/review/report';
import { comparedGuide } from '../../server/src/workspace/compare';
import { mutantsOf } from '../faults/mutants';
import { readFolders, readStandardPacks, samplesIn } from '../faults/samples';
import { version } from './read';

const ROOT = join(import.meta.dirname, '../..');
const packs = readStandardPacks(ROOT);
const samples = readFolders(join(ROOT, 'samples')).flatMap(samplesIn);

/** What a change is called where the versions change places. */
const BACKWARDS: Partial<Record<ChangeKind, ChangeKind>> = {
  'finding-new': 'finding-gone',
  'finding-gone': 'finding-new',
  'step-added': 'step-removed',
  'step-removed': 'step-added',
  'operation-added': 'operation-removed',
  'operation-removed': 'operation-added',
  'caution-added': 'caution-removed',
  'caution-removed': 'caution-added',
};

const kindsOf = ({ changes }: ComparedGuide) => changes.map(({ kind }) => kind).sort();

describe.each(['wren-air', 'wren-common'])('the edits of %s', (name) => {
  const sample = samples.find(({ guide }) => guide === `${name}.install.yaml`)!;
  const { texts, documents } = sample.folder;

  it('are seen, in the step they were made in, and backwards from the other side', async () => {
    const before = await version(texts, sample.guide);
    expect(comparedGuide(before, await version(texts, sample.guide), '/shop').changes).toEqual([]);
    const mutants = mutantsOf(sample, 23, 1, [...packs, ...Object.values(documents)]);
    expect(mutants.length).toBeGreaterThan(5);
    for (const { kind, where, says, text } of mutants) {
      const after = await version({ ...texts, [sample.guide]: text }, sample.guide);
      const there = comparedGuide(before, after, '/shop');
      const back = comparedGuide(after, before, '/shop');
      const named = there.changes.some(
        ({ step, sentence }) =>
          step?.id === where || step?.number === where || sentence.includes(`"${where}"`),
      );
      expect([kind, where, says, named]).toEqual([kind, where, says, true]);
      const mirrored = kindsOf(back).map((one) => BACKWARDS[one] ?? one);
      expect([kind, where, says, mirrored.sort()]).toEqual([kind, where, says, kindsOf(there)]);
    }
  }, 60_000);
});
