import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { diskFiles } from '../../server/src/workspace/disk';
import { type TestRepository, testRepository } from '../support/repository';
import { kitproof } from './program';

const GUIDE = `kitproof: install/1
title: Rear shocks
id: shocks
vehicle: moorhen.vehicle.yaml
sections:
  - title: Shocks
    steps:
      - id: up
        text: Raise the vehicle.
        do: [{ raise: vehicle, with: two-post-lift }]
      - id: carried
        do: [{ support: rear-axle, with: pole-jacks }]
      - id: off
        do: [{ loosen: rear-shock.lower-bolt }, { torque: rear-shock.lower-bolt }]
      - id: jacks-out
        do: [{ unsupport: rear-axle }]
      - id: down
        do: [{ lower: vehicle }]
`;
const VEHICLE = `kitproof: vehicle/1
name: Moorhen
parts:
  rear-axle: { kind: live-axle, mass: 90 kg, drop: 180 mm, limited-by: [rear-shock] }
  rear-shock: { kind: shock, sided: true, mass: 3 kg, joins: [frame, rear-axle], joints: { lower-bolt: { torque: 85 N·m, bushed: false } } }
`;
const SECOND = GUIDE.replace('Rear shocks', 'Second guide')
  .replace('id: shocks', 'id: second')
  .replace('moorhen', 'other');
const UNSAFE = GUIDE.replace('      - id: jacks-out\n        do: [{ unsupport: rear-axle }]\n', '');

