import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { diskFiles } from '../../server/src/workspace/disk';
import { type TestRepository, testRepository } from '../support/repository';
import { kitproof } from './program';

const guide = (title: string, head: string, steps = '[{ wait: vehicle, for: paint }]') =>
  `kitproof: install/1\ntitle: ${title}\n${head}sections:\n  - title: S\n    id: s\n    steps:\n      - do: ${steps}\n`;
const USE = '[{ use: { guide: c.install.yaml, section: s } }]';

const FILES = {
  'kitproof.yaml': 'kitproof: config/1\npacks: [house.rules.yaml]\ntimes: [house.times.yaml]\n',
  'house.rules.yaml': 'kitproof: rules/1\nname: House\n',
  'house.times.yaml': 'kitproof: times/1\ntimes: []\n',
  'a.install.yaml': guide('A', 'vehicle: m.vehicle.yaml\nkit: k.kit.yaml\n'),
  'b.install.yaml': guide('B', 'vehicle: m.vehicle.yaml\n'),
  'c.install.yaml': guide('C', ''),
  'd.install.yaml': guide('D', '', USE),
  'e.install.yaml': guide('E', 'follows: c.install.yaml\n'),
  'f.install.yaml': guide('F', 'kit: gone.kit.yaml\n'),
  'm.vehicle.yaml': 'kitproof: vehicle/1\nname: Moorhen\n',
  'k.kit.yaml': 'kitproof: kit/1\nname: K\n',
  'lone/k.kit.yaml': 'kitproof: kit/1\nname: L\n',
  'lone/m.vehicle.yaml': 'kitproof: vehicle/1\nname: Wren\n',
  'note.txt': 'n\n',
};

let repository: TestRepository;
beforeEach(() => {
  repository = testRepository();
  repository.commit(FILES);
});
afterEach(() => repository.remove());

async function since(revision: string, ...words: string[]) {
  const io = { files: diskFiles, folder: repository.root };
  const paths = words.some((word) => !word.startsWith('-')) ? words : ['.', ...words];
  return kitproof(['check', ...paths, '--since', revision, '--fail-on', 'never'], { io });
}

/** Which files are checked after some changes, without their endings. */
async function checked(changes: Readonly<Record<string, string | null>>): Promise<string[]> {
  repository.write(changes);
  const { out, err } = await since('HEAD', '--shard=1/1', '--format=json');
  expect(err).toBe('');
  const { summary, shard } = JSON.parse(out);
  expect(summary.since).toBe('HEAD');
  expect(shard.whole.since.of).toBeGreaterThan(10);
  // A clean suite for each document that was read, as JUnit has it, would tell of more: these are what was asked.
  const { out: text } = await since('HEAD');
  const [, count] = /depending on what did: (\d+) of/.exec(text) ?? [];
  expect(Number(count ?? 0)).toBe(shard.files);
  return Object.entries(shard.documents as Record<string, { judged: boolean }>)
    .filter(([path]) => path.includes('install'))
    .map(([path]) => path.replace('.install.yaml', ''))
    .sort();
}

