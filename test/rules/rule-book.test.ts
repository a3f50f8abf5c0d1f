/** The rule book is whole: everything that the trade asks of the order of work has its rules, or a reason why no guide shows it. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { exampleFiles, standardPacks } from '../oracle/example';
import { readPacks } from '../oracle/packs';
import { map, type Raw } from '../oracle/raw';
import { checkFiles } from '../support/engine';

interface Case {
  readonly rule: string;
  readonly wrong: Raw;
  readonly right: Raw;
}

interface Entry {
  readonly about: string;
  readonly rules?: readonly string[];
  readonly not?: string;
  readonly cases?: readonly Case[];
}

const book = parse(readFileSync(join(import.meta.dirname, 'rule-book.yaml'), 'utf8')) as Record<
  string,
  Entry
>;
const entries = Object.entries(book);
const known = new Set(readPacks(standardPacks()).rules.map((rule) => String(rule.id)));

async function found(rule: string, example: Raw): Promise<string[]> {
  const { files } = exampleFiles(map(example));
  const { findings } = await checkFiles(files, { rules: { [rule]: 'on' } });
  return findings.map(({ rule: id, message }) => `${id}: ${message}`);
}

describe('the rule book', () => {
  it('leaves nothing out', () => {
    const numbers = entries.map(([id]) => Number(id.slice(id.lastIndexOf('-') + 1)));
    expect(numbers).toEqual(Array.from({ length: 118 }, (_, index) => index + 1));
  });

  it('answers each with rules of the packs, or says why no guide shows it', () => {
    const missing = entries.flatMap(([id, { rules }]) =>
      (rules ?? []).filter((rule) => !known.has(rule)).map((rule) => `${id}: ${rule}`),
    );
    expect(missing).toEqual([]);
    for (const [id, { about, rules, not, cases, ...other }] of entries) {
      expect(other, id).toEqual({});
      for (const one of cases ?? []) expect(Object.keys(one), id).toEqual(['rule', 'wrong', 'right']);
      expect(about.endsWith('.'), id).toBe(true);
      expect((rules ?? []).length > 0 || (not ?? '').endsWith('.'), id).toBe(true);
    }
  });

  it('leaves few to the reader', () => {
    expect(entries.filter(([, { rules }]) => rules === undefined).map(([id]) => id)).toEqual([
      'fastener-036',
      'fastener-038',
      'brake-072',
    ]);
  });

  for (const [id, { cases }] of entries)
    (cases ?? []).forEach(({ rule, wrong, right }, index) => {
      it(`${id} ${index + 1}: ${rule} is found where it is wrong`, async () => {
        expect(book[id]!.rules).toContain(rule);
        const all = await found(rule, wrong);
        expect(all.filter((text) => text.startsWith(`${rule}:`)).length, all.join('\n')).toBeGreaterThan(0);
      });
      it(`${id} ${index + 1}: silent where it is right`, async () =>
        expect(await found(rule, right)).toEqual([]));
    });
});
