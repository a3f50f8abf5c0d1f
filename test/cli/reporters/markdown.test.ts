import { expect, it } from 'vitest';
import { FILES, reported, saying } from './support';

it('counts, tells the cover and lists findings in a table, the worst first', async () => {
  const { out } = await reported('markdown');
  const lines = out.split('\n');
  expect(lines[0]).toBe('## Kitproof');
  expect(lines[2]).toBe('2 errors in 2 files. Steps checked: 2 of 3 (66 %); undecided: 0; waived: 1.');
  expect(lines[6]).toBe(
    '| **error** | guides/b.install.yaml:11 | bracket.bolt never gets its final torque. Only with lockers: fitted. | left-loose |',
  );
  expect(out).toContain('It certifies nothing');
});

it('says so where nothing is found', async () => {
  const { out } = await reported('markdown', [], {
    'guides/moorhen.vehicle.yaml': FILES['guides/moorhen.vehicle.yaml'],
  });
  expect(out).toContain('No findings in 1 file.');
  expect(out).not.toContain('| --- |');
});

it('takes no word of a document as markup', async () => {
  const { out } = await reported('markdown', [], saying('<img src=x> a | b `c` [d](e) @f'));
  const row = out.split('\n').find((line) => line.includes('img'))!;
  expect(row).not.toContain('<img');
  expect(row.replaceAll('\\|', '').split('|').length).toBe(6);
  expect(row).toContain('\\[d\\]\\(e\\) &#64;f');
});
