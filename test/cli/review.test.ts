import { describe, expect, test } from 'vitest';
import { guideOf, KIT, VEHICLE } from '../guide/printed';
import { kitproof } from './program';

const files = {
  'moorhen.vehicle.yaml': VEHICLE,
  'upland.kit.yaml': KIT,
  'lift.install.yaml': guideOf(
    '- { text: Nuts., when: { lockers: fitted }, do: [{ loosen: front-wheel.nut }, { torque: front-wheel.nut }] }\n- { text: Look., do: [{ check: steering }] }',
  ),
};
const run = (words: string[], more = {}) =>
  kitproof(['review', 'lift.install.yaml', ...words], { files, ...more });

describe('kitproof review', () => {
  test('prints Markdown where nobody names a file', async () => {
    const { status, out } = await run([]);
    expect(status).toBe(0);
    expect(out).toContain('# Check record: Upland kit');
    expect(out).toContain('certifies nothing');
    expect(out).toContain('lift.install.yaml');
  });

  test('writes every form at once, the JSON for programs', async () => {
    const { status, files: after } = await run([
      '--html',
      'r.html',
      '--markdown',
      'r.md',
      '--json',
      'r.json',
    ]);
    expect(status).toBe(0);
    expect(after.get('/shop/r.html')).toContain('<title>Check record: Upland kit</title>');
    expect(after.get('/shop/r.md')).toContain('What only a person can judge');
    const record = JSON.parse(after.get('/shop/r.json')!);
    expect(record.caution).toContain('certifies nothing');
    expect(record.duties.find(({ rule }: { rule: string }) => rule === 'left-loose')).toMatchObject({
      variants: 'lockers: fitted',
      results: ['held'],
    });
  });

  test('is of one variant where one is said', async () => {
    const { out } = await run(['--variant', 'lockers=none']);
    expect(out).toContain('lockers: none alone');
    expect((await run(['--variant', 'lockers=lost'])).status).toBe(2);
  });

  test('has the day that waivers are held against, and refuses one that is none', async () => {
    expect((await run(['--as-of', '2026-03-14'])).out).toContain('as of 2026-03-14');
    expect((await run(['--as-of', 'soon'])).status).toBe(2);
    expect((await run(['--markdown', '-', '--json', '-'])).status).toBe(2);
  });

  test('says when no PDF can be had', async () => {
    const { status, err } = await run(['--pdf', 'r.pdf']);
    expect(status).toBe(3);
    expect(err).toContain('No PDF can be had here');
  });
});
