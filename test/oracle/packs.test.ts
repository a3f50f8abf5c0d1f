// Every rule's own examples, read by the oracle: the bad one gets the rule, the good one nothing at all.
import { expect, test } from 'vitest';
import { exampleFiles, standardPacks } from './example.ts';
import { listVariants, type OracleFinding, runOracle } from './oracle.ts';
import { readPacks } from './packs.ts';
import { map, type Raw, text } from './raw.ts';

const packs = standardPacks();

function findings(rule: Raw, example: unknown): OracleFinding[] {
  const { files, guide } = exampleFiles(map(example));
  const config = {
    rules: { [text(rule.id) ?? '']: 'on' },
    strictLoosening: map(example)['strict-loosening'] === true,
  };
  return listVariants(files, guide).flatMap((variant) => runOracle(files, guide, packs, variant, config));
}

/** What the engine tells while it binds a guide is no matter of state: the oracle knows nothing of it (schemas/semantics.md). */
const { 'writing.rules.yaml': _, ...judged } = packs;

for (const rule of readPacks(judged).rules) {
  test(`${text(rule.id)}: good`, () => expect(findings(rule, rule.good)).toEqual([]));
  test(`${text(rule.id)}: bad`, () => {
    expect(findings(rule, rule.bad).map((finding) => finding.rule)).toContain(text(rule.id));
  });
}
