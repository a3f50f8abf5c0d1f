import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { VERBS } from '../../server/src/schema/operations';

const root = join(import.meta.dirname, '../..');

it('the page of words is what the schemas and packs say; node server/scripts/words.mjs makes it anew', async () => {
  const { wordsPage } = (await import(join(root, 'server/scripts/words.mjs'))) as { wordsPage(): string };
  const page = readFileSync(join(root, 'schemas/words.md'), 'utf8').replaceAll('\r\n', '\n');
  expect(page).toBe(wordsPage());
  for (const verb of VERBS) expect(page).toContain(`\n| \`${verb}\` | `);
  for (const word of ['two-post-lift', 'coil-spring', 'split-pin']) expect(page).toContain(`| \`${word}\` |`);
});
