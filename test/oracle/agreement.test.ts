/** The engine, all variants at once, against the oracle, one variant at a time: on the samples and on every rule's examples. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { compare } from '../support/agree';
import { everyRuleOn, exampleFiles, standardPacks } from './example';
import { readPacks } from './packs';
import { map } from './raw';

const packs = standardPacks();
const SAMPLES = join(import.meta.dirname, '../../samples');

/** All YAML files of the samples, by path from their folder; configuration is left out, the core rules are compared. */
function samples(folder = ''): Record<string, string> {
  const files: Record<string, string> = {};
  for (const entry of readdirSync(join(SAMPLES, folder), { withFileTypes: true })) {
    const name = folder === '' ? entry.name : `${folder}/${entry.name}`;
    if (entry.isDirectory()) Object.assign(files, samples(name));
    else if (name.endsWith('.yaml') && !name.endsWith('kitproof.yaml'))
      files[name] = readFileSync(join(SAMPLES, name), 'utf8');
  }
  return files;
}

describe('the engine and the oracle agree', () => {
  const files = samples();
  // Documents with mistakes of reading or of names are the reading stations' matter, not the oracle's.
  const unread = ['duplicate-key', 'unit-missing', 'unknown-name', 'broken-reference'];
  for (const guide of Object.keys(files).filter((name) => name.endsWith('.install.yaml'))) {
    if (unread.some((name) => guide.includes(name))) continue;
    it(`${guide}, with every house rule on`, async () => {
      const { disagreements } = await compare(files, guide, packs, { rules: everyRuleOn(packs) }, 3, 8);
      expect(disagreements, JSON.stringify(disagreements, null, 1)).toEqual([]);
    });
    it(guide, async () => {
      const { disagreements, variants } = await compare(files, guide, packs);
      expect(variants).toBeGreaterThan(0);
      expect(disagreements, JSON.stringify(disagreements, null, 1)).toEqual([]);
    });
  }

  for (const rule of readPacks(packs).rules)
    for (const kind of ['good', 'bad'] as const)
      it(`${rule.id}: ${kind} example`, async () => {
        const example = map(rule[kind]);
        const { files: own, guide } = exampleFiles(example);
        const config = {
          rules: { [String(rule.id)]: 'on' },
          strictLoosening: example['strict-loosening'] === true,
        };
        const { disagreements } = await compare(own, guide, packs, config);
        expect(disagreements, JSON.stringify(disagreements, null, 1)).toEqual([]);
      });
});
