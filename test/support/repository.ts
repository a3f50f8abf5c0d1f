import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { nameOfPath } from '../../server/src/workspace/paths';

/** A git repository in a temporary folder, for tests of what reads revisions. */
export interface TestRepository {
  readonly root: string;
  /** Runs git there and gives what it prints, without the last line feed. */
  git(...words: string[]): string;
  /** Writes files by their paths; null takes one away. */
  write(files: Readonly<Record<string, string | null>>): void;
  /** Writes files and commits all there is; gives the id. */
  commit(files: Readonly<Record<string, string | null>>): string;
  remove(): void;
}

/** Makes an empty one, whatever the settings of git on this machine. */
export function testRepository(): TestRepository {
  const root = nameOfPath(realpathSync(mkdtempSync(join(tmpdir(), 'kitproof-git-'))));
  const git = (...words: string[]) =>
    execFileSync('git', words, { cwd: root, env: gitEnvironment(), encoding: 'utf8' }).replace(/\n$/, '');
  git('init', '--quiet', '--initial-branch=main');
  const write = (files: Readonly<Record<string, string | null>>) => {
    for (const [path, text] of Object.entries(files)) {
      const file = join(root, path);
      if (text === null) rmSync(file, { force: true });
      else {
        mkdirSync(dirname(file), { recursive: true });
        writeFileSync(file, text);
      }
    }
  };
  return {
    root,
    git,
    write,
    commit(files) {
      write(files);
      git('add', '--all');
      git('commit', '--quiet', '--allow-empty', '--message', 'Change');
      return git('rev-parse', 'HEAD');
    },
    remove: () => rmSync(root, { recursive: true, force: true }),
  };
}

/** An environment in which git knows an author and no settings of this machine. */
export const gitEnvironment = (): NodeJS.ProcessEnv => ({
  ...process.env,
  GIT_CONFIG_GLOBAL: '/dev/null',
  GIT_CONFIG_NOSYSTEM: '1',
  GIT_AUTHOR_NAME: 'A writer',
  GIT_AUTHOR_EMAIL: 'writer@example.org',
  GIT_COMMITTER_NAME: 'A writer',
  GIT_COMMITTER_EMAIL: 'writer@example.org',
});