describe('compare, of two files', () => {
  const files = { 'a.install.yaml': GUIDE, 'b.install.yaml': UNSAFE, 'moorhen.vehicle.yaml': VEHICLE };

  it('tells what changed, and ends with 1 for a new error unless told otherwise', async () => {
    const { status, out, err } = await kitproof(['compare', 'a.install.yaml', 'b.install.yaml'], { files });
    expect(err).toBe('');
    expect(out).toContain('Step 1.4 "jacks-out" is gone: nothing says any more to unsupport rear-axle.');
    expect(status).toBe(1);
    const never = await kitproof(['compare', 'a.install.yaml', 'b.install.yaml', '--fail-on', 'never'], {
      files,
    });
    expect(never.status).toBe(0);
    const back = await kitproof(['compare', 'b.install.yaml', 'a.install.yaml'], { files });
    expect(back.out).toContain('Put right\n  No longer found');
    expect(back.status).toBe(0);
  });

  it('says so where nothing changed in meaning', async () => {
    const other = {
      ...files,
      'b.install.yaml': `# Another layout\n${GUIDE.replace('[{ lower: vehicle }]', '\n          - lower: vehicle')}`,
    };
    const { status, out } = await kitproof(['compare', 'a.install.yaml', 'b.install.yaml'], { files: other });
    expect(out).toContain('Nothing changed in meaning.');
    expect(out).not.toContain('What came of it');
    expect(status).toBe(0);
  });

  it('keeps to the width there is', async () => {
    const { out } = await kitproof(['compare', 'a.install.yaml', 'b.install.yaml'], {
      files,
      io: { columns: 62 },
    });
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(62);
  });

  it('refuses one file twice, one file alone, and what is not there or no guide', async () => {
    const say = async (...words: string[]) => {
      const { status, err } = await kitproof(['compare', ...words], { files });
      return `${status} ${err}`;
    };
    expect(await say('a.install.yaml', './a.install.yaml')).toMatch(
      /^2 .*are one file; there is nothing to compare/,
    );
    expect(await say('a.install.yaml')).toMatch(/^2 .*kitproof compare --from HEAD a\.install\.yaml/);
    expect(await say('a.install.yaml', 'c.install.yaml')).toMatch(
      /^3 .*Cannot read c\.install\.yaml: there is no such file\.\n$/,
    );
    expect(await say('a.install.yaml', 'moorhen.vehicle.yaml')).toMatch(
      /^3 .*moorhen\.vehicle\.yaml is no guide/,
    );
    expect(await say('main', 'HEAD')).toMatch(/^3 .*"kitproof compare --from main --to HEAD"/);
    expect(await say('main..HEAD', 'a.install.yaml')).toMatch(
      /^3 .*"kitproof compare --from main --to HEAD"/,
    );
    expect(await say('--to', 'HEAD', 'a.install.yaml')).toMatch(/^2 .*--to goes with --from/);
  });

  it('tells of an old version that cannot be read whole', async () => {
    const broken = { ...files, 'a.install.yaml': `${GUIDE}      - do: [\n` };
    const { out } = await kitproof(['compare', 'a.install.yaml', 'b.install.yaml'], { files: broken });
    expect(out).toContain('in reading the old a.install.yaml: what could not be read there is not compared.');
  });

  it('writes several forms at once, each where it goes', async () => {
    const words = [
      'compare',
      'a.install.yaml',
      'b.install.yaml',
      '--format',
      'json',
      '--format',
      'html=c.html',
      '--format',
      'markdown=c.md',
    ];
    const { out, files: after } = await kitproof(words, { files });
    const report = JSON.parse(out);
    expect(report).toMatchObject({
      version: 1,
      before: 'a.install.yaml',
      after: 'b.install.yaml',
      unchanged: 0,
    });
    expect(report.guides[0].changes[0]).toMatchObject({ level: 'first', kind: 'finding-new' });
    expect(report.guides[0].effects.findings).toMatchObject({ before: { error: 0 } });
    const page = after.get('/shop/c.html')!;
    expect(page).toMatch(/^<!doctype html>/);
    expect(page).not.toMatch(/<script|https?:|<link|<img/);
    expect(after.get('/shop/c.md')).toMatch(/^## What changed in meaning/);
  });

  it('makes no markup of what a guide says', async () => {
    const words = [
      'compare',
      'a.install.yaml',
      'b.install.yaml',
      '--format',
      'html=c.html',
      '--format',
      'markdown=c.md',
    ];
    const hostile = {
      ...files,
      'b.install.yaml': GUIDE.replace('Raise the vehicle.', '"<b>Raise</b> *it* [now](http://x)"'),
    };
    const { files: after } = await kitproof(words, { files: hostile });
    expect(after.get('/shop/c.html')).not.toContain('<b>');
    expect(after.get('/shop/c.md')).toContain('\\<b>Raise\\</b> \\*it\\* \\[now]');
  });
});

describe('compare, of two revisions', () => {
  let repository: TestRepository;
  beforeAll(() => {
    repository = testRepository();
    repository.commit({
      'guides/shocks.install.yaml': GUIDE,
      'guides/moorhen.vehicle.yaml': VEHICLE,
      'guides/second.install.yaml': SECOND,
      'guides/other.vehicle.yaml': VEHICLE,
    });
  });
  afterAll(() => repository.remove());

  const run = (...words: string[]) =>
    kitproof(['compare', ...words], { io: { files: diskFiles, folder: repository.root } });

  it('says that nothing changed where nothing did', async () => {
    expect(await run('--from', 'HEAD')).toMatchObject({
      status: 0,
      out: '2 guides compared; nothing changed in meaning in them.\n',
    });
  });

  it('compares the guides whose vehicle changed, and no others', async () => {
    repository.write({ 'guides/moorhen.vehicle.yaml': VEHICLE.replace('85 N·m', '95 N·m') });
    const { out, status } = await run('--from', 'HEAD');
    expect(out).toContain('Rear shocks  guides/shocks.install.yaml  HEAD → the files as they are');
    expect(out).toContain('step 1.3 "off" tightens by it');
    expect(out).toContain('1 other guide that was looked at: nothing changed in meaning.');
    expect(out).not.toContain('Second guide');
    expect(status).toBe(0);
    const named = await run('--from', 'HEAD', 'guides/moorhen.vehicle.yaml');
    expect(named.out).toContain('step 1.3 "off" tightens by it');
    expect((await run('--from', 'HEAD', 'guides/second.install.yaml')).out).toBe(
      '1 guide compared; nothing changed in meaning in it.\n',
    );
    repository.git('checkout', '--quiet', '.');
  });

  it('compares one commit with another, whatever the files are now', async () => {
    repository.commit({ 'guides/shocks.install.yaml': UNSAFE });
    repository.write({ 'guides/shocks.install.yaml': GUIDE });
    const { out, status } = await run('--from', 'HEAD~1', '--to', 'HEAD');
    expect(out).toContain('guides/shocks.install.yaml  HEAD~1 → HEAD');
    expect(out).toContain('Step 1.4 "jacks-out" is gone');
    expect(status).toBe(1);
    expect((await run('--from', 'HEAD~1')).out).toMatch(/^2 guides compared; nothing changed/);
    repository.git('checkout', '--quiet', '.');
  });

  it('knows a guide that was renamed by its id, and tells of one that is new or gone', async () => {
    repository.commit({
      'guides/shocks.install.yaml': null,
      'guides/rear.install.yaml': UNSAFE.replace('Raise the vehicle.', 'Raise the vehicle to chest height.'),
      'guides/second.install.yaml': null,
      'guides/third.install.yaml': SECOND.replace('id: second', 'id: third').replace('Second', 'Third'),
    });
    const { out } = await run('--from', 'HEAD~1');
    expect(out).toContain('Rear shocks  guides/shocks.install.yaml → guides/rear.install.yaml');
    expect(out).toContain(
      'New guide: Third guide (guides/third.install.yaml), 5 steps, 0 errors and 0 warnings.',
    );
    expect(out).toContain('Gone: the guide Second guide (guides/second.install.yaml), 5 steps.');
  });

  it('does not tell that nothing changed where there is no guide', async () => {
    repository.write({ 'papers/plan.yaml': 'title: Later' });
    expect(await run('--from', 'HEAD', 'papers')).toMatchObject({
      status: 3,
      out: '',
      err: expect.stringContaining('There is no guide to compare in papers, in either version'),
    });
  });

  it('tells of a revision or a path that is not there, and of a folder without a repository', async () => {
    expect(await run('--from', 'nowhere')).toMatchObject({
      status: 3,
      err: expect.stringContaining('There is no revision "nowhere"'),
    });
    expect(await run('--from', 'HEAD', 'guides/none.install.yaml')).toMatchObject({
      status: 3,
      err: expect.stringContaining('Neither version has guides/none.install.yaml.'),
    });
    const outside = await kitproof(['compare', '--from', 'HEAD'], { io: { files: diskFiles, folder: '/' } });
    expect(outside).toMatchObject({ status: 3, err: expect.stringContaining('no git repository') });
  });
});
