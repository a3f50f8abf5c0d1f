/** Random house rules over random projects: the engine reads the rule language as the oracle does. */

import { expect, it } from 'vitest';
import { stringify } from 'yaml';
import { compare } from '../support/agree';
import { standardPacks } from './example';
import { randomProject } from './generate';
import { seeded } from './random';
import { randomPack } from './random-rules';

const standard = standardPacks();
const FIRST = Number(process.env.KITPROOF_FIRST_SEED ?? 1);
const COUNT = Number(process.env.KITPROOF_SEEDS ?? 40);
const VARIANTS = Number(process.env.KITPROOF_VARIANTS ?? 4);

const BATCH = 10;

for (let first = FIRST; first < FIRST + COUNT; first += BATCH)
  it(`seeds ${first} to ${Math.min(first + BATCH, FIRST + COUNT) - 1}`, async () => {
    for (let seed = first; seed < Math.min(first + BATCH, FIRST + COUNT); seed++) {
      const { files, guide } = randomProject(seed);
      const house = stringify(randomPack(seeded(seed * 7919)));
      const all = {
        ...files,
        'kitproof.yaml': 'kitproof: config/1\npacks: [house.rules.yaml]\n',
        'house.rules.yaml': house,
      };
      const packs = { ...standard, 'house.rules.yaml': house };
      const { disagreements } = await compare(all, guide, packs, {}, 1, VARIANTS);
      expect(disagreements, `seed ${seed}: ${JSON.stringify(disagreements, null, 1)}\n${house}`).toEqual([]);
    }
  });
