import { describe, expect, test } from 'vitest';
import { guideOf, KIT, VEHICLE } from '../guide/printed';
import { kitproof } from './program';

const files = {
  'moorhen.vehicle.yaml': VEHICLE,
  'upland.kit.yaml': KIT,
  'lift.install.yaml': guideOf('- { text: Nuts., do: [{ torque: front-wheel.nut }] }'),
};
const run = (...words: string[]) => kitproof(['lists', 'lift.install.yaml', ...words], { files });

describe('kitproof lists', () => {
  test('prints all lists for people', async () => {
    const { status, out } = await run();
    expect(status).toBe(0);
    for (const title of ['In the box', 'Hardware', 'Tools', 'Consumables', 'Torques', 'Checks and readings'])
      expect(out).toContain(title);
    expect(out).toMatch(/Front wheel, nut +130 +96 +1\.1\n +left, right · bolts: 2 × 5 · M14x1\.5/);
  });

  test('prints one list for spreadsheets', async () => {
    const { out } = await run('--list', 'torque', '--format', 'csv');
    expect(out.split('\r\n')).toEqual([
      'id,joint,sides,bolts,thread,class,spanner,newton-metres,pound-feet,how,ride-height,when,step',
      'front-wheel.nut,"Front wheel, nut","left, right",2 × 5,M14x1.5,,21 mm,130,96,,,,1.1',
      '',
    ]);
  });

  test('prints lists for programs, with null for what a row does not have', async () => {
    const { out } = await run(
      '--list',
      'parts',
      '--list',
      'tools',
      '--format',
      'json',
      '--variant',
      'lockers=none',
    );
    const { lists, variant, guide } = JSON.parse(out);
    expect({ guide, variant, names: Object.keys(lists) }).toEqual({
      guide: 'Upland kit',
      variant: { lockers: 'none' },
      names: ['parts', 'tools'],
    });
    expect(lists.parts).toEqual([
      {
        id: 'front-shock-50',
        part: 'Front shock 50',
        quantity: 2,
        handed: null,
        replaces: 'front shock',
        mass: '4.5 kg',
        when: null,
      },
    ]);
  });

  test('writes files', async () => {
    const { files: after } = await run(
      '--list',
      'tools',
      '--format',
      'csv=tools.csv',
      '--format',
      'markdown=tools.md',
    );
    expect(after.get('/shop/tools.csv')).toContain('21 mm');
    expect(after.get('/shop/tools.md')).toContain('# Tools');
  });

  test.each([
    [['--format', 'csv'], 'CSV holds one list'],
    [['--list', 'tool'], 'did you mean tools?'],
  ])('refuses %j', async (words, why) => {
    const { status, err } = await run(...(words as string[]));
    expect(status).toBe(2);
    expect(err).toContain(why);
  });
});