describe('since a revision', () => {
  it('nothing is checked where nothing changed', async () => {
    const { out, status } = await since('HEAD');
    expect(status).toBe(0);
    expect(out).toContain('Nothing here changed since HEAD, and nothing that depends on what did.');
  });

  const other = (text: string) => `${text}# Another line.\n`;
  it.each<[string, Record<string, string | null>, string[]]>([
    ['a guide', { 'b.install.yaml': other(FILES['b.install.yaml']) }, ['b']],
    [
      'a guide that others use and follow',
      { 'c.install.yaml': other(FILES['c.install.yaml']) },
      ['c', 'd', 'e'],
    ],
    ['a vehicle', { 'm.vehicle.yaml': other(FILES['m.vehicle.yaml']) }, ['a', 'b']],
    ['a kit', { 'k.kit.yaml': other(FILES['k.kit.yaml']) }, ['a']],
    ['a kit that is gone, and still named', { 'k.kit.yaml': null }, ['a', 'f']],
    ['a kit that came, where it was missing', { 'gone.kit.yaml': FILES['k.kit.yaml'] }, ['f']],
    ['a file beside one that is missing', { 'gon.kit.yaml': FILES['k.kit.yaml'] }, ['f']],
    ['a rule pack', { 'house.rules.yaml': other(FILES['house.rules.yaml']) }, ['a', 'b', 'c', 'd', 'e', 'f']],
    ['the times', { 'house.times.yaml': other(FILES['house.times.yaml']) }, ['a', 'b', 'c', 'd', 'e', 'f']],
    ['the settings', { 'kitproof.yaml': other(FILES['kitproof.yaml']) }, ['a', 'b', 'c', 'd', 'e', 'f']],
    ['settings that are gone', { 'kitproof.yaml': null }, ['a', 'b', 'c', 'd', 'e', 'f']],
    ['something else', { 'note.txt': 'changed', 'new.txt': 'n' }, []],
    ['a new guide', { 'new.install.yaml': guide('N', '') }, ['f', 'new']],
  ])('%s', async (_, changes, guides) => {
    expect(await checked(changes)).toEqual(guides);
  });

  it('a kit by itself depends on the vehicles beside it', async () => {
    repository.write({ 'lone/m.vehicle.yaml': other(FILES['lone/m.vehicle.yaml']) });
    expect((await since('HEAD', 'lone')).out).toContain('2 of 2 files');
    repository.write({ 'lone/m.vehicle.yaml': null });
    expect((await since('HEAD', 'lone')).out).toContain('1 of 1 file.');
  });

  it('what was committed since counts, and a guide that was renamed', async () => {
    repository.git('mv', 'c.install.yaml', 'cc.install.yaml');
    repository.commit({});
    const { out } = await since('HEAD~1');
    expect(out).toContain('Changed since HEAD~1, or depending on what did: 4 of 13 files.');
    expect(out).toContain('e.install.yaml:3:10');
  });

  it('goes with a baseline, with shards and with forms', async () => {
    const io = { files: diskFiles, folder: repository.root };
    const broken = guide('B', 'vehicle: m.vehicle.yaml\n', '[{ wiat: vehicle }]');
    repository.write({
      'b.install.yaml': broken,
      'old.json': (await kitproof(['check', '--format', 'json'], { io })).out,
    });
    const words = ['check', '.', '--since', 'main', '--baseline', 'old.json', '--format', 'json'];
    const shards: Record<string, string> = {};
    for (const shard of ['1', '2']) {
      const { out, status } = await kitproof([...words, '--shard', `${shard}/2`, '--fail-on', 'never'], {
        io,
      });
      expect(status).toBe(0);
      shards[`${shard}.json`] = out;
    }
    repository.write(shards);
    const merged = await kitproof(['check', '--merge', '1.json', '2.json', '--format', 'json'], { io });
    const whole = await kitproof(words, { io });
    expect(JSON.parse(merged.out)).toEqual(JSON.parse(whole.out));
    expect([merged.status, whole.status]).toEqual([1, 1]);
    expect(JSON.parse(whole.out).findings.map(({ file }: { file: string }) => file)).toEqual([
      'b.install.yaml',
    ]);
  });

  it('before the first commit all is new', async () => {
    const { root, remove, write } = testRepository();
    write(FILES);
    const { out } = await kitproof(['check', '--since', 'HEAD'], { io: { files: diskFiles, folder: root } });
    expect(out).toContain('depending on what did: 13 of 13 files.');
    remove();
  });

  it('standard input counts as changed', async () => {
    const io = { files: diskFiles, folder: repository.root };
    const words = ['check', '-', '--stdin-name', 'b.install.yaml', '--since', 'HEAD'];
    const { out } = await kitproof(words, { io, input: FILES['b.install.yaml'] });
    expect(out).toContain('1 of 1 file.');
  });

  it.each([
    ['nowhere', 'There is no revision "nowhere" in this repository.'],
    ['-x', 'is no revision'],
  ])('%s is told to be no revision', async (revision, sentence) => {
    const io = { files: diskFiles, folder: repository.root };
    const { status, err } = await kitproof(['check', `--since=${revision}`], { io });
    expect(status).toBe(3);
    expect(err).toContain(sentence);
    expect(err.split('\n').filter(Boolean)).toHaveLength(1);
  });
});
