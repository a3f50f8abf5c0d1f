import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FAMILIES } from '../../server/src/rules/rule';
import { standardCatalogue, statesTable } from '../../server/src/workspace/catalogue';
import { kitproof } from '../cli/program';

const read = (name: string) =>
  readFileSync(join(import.meta.dirname, '../../schemas', name), 'utf8').replaceAll('\r\n', '\n');

it('the catalogue is what the packs say; node server/scripts/catalogue.mjs makes it anew', async () => {
  expect(read('rules.md')).toBe(await standardCatalogue());
});

describe('the guide for rules of a house', () => {
  const guide = read('house-rules.md');
  const blocks = [...guide.matchAll(/^```yaml\n([\s\S]*?)^```/gm)].map((match) => match[1]!);
  const rules = blocks.filter((block) => block.startsWith('- id: '));
  const packs = blocks.filter((block) => block.startsWith('kitproof: rules/1'));
  const settings = blocks.filter((block) => block.startsWith('kitproof: config/1'));

  it('holds nothing in YAML that is not run here', () => {
    expect(rules.length + packs.length + settings.length).toBe(blocks.length);
    expect([rules.length, packs.length, settings.length].every((count) => count >= 2)).toBe(true);
  });

  it.each([
    ...packs,
    ...rules.map((rule) => `kitproof: rules/1\npack: shop\nrules:\n${rule.replaceAll(/^(?=.)/gm, '  ')}`),
  ])('has examples that show what they should: %s', async (pack) => {
    const files = { 'shop.rules.yaml': pack };
    const check = await kitproof(['check', 'shop.rules.yaml', '--fail-on', 'info'], { files });
    expect(check, check.out).toMatchObject({ status: 0 });
    const { status, out } = await kitproof(['rules', 'test', 'shop.rules.yaml'], { files });
    expect(out).toContain('each shows what it should.');
    expect(out).not.toContain('Without examples');
    expect(status).toBe(0);
  });

  it('has settings that are in order', async () => {
    for (const text of settings) {
      const files = {
        'kitproof.yaml': text,
        'shop.rules.yaml': packs[0]!,
        'guides/a.install.yaml': 'kitproof: install/1\ntitle: A\nsections: []\n',
      };
      const { out } = await kitproof(['check', '--format', 'json'], { files });
      expect(
        JSON.parse(out).findings.filter((one: { file: string }) => one.file === 'kitproof.yaml'),
      ).toEqual([]);
    }
  });

  it('shows what the program prints', async () => {
    const files = { 'shop.rules.yaml': packs[0]!, 'kitproof.yaml': settings[0]! };
    const shown = [...guide.matchAll(/^```\n((?:\$ .*\n)+)([\s\S]*?)^```/gm)];
    expect(shown.length).toBeGreaterThan(1);
    for (const [, commands, printed] of shown) {
      let out = '';
      for (const line of commands!.trim().split('\n')) {
        const ran = await kitproof(line.split(' ').slice(2), { files });
        if (!line.endsWith('check')) expect([line, ran.status]).toEqual([line, 0]);
        out += ran.out;
      }
      if (printed !== '') expect(out).toBe(printed);
    }
  });

  it('tells of every family, every state and every relation', () => {
    expect(guide).toContain(statesTable());
    for (const family of FAMILIES) expect(guide, family).toContain(family);
    const schema = JSON.parse(read('rules.schema.json'));
    for (const word of schema.$defs.related['x-values']) expect(guide).toContain(`| \`${word}\` |`);
    for (const key of Object.keys(schema.$defs.watch.properties)) expect(guide).toContain(`| \`${key}\` |`);
  });
});
