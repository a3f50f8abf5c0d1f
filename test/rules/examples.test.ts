/** Every rule's own examples: the bad one gets the rule, the good one nothing at all. */

import { describe, expect, it } from 'vitest';
import { rulesOf } from '../../server/src/rules/rule';
import { openDocument } from '../../server/src/schema/document';
import { exampleFiles, standardPacks } from '../oracle/example';
import { readPacks } from '../oracle/packs';
import { map, type Raw } from '../oracle/raw';
import { checkFiles } from '../support/engine';

const packs = standardPacks();
const raw = readPacks(packs).rules;
const opened = Object.entries(packs).map(([name, text]) => openDocument(name, text));
const rules = opened.flatMap((pack) => rulesOf(pack));

async function found(id: string, example: unknown) {
  const { files } = exampleFiles(map(example));
  const { findings } = await checkFiles(files, {
    rules: { [id]: 'on' },
    strictLoosening: map(example as Raw)['strict-loosening'] === true,
  });
  return findings.map(({ rule, message }) => `${rule}: ${message}`);
}

describe('the standard packs', () => {
  it('have no findings of their own', () => {
    expect(
      opened.flatMap((pack) => pack.findings.map(({ rule, message }) => `${pack.uri} ${rule}: ${message}`)),
    ).toEqual([]);
  });

  it('say for every rule what harm, why and whence, once', () => {
    const ids = rules.map((rule) => rule.id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const rule of rules) {
      expect(rule.reason.trim().endsWith('.'), rule.id).toBe(true);
      expect(rule.says.trim().endsWith('.'), rule.id).toBe(true);
      expect(rule.source.length, rule.id).toBeGreaterThan(3);
    }
  });

  it('hold thirty core rules or more, twelve of them on a published source', () => {
    const core = rules.filter((rule) => rule.core);
    expect(core.length).toBeGreaterThanOrEqual(30);
    expect(core.filter((rule) => !rule.source.startsWith('common practice')).length).toBeGreaterThanOrEqual(
      12,
    );
  });

  for (const rule of raw) {
    const id = String(rule.id);
    it(`${id}: the good example is silent`, async () => expect(await found(id, rule.good)).toEqual([]));
    it(`${id}: the bad example is found`, async () => {
      const all = await found(id, rule.bad);
      expect(all.filter((text) => text.startsWith(`${id}:`)).length, all.join('\n')).toBeGreaterThan(0);
    });
  }
});
