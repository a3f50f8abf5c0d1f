import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { isTop } from '../../server/src/workspace/port';
import { type Change, RevisionError, repositoryAt } from '../../server/src/workspace/revisions';
import { filesBelow } from '../../server/src/workspace/scan';
import { gitEnvironment, type TestRepository, testRepository } from '../support/repository';

let repository: TestRepository;
beforeEach(() => {
  repository = testRepository();
});
afterEach(() => repository.remove());

const at = async (written: string, folder = repository.root) =>
  (await repositoryAt(folder)).revision(written);
const refusal = async (work: Promise<unknown>): Promise<string> => {
  const error = await work.then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(RevisionError);
  return (error as Error).message.replaceAll(repository.root, 'ROOT');
};

describe('the files of a revision', () => {
  it('are those that it has, whatever the working tree has', async () => {
    repository.commit({
      'a.yaml': 'a: é\n',
      'sub/b.yaml': 'b: 1\n',
      'sub/deep/c.yml': '',
      'sub/ü x.txt': 'x',
    });
    repository.commit({ 'a.yaml': 'a: later\n', 'sub/b.yaml': null, 'new.yaml': 'n: 1\n' });
    const { root } = repository;
    const files = await (await at('HEAD~1')).files();
    expect(await files.read(`${root}/a.yaml`)).toBe('a: é\n');
    expect(await files.read(`${root}/sub/b.yaml`)).toBe('b: 1\n');
    expect(await files.read(`${root}/sub/deep/c.yml`)).toBe('');
    expect(await files.read(`${root}/sub/ü x.txt`)).toBe('x');
    for (const none of ['new.yaml', 'sub', 'sub/b.yaml/x', '../a.yaml'])
      expect(await files.read(`${root}/${none}`), none).toBeNull();
    expect(await files.kind(`${root}/a.yaml`)).toBe('file');
    expect(await files.kind(`${root}/sub/deep`)).toBe('folder');
    expect(await files.kind(root)).toBe('folder');
    expect(await files.kind(`${root}/new.yaml`)).toBeNull();
    expect(await files.list(`${root}/sub`)).toEqual([
      { name: 'b.yaml', kind: 'file' },
      { name: 'deep', kind: 'folder' },
      { name: 'ü x.txt', kind: 'file' },
    ]);
    expect(await files.list(`${root}/a.yaml`)).toEqual([]);
    expect(await filesBelow(files, root)).toEqual(
      ['a.yaml', 'sub/b.yaml', 'sub/deep/c.yml'].map((path) => `${root}/${path}`),
    );
    files.close();
  });

  it('end at the top of the repository', async () => {
    repository.commit({ 'sub/b.yaml': '' });
    const files = await (await at('HEAD')).files();
    expect(await isTop(files, repository.root)).toBe(true);
    expect(await isTop(files, `${repository.root}/sub`)).toBe(false);
  });

  it('are read many at a time, large and small, each whole', async () => {
    const text = (size: number) => `${'x: ü\n'.repeat(size)}end`;
    const sizes = [0, 1, 40_000, 3, 100_000, 7, 12_345];
    repository.commit(Object.fromEntries(sizes.map((size) => [`f${size}.yaml`, text(size)])));
    const files = await (await at('main')).files();
    const read = await Promise.all(sizes.map((size) => files.read(`${repository.root}/f${size}.yaml`)));
    expect(read.map((one) => one?.length)).toEqual(sizes.map((size) => text(size).length));
    expect(read[4]).toBe(text(100_000));
  });

  it.skipIf(process.platform === 'win32')('have links as the disk has them', async () => {
    repository.write({ 'a.yaml': 'a: 1\n', 'sub/b.yaml': '' });
    const link = (to: string, path: string) => symlinkSync(to, join(repository.root, path));
    link('../a.yaml', 'sub/link.yaml');
    link('..', 'sub/up');
    link('loop.yaml', 'loop.yaml');
    link('../../etc/hosts', 'out.yaml');
    repository.commit({});
    const { root } = repository;
    const files = await (await at('HEAD')).files();
    expect(await files.read(`${root}/sub/link.yaml`)).toBe('a: 1\n');
    expect(await files.kind(`${root}/sub/up`)).toBe('folder');
    expect(await files.read(`${root}/loop.yaml`)).toBeNull();
    expect(await files.read(`${root}/out.yaml`)).toBeNull();
    expect((await files.list(`${root}/sub`)).map(({ name }) => name)).toEqual(['b.yaml', 'link.yaml']);
  });

  it('have the same names seen from a folder below, and through a link to the repository', async () => {
    repository.commit({ 'sub/b.yaml': 'b: 1\n' });
    expect((await repositoryAt(`${repository.root}/sub`)).root).toBe(repository.root);
    const beside = mkdtempSync(join(tmpdir(), 'kitproof-link-'));
    try {
      symlinkSync(repository.root, join(beside, 'link'));
      const seen = await repositoryAt(join(beside, 'link/sub'));
      expect(seen.root).toBe(join(beside, 'link'));
      const files = await (await seen.revision('HEAD')).files();
      expect(await files.read(join(beside, 'link/sub/b.yaml'))).toBe('b: 1\n');
    } finally {
      rmSync(beside, { recursive: true });
    }
  });

  it('do not keep the program from ending', () => {
    repository.commit({ 'a.yaml': 'a: 1\n' });
    const bundle = join(repository.root, 'try.mjs');
    const module = join(import.meta.dirname, '../../server/src/workspace/revisions.ts');
    execFileSync(
      join(import.meta.dirname, '../../node_modules/.bin/esbuild'),
      [module, '--bundle', '--platform=node', '--format=esm', `--outfile=${bundle}`],
      { stdio: 'ignore' },
    );
    const script = `import { repositoryAt } from './try.mjs';
      const files = await (await (await repositoryAt('${repository.root}')).revision('HEAD')).files();
      console.log(await files.read('${repository.root}/a.yaml'));`;
    const out = execFileSync(process.execPath, ['--input-type=module', '-e', script], {
      cwd: repository.root,
      timeout: 20_000,
      encoding: 'utf8',
    });
    expect(out).toBe('a: 1\n\n');
  });
});

