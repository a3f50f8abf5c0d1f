import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { kitproof } from './program';
import { FILES, GUIDE } from './reporters/support';

const folder = join(import.meta.dirname, '../../samples');
const SAMPLES: Record<string, string> = {};
for (const path of readdirSync(folder, { recursive: true, encoding: 'utf8' }))
  if (/^(?!faulty).*[.]yaml$|^faulty.(?:[a-h].*install|[^/]*kit|.*vehicle|kit-for.*)[.]yaml$/.test(path))
    SAMPLES[path.replaceAll('\\', '/')] = readFileSync(join(folder, path), 'utf8');

/** Checks every shard, and gives what each printed with its report. */
async function shards(of: number, files: Readonly<Record<string, string>>, ...words: string[]) {
  const reports: Record<string, string> = {};
  const ran = [];
  for (let number = 1; number <= of; number++) {
    const shard = ['--shard', `${number}/${of}`, '--format', `json=${number}.json`, '--format', 'text'];
    const one = await kitproof(['check', '.', ...shard, ...words], { files });
    reports[`${number}.json`] = one.files.get(`/shop/${number}.json`)!;
    ran.push(one);
  }
  return { reports, ran };
}

const FORMATS = ['json', 'sarif', 'junit', 'github', 'markdown'];

describe('shards', () => {
  it('together tell what one check of all tells, byte for byte, in every form', async () => {
    const { reports } = await shards(5, SAMPLES);
    const asked = ['--undecided', '--waived', '--require-cover', '99.9', '--format', 'text'];
    for (const format of FORMATS) asked.push('--format', `${format}=whole.${format}`);
    const files = { ...SAMPLES, ...reports };
    const merged = await kitproof(['check', '--merge', ...Object.keys(reports), ...asked], { files });
    const whole = await kitproof(['check', '.', ...asked], { files: SAMPLES });
    for (const format of FORMATS) {
      const name = `/shop/whole.${format}`;
      expect(merged.files.get(name), format).toBe(whole.files.get(name));
    }
    expect(merged.err).toBe(whole.err);
    expect(merged.out).toBe(whole.out);
    expect(merged.status).toBe(whole.status);
    const records = Object.values(reports).map((report) => JSON.parse(report).shard);
    const steps = records.map((record) => record.steps);
    expect(Math.max(...steps)).toBeLessThan(2 * Math.min(...steps));
    const sum = records.reduce((all, record) => all + record.files, 0);
    expect(sum).toBe(Object.keys(SAMPLES).length);
  });

  it('may be more than there are files', async () => {
    const { reports, ran } = await shards(3, FILES);
    expect(ran.map(({ status }) => status).sort()).toEqual([0, 0, 1]);
    expect(ran.map(({ out }) => /Shard.*/.exec(out)?.[0])).toEqual([
      'Shard 1 of 3: 1 of 2 files.',
      'Shard 2 of 3: 1 of 2 files.',
      'Shard 3 of 3: 0 of 2 files.',
    ]);
    const merged = await kitproof(['check', '--merge', '*.json'], { files: { ...FILES, ...reports } });
    expect(merged.out).toBe((await kitproof(['check', '.'], { files: FILES })).out);
  });

  it('merge with a baseline as one check does', async () => {
    const old = (await kitproof(['check', '.', '--format', 'json'], { files: FILES })).out;
    const files = {
      ...FILES,
      'guides/b.install.yaml': GUIDE.replace(
        '- snug: brackett\n',
        '- snug: brackett\n          - snug: brackettt\n',
      ),
      'old.json': old,
    };
    const { reports } = await shards(2, files);
    const merged = await kitproof(['check', '--merge', '1.json', '2.json', '--baseline', 'old.json'], {
      files: { ...files, ...reports },
    });
    expect(merged.out).toBe((await kitproof(['check', '.', '--baseline', 'old.json'], { files })).out);
    const before = await shards(2, files, '--baseline', 'old.json');
    const later = await kitproof(['check', '--merge', '1.json', '2.json'], {
      files: { ...files, ...before.reports },
    });
    expect(later.out).toBe(merged.out);
  });

  it('have their number in SARIF and JUnit', async () => {
    const { out } = await kitproof(['check', '.', '--shard', '2/3', '--format', 'sarif'], { files: FILES });
    const sarif = JSON.parse(out);
    expect(sarif.runs[0].automationDetails.id).toBe('kitproof/shard-2-of-3/');
    const suites = async (shard: string) => {
      const { out } = await kitproof(['check', '.', '--shard', shard, '--format', 'junit'], { files: FILES });
      expect(out).toContain(`<testsuites name="kitproof ${shard}"`);
      return [...out.matchAll(/<testsuite name="([^"]*)"/g)].map(([, name]) => name);
    };
    // The vehicle is told of where the guide is that leads to it.
    expect(await suites('1/3')).toEqual(['guides/b.install.yaml', 'guides/moorhen.vehicle.yaml']);
    expect(await suites('2/3')).toEqual(['kitproof']);
  });
});

describe('what cannot be merged is told in a line', () => {
  const merge = async (files: Readonly<Record<string, string>>, ...names: string[]) => {
    const { status, out, err } = await kitproof(['check', '--merge', ...names], {
      files: { ...FILES, ...files },
    });
    expect([status, out]).toEqual([3, '']);
    expect(err.split('\n').filter(Boolean)).toHaveLength(1);
    return err;
  };

  it('a shard that is missing, or there twice', async () => {
    const { reports } = await shards(3, FILES);
    expect(await merge(reports, '1.json', '3.json')).toContain('The report of shard 2 of 3 is missing.');
    expect(await merge({ ...reports, 'b.json': reports['1.json']! }, '*.json')).toContain(
      'There are two reports of shard 1 of 3.',
    );
  });

  it('shards of different checks', async () => {
    const { reports } = await shards(2, FILES);
    const other = await shards(2, { ...FILES, 'guides/c.install.yaml': GUIDE });
    const files = { '1.json': reports['1.json']!, '2.json': other.reports['2.json']! };
    expect(await merge(files, '1.json', '2.json')).toContain('of different checks');
  });

  it('documents that are not as they were', async () => {
    const { reports } = await shards(2, FILES);
    const files = { ...reports, 'guides/b.install.yaml': `${GUIDE}# later\n` };
    expect(await merge(files, '1.json', '2.json')).toContain(
      'guides/b.install.yaml is not here as it was checked',
    );
  });

  it.each([
    ['{', 'is no report'],
    ['{"version": 1, "findings": []}', 'is no report'],
    ['null', 'is no report'],
    ['{"shard": {"number": 1, "of": 1, "program": "9.9.9", "documents": {}, "whole": {}}}', 'Kitproof 9.9.9'],
  ])('%s', async (text, sentence) => {
    expect(await merge({ 'r.json': text }, 'r.json')).toContain(sentence);
  });
});

it.each([
  [['--shard', '0/3'], '--shard takes a share'],
  [['--shard', '4/3'], '--shard takes a share'],
  [['--shard', 'two'], '--shard takes a share'],
  [['--shard', '1/2', '--fix'], '--fix changes files'],
  [['--merge'], '--merge takes the reports'],
  [['--merge', '1.json', '--shard', '1/2'], '--merge takes reports of shards'],
])('%j is told to be wrong', async (words, sentence) => {
  const { status, err } = await kitproof(['check', ...words], { files: FILES });
  expect(status).toBe(2);
  expect(err).toContain(sentence);
});
