/** Thousands of random small projects: the engine, all variants at once, gives what the oracle gives one by one. */

import { expect, it } from 'vitest';
import { compare } from '../support/agree';
import { everyRuleOn, standardPacks } from './example';
import { randomProject } from './generate';

const packs = standardPacks();
/** Every house rule on: in one of three seeds, so that the rule language is compared on more than its own examples. */
const HOUSE = { rules: everyRuleOn(packs) };
/** More with `KITPROOF_SEEDS=5000`, others with `KITPROOF_FIRST_SEED=100000`, more variants of each with `KITPROOF_VARIANTS=1000`. */
const FIRST = Number(process.env.KITPROOF_FIRST_SEED ?? 1);
const COUNT = Number(process.env.KITPROOF_SEEDS ?? 120);
const VARIANTS = Number(process.env.KITPROOF_VARIANTS ?? 6);
const BATCH = 50;

for (let first = FIRST; first < FIRST + COUNT; first += BATCH)
  it(`seeds ${first} to ${Math.min(first + BATCH, FIRST + COUNT) - 1}`, async () => {
    for (let seed = first; seed < Math.min(first + BATCH, FIRST + COUNT); seed++) {
      const { files, guide } = randomProject(seed);
      const config = seed % 3 === 0 ? HOUSE : {};
      const { disagreements } = await compare(files, guide, packs, config, 1, VARIANTS);
      expect(disagreements, `seed ${seed}: ${JSON.stringify(disagreements, null, 1)}`).toEqual([]);
    }
  });
