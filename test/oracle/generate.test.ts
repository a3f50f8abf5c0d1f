// The generator makes guides worth comparing: readable, repeatable, and neither all silent nor all wrong.
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { standardPacks } from './example.ts';
import { randomProject } from './generate.ts';
import { listVariants, runOracle } from './oracle.ts';

const packs = standardPacks();

test('the same seed gives the same project', () => {
  expect(randomProject(7)).toEqual(randomProject(7));
  expect(randomProject(7).files).not.toEqual(randomProject(8).files);
});

test('random guides are read without an error, some are silent, and together they meet most state rules', () => {
  const told = new Set<string>();
  let silent = 0;
  for (let seed = 1; seed <= 300; seed += 1) {
    const { files, guide } = randomProject(seed);
    for (const source of Object.values(files)) expect(() => parse(source)).not.toThrow();
    const variants = listVariants(files, guide);
    expect(variants.length, `seed ${seed}`).toBeGreaterThan(0);
    for (const variant of variants.slice(0, 4)) {
      const findings = runOracle(files, guide, packs, variant);
      for (const finding of findings) told.add(finding.rule);
      if (findings.length === 0) silent += 1;
    }
  }
  if (process.env.KITPROOF_SHOW) console.log(silent, [...told].sort().join(' '));
  expect(silent).toBeGreaterThan(0);
  expect(told.size).toBeGreaterThan(40);
});
