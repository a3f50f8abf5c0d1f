import { describe, expect, it } from 'vitest';
import { kitproof } from './program';
import { FILES } from './reporters/support';

const check = (...words: string[]) => kitproof(['check', 'guides', ...words], { files: FILES });

describe('several forms of one report', () => {
  it('each goes into its file, and one to the screen', async () => {
    const { out, files, status } = await check(
      '--format',
      'text',
      '--format',
      'sarif=reports/k.sarif',
      '--format=junit=k.xml',
    );
    expect(status).toBe(1);
    expect(out).toContain('2 errors in 2 files');
    expect(JSON.parse(files.get('/shop/reports/k.sarif')!).version).toBe('2.1.0');
    expect(files.get('/shop/k.xml')).toMatch(/^<\?xml /);
  });

  it('a file that is there is written anew', async () => {
    const { files } = await kitproof(['check', 'guides', '--format', 'json=r.json'], {
      files: { ...FILES, 'r.json': 'old' },
    });
    expect(JSON.parse(files.get('/shop/r.json')!).version).toBe(1);
  });

  it('alone in a file nothing is printed', async () => {
    expect((await check('--format', 'markdown=summary.md')).out).toBe('');
  });

  it.each([
    [['--format', 'yaml'], 'takes text, json, sarif, junit, github, markdown; "yaml" is none'],
    [['--format', 'sarif='], 'names no file'],
    [['--format', 'text', '--format', 'json'], 'Only one form can go to the screen'],
    [['--format', 'json=a', '--format', 'sarif=a'], 'to one file'],
  ])('%s is told to be wrong', async (words, sentence) => {
    const { status, err } = await check(...words);
    expect(status).toBe(2);
    expect(err).toContain(sentence);
  });

  it('a folder in the place of a file is told in a line', async () => {
    const { status, err } = await check('--format', 'json=guides');
    expect(status).toBe(3);
    expect(err).toContain('guides is a folder');
  });
});
