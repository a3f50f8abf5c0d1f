import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { kitproof } from './program';

let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'kitproof-shells-'));
  for (const shell of ['bash', 'zsh', 'fish']) {
    const { status, out } = await kitproof(['completion', shell]);
    expect(status).toBe(0);
    writeFileSync(join(folder, shell), out);
  }
  mkdirSync(join(folder, 'guides'));
  writeFileSync(join(folder, 'guides/lift.install.yaml'), '');
  writeFileSync(join(folder, 'old.sarif'), '');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (shell: string, words: readonly string[], input = '') =>
  spawnSync(shell, words, {
    cwd: folder,
    encoding: 'utf8',
    input,
    timeout: 60_000,
    env: { ...process.env, TERM: 'dumb' },
  });
const isThere = (shell: string): boolean => run(shell, ['--version']).status === 0;
/** A shell that this machine lacks is told of, and not tested. */
const within = (shell: string) => {
  const there = isThere(shell);
  if (!there) console.warn(`THIS MACHINE LACKS ${shell}, so its completion is not tested.`);
  return describe.skipIf(!there);
};

const COMMANDS = 'calc check compare completion guide help init labour lists review rules server trace'.split(
  ' ',
);
const CALCULATORS = 'convert hole hose lift spanner thread torque trackbar tyre wrench'.split(' ');

within('bash')('in bash', () => {
  /** What stands to choose from, of words as bash parts them. */
  function offered(...words: string[]): string[] {
    const script = `source ./bash
COMP_WORDS=("$@"); COMP_CWORD=$(( $# - 1 ))
_kitproof
printf '%s\\n' "\${COMPREPLY[@]}"`;
    const { stdout, stderr } = run('bash', [
      '--noprofile',
      '--norc',
      '-c',
      script,
      'bash',
      'kitproof',
      ...words,
    ]);
    expect(stderr).toBe('');
    return stdout.split('\n').filter(Boolean).sort();
  }

  it('commands, parts and options', () => {
    expect(offered('')).toEqual(expect.arrayContaining(COMMANDS));
    expect(offered('c')).toEqual(['calc', 'check', 'compare', 'completion']);
    expect(offered('help', 'ch')).toEqual(['check']);
    expect(offered('check', '--s')).toEqual(['--shard', '--since', '--stdin-name']);
    expect(offered('check', 'guides', '--wa')).toEqual(['--waived', '--watch']);
    expect(offered('calc', '')).toEqual(CALCULATORS);
    expect(offered('calc', 'hole', 'M10', '--')).toEqual(['--color', '--format', '--help', '--size']);
    expect(offered('rules', 'list', '--')).toEqual(['--color', '--format', '--help']);
    expect(offered('completion', '')).toEqual(['bash', 'fish', 'zsh']);
  });

  it('what options take, behind a space and behind a sign', () => {
    const severities = ['error', 'info', 'never', 'warning'];
    expect(offered('check', '--fail-on', '')).toEqual(severities);
    expect(offered('check', '--fail-on', '=')).toEqual(severities);
    expect(offered('check', '--fail-on', '=', 'w')).toEqual(['warning']);
    expect(offered('labour', '--format', 'c')).toEqual(['csv']);
    expect(offered('guide', '--paper', '')).toEqual(['a4', 'letter']);
  });

  it('nothing of its own where a file may stand, so that the shell gives files', () => {
    expect(offered('check', '')).toEqual([]);
    expect(offered('check', '--baseline', '')).toEqual([]);
    expect(offered('labour', 'gui')).toEqual([]);
    expect(readFileSync(join(folder, 'bash'), 'utf8')).toContain(
      'complete -o bashdefault -o default -F _kitproof kitproof',
    );
  });
});

within('fish')('in fish', () => {
  const offered = (line: string): string[] => {
    const { stdout, stderr } = run('fish', ['--no-config', '-c', `source ./fish; complete -C '${line}'`]);
    expect(stderr).toBe('');
    return stdout
      .split('\n')
      .flatMap((one) => one.split('\t')[0] || [])
      .sort();
  };

  it('commands, parts, options and what they take', () => {
    expect(offered('kitproof ')).toEqual(COMMANDS);
    expect(offered('kitproof check --fa')).toEqual(['--fail-on']);
    expect(offered('kitproof check --fail-on ')).toEqual(['error', 'info', 'never', 'warning']);
    expect(offered('kitproof check --fail-on=')).toEqual(expect.arrayContaining(['--fail-on=error']));
    expect(offered('kitproof calc ')).toEqual(CALCULATORS);
    expect(offered('kitproof calc hole M10 --s')).toEqual(['--size']);
    expect(offered('kitproof labour --s')).toEqual([]);
    expect(offered('kitproof help tr')).toEqual(['trace']);
  });

  it('files where a file may stand', () => {
    expect(offered('kitproof check guides/l')).toEqual(['guides/lift.install.yaml']);
    expect(offered('kitproof check --baseline o')).toEqual(expect.arrayContaining(['old.sarif']));
  });

  it('says what each does', () => {
    const { stdout } = run('fish', [
      '--no-config',
      '-c',
      'source ./fish; complete -C "kitproof check --wat"',
    ]);
    expect(stdout).toBe('--watch\tcheck again whenever a file changes\n');
  });
});

within('zsh')('in zsh', () => {
  /** What a line is once the key for completion was pressed, in a shell at a terminal of its own. */
  function completedLines(...lines: string[]): string[] {
    const script = `
zmodload zsh/zpty
zpty z zsh -f -i
zpty -w z "autoload -Uz compinit; compinit -D -u; source ./zsh; setopt no_list_beep; zstyle ':completion:*' menu no"
zpty -w z 'show() { print -r -- "$BUFFER" >> ./lines; BUFFER=; zle redisplay }; zle -N show; bindkey "^X" show; print re''ady'
zpty -r z seen '*ready*'
for line in "$@"; do zpty -w -n z "$line"$'\\t\\x18'; done
count=0
while (( $(wc -l < ./lines) < $# && count++ < 100 )); do sleep 0.1; done
zpty -d z
`;
    writeFileSync(join(folder, 'lines'), '');
    const { stderr } = run('zsh', ['-f', '-c', script, 'zsh', ...lines]);
    expect(stderr).toBe('');
    return readFileSync(join(folder, 'lines'), 'utf8')
      .split('\n')
      .slice(0, -1)
      .map((line) => line.trimEnd());
  }

  it('commands, parts, options, what they take, and files', () => {
    expect(
      completedLines(
        'kitproof lab',
        'kitproof help tr',
        'kitproof check --fa',
        'kitproof check --fail-on=w',
        'kitproof check --fail-on w',
        'kitproof check --wat',
        'kitproof calc sp',
        'kitproof calc hole M10 --si',
        'kitproof check gui',
        'kitproof check --baseline o',
      ),
    ).toEqual([
      'kitproof labour',
      'kitproof help trace',
      'kitproof check --fail-on=',
      'kitproof check --fail-on=warning',
      'kitproof check --fail-on warning',
      'kitproof check --watch',
      'kitproof calc spanner',
      'kitproof calc hole M10 --size=',
      'kitproof check guides/',
      'kitproof check --baseline old.sarif',
    ]);
  });
});

it.each([
  [['completion'], 'goes on with bash, zsh or fish.'],
  [['completion', 'tcsh'], '"tcsh" is none.'],
  [['completion', 'bash', 'zsh'], '"bash zsh" is none.'],
])('%j is told to be wrong', async (words, sentence) => {
  const { status, err } = await kitproof(words);
  expect(status).toBe(2);
  expect(err).toContain(sentence);
});