describe('what changed since a revision', () => {
  const changes = async (written: string, folder?: string): Promise<string[]> =>
    (await (await at(written, folder)).changes()).map(({ kind, name, before }: Change) =>
      [kind, ...(before === null ? [] : [before]), name].join(' ').replaceAll(`${repository.root}/`, ''),
    );
  const long = (word: string) => `${word}\n`.repeat(40);

  it('is all that is otherwise, committed or not, known to git or not', async () => {
    repository.commit({
      'same.yaml': 's',
      'edited.yaml': 'e',
      'committed.yaml': 'c',
      'old name.yaml': long('m'),
      'gone.yaml': 'g',
      'deep/gone.yaml': 'd',
      'unknown.yaml': 'u',
      '.gitignore': 'ignored.yaml\n',
    });
    repository.git('mv', 'old name.yaml', 'deep/ñew name.yaml');
    repository.commit({ 'committed.yaml': 'changed', 'deep/gone.yaml': null });
    repository.git('rm', '--quiet', '--cached', 'unknown.yaml');
    repository.write({
      'edited.yaml': 'changed',
      'gone.yaml': null,
      'ignored.yaml': 'i',
      'sub/untracked é.yaml': 'u',
    });
    const expected = [
      'changed committed.yaml',
      'deleted deep/gone.yaml',
      'renamed old name.yaml deep/ñew name.yaml',
      'changed edited.yaml',
      'deleted gone.yaml',
      'added sub/untracked é.yaml',
      'changed unknown.yaml',
    ];
    expect(await changes('HEAD~1')).toEqual(expected);
    expect(await changes('main~1', `${repository.root}/sub`)).toEqual(expected);
    expect(await changes('HEAD')).toEqual([
      'changed edited.yaml',
      'deleted gone.yaml',
      'added sub/untracked é.yaml',
      'changed unknown.yaml',
    ]);
  });

  it('is nothing where nothing is', async () => {
    repository.commit({ 'a.yaml': 'a' });
    expect(await changes('HEAD')).toEqual([]);
  });

  it('starts no program that the repository names', async () => {
    repository.commit({ 'a.yaml': 'a', '.gitattributes': '*.yaml diff=own\n' });
    const touched = join(repository.root, 'touched');
    for (const setting of ['core.fsmonitor', 'diff.external', 'diff.own.command', 'diff.own.textconv'])
      repository.git('config', setting, `touch ${touched}; false`);
    repository.write({ 'a.yaml': 'b' });
    expect(await changes('HEAD')).toEqual(['changed a.yaml']);
    expect(() => readFileSync(touched)).toThrow();
  });
});

describe('what is no revision is told in a line', () => {
  it('where there is none of that name', async () => {
    repository.commit({ 'a.yaml': '' });
    for (const none of ['nowhere', '0000000', 'HEAD:a.yaml', 'HEAD..HEAD', 'HEAD~7'])
      expect(await refusal(at(none)), none).toBe(`There is no revision "${none}" in this repository.`);
  });

  it('where git would take it for something else', async () => {
    repository.commit({ 'a.yaml': '' });
    for (const none of ['--output=x', '-', '', ' ', 'a\nb', 'a\0b'])
      expect(await refusal(at(none)), none).toBe(
        `"${none}" is no revision; a branch, a tag, HEAD~2 or an id is.`,
      );
  });

  it('where the repository has no commit yet', async () => {
    expect(await refusal(at('HEAD'))).toBe('This repository has no commit yet.');
  });

  it('where the clone is shallow', async () => {
    const first = repository.commit({ 'a.yaml': '1' });
    repository.commit({ 'a.yaml': '2' });
    const clone = join(repository.root, 'clone');
    execFileSync('git', ['clone', '--quiet', '--depth', '1', `file://${repository.root}`, clone], {
      env: gitEnvironment(),
    });
    expect(await refusal(at(first.slice(0, 12), clone))).toMatch(/which is shallow: .* fetch depth of 0/);
    expect((await at('HEAD', clone)).commit).toBe(repository.git('rev-parse', 'HEAD'));
  });

  it('where there is no repository, or one without a working tree', async () => {
    const beside = mkdtempSync(join(tmpdir(), 'kitproof-none-'));
    try {
      expect(await refusal(repositoryAt(beside))).toBe(
        `${beside} is in no git repository, so there are no revisions.`,
      );
      execFileSync('git', ['init', '--quiet', '--bare', beside]);
      expect(await refusal(repositoryAt(beside))).toBe(`The repository at ${beside} has no working tree.`);
    } finally {
      rmSync(beside, { recursive: true });
    }
  });

  it('where there is no git', async () => {
    const path = process.env.PATH;
    const empty = join(repository.root, 'empty');
    mkdirSync(empty);
    process.env.PATH = empty;
    try {
      expect(await refusal(repositoryAt(repository.root))).toMatch(/^git is not installed here/);
    } finally {
      process.env.PATH = path;
    }
  });

  it('where git fails meanwhile', async () => {
    repository.commit({ 'a.yaml': 'a' });
    const files = await (await at('HEAD')).files();
    rmSync(repository.root, { recursive: true });
    expect(await refusal(files.read(`${repository.root}/a.yaml`))).toMatch(/^git /);
  });
});
