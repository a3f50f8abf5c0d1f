import { describe, expect, it } from 'vitest';
import { describedIn } from '../../server/src/cli/completion/table';
import { commands } from '../../server/src/cli/main';
import { kitproof } from './program';

const COMMANDS = commands.map(({ name }) => name).filter((name) => name !== 'server');

describe('help', () => {
  it('lists every command, and tells all about each', async () => {
    const { status, out } = await kitproof(['--help']);
    expect(status).toBe(0);
    for (const command of COMMANDS) {
      expect(out).toContain(`\n  ${command}`);
      const one = await kitproof([command, '--help']);
      expect(one.status).toBe(0);
      expect(one.out).toContain(`kitproof ${command}`);
      expect(one.out).toContain('Examples');
      expect(one.out).toContain('Exit status');
      expect((await kitproof(['help', command])).out).toBe(one.out);
      for (const line of one.out.split('\n')) expect(line.length).toBeLessThanOrEqual(88);
    }
  });

  it.each(commands.map((command) => [command.name, command] as const))(
    'names every option of %s, and no other',
    (_, { help, options }) => {
      // Editors hand it to every server; a person has no use for it.
      const wanted = Object.keys(options).filter((name) => name !== 'clientProcessId');
      expect([...describedIn(help, options).keys()].sort()).toEqual(wanted.sort());
    },
  );

  it.each(commands.map((command) => [command.name, command] as const))(
    'of %s knows what its options take',
    async (name, { options, choices = {}, parts = [] }) => {
      for (const option of Object.keys(options)) {
        if (options[option]!.type !== 'string' || option === 'clientProcessId') continue;
        const part = parts.find((one) => one.options?.includes(option) ?? true)?.name ?? 'g.yaml';
        const { err } = await kitproof(
          [name, part, ...(part === 'lift' ? ['32 kg'] : []), `--${option}`, 'none-such'],
          {
            files: { 'g.yaml': 'kitproof: install/1\ntitle: G\nsections: []\n' },
          },
        );
        const taken = /takes ([a-z0-9, -]+); "none-such" is none of them/.exec(err)?.[1]?.split(', ');
        expect(taken ?? null, `${name} --${option}: ${err}`).toEqual(choices[option] ?? null);
      }
    },
  );

  it('prints the version', async () => {
    const { status, out } = await kitproof(['--version']);
    expect(status).toBe(0);
    expect(out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});

describe('wrong usage', () => {
  it.each([
    [['chekc'], 'did you mean check?'],
    [['guides/a.install.yaml'], 'did you mean kitproof check guides/a.install.yaml?'],
    [['--format', 'json'], 'A command comes first'],
    [['check', '--fromat', 'json'], 'did you mean --format?'],
    [['check', '--zzz'], 'There is no option --zzz.'],
    [['check', '--format', 'xml'], '--format takes text, json'],
    [['check', '--fail-on', 'danger'], '--fail-on takes error, warning, info, never'],
    [['check', '--require-cover', 'much'], '--require-cover takes a percentage'],
    [['check', '--require-cover', '101'], '--require-cover takes a percentage'],
    [['check', '--as-of', '2026-02-30'], '--as-of takes a day'],
    [['check', '--stdin-name', 'a.yaml'], '--stdin-name goes with "-"'],
    [['check', '--color', 'red'], '--color takes auto, always, never'],
    [['check', '--format'], '--format needs a value behind it.'],
    [
      ['guide', 'g.yaml', '--html', '--pdf', 'a.pdf'],
      '--html needs a value behind it, and "--pdf" looks like another',
    ],
    [['check', '--watch=yes'], '--watch stands alone; it takes no value.'],
    [['labour'], 'takes one guide'],
    [['labour', 'a', 'b'], 'takes one guide'],
    [['trace'], 'takes one guide'],
    [['trace', 'g.yaml', '--variant', 'lockers'], '--variant takes NAME=VALUE'],
    [['rules', 'explian', 'left-loose'], 'did you mean explain?'],
    [['rules', 'list', 'a', 'b'], 'takes one path'],
    [['init', 'a', 'b'], 'takes one folder'],
    [['help', 'nothing'], 'There is no command "nothing".'],
  ])('%j', async (words, sentence) => {
    const { status, out, err } = await kitproof(words, { files: { 'g.yaml': 'kitproof: install/1\n' } });
    expect(out).toBe('');
    expect(err).toContain(sentence);
    expect(err.split('\n').filter(Boolean)).toHaveLength(1);
    const own = commands.some(({ name }) => name === words[0]) ? `${words[0]} ` : '';
    expect(err).toContain(`Try kitproof ${own}--help.`);
    expect(status).toBe(2);
  });

  it('takes a word for one whatever its letters', async () => {
    const text = 'kitproof: install/1\ntitle: G\nsections: []\n';
    const files = { 'g.yaml': text };
    for (const words of [
      ['guide', 'g.yaml', '--paper', 'Letter', '--html', '-'],
      ['check', 'g.yaml', '--format', 'JSON', '--fail-on', 'Never'],
    ])
      expect(await kitproof(words, { files })).toMatchObject({ status: 0, err: '' });
  });

  it('without any word shows what there is', async () => {
    const { status, err } = await kitproof([]);
    expect(status).toBe(2);
    expect(err).toContain('kitproof COMMAND');
  });
});

describe('what cannot be read', () => {
  it.each([
    [['check', 'gone.install.yaml'], 'Cannot read gone.install.yaml: there is no such file or folder.'],
    [['check', '*.kit.yaml'], 'No file matches *.kit.yaml.'],
    [['check', 'empty'], 'There is nothing to check in empty'],
    [['labour', 'gone.yaml'], 'Cannot read gone.yaml: there is no such file.'],
    [['labour', 'empty/other.yaml'], 'empty/other.yaml is no guide'],
    [['trace', 'm.vehicle.yaml'], 'm.vehicle.yaml is no guide'],
  ])('%j', async (words, sentence) => {
    const files = { 'empty/other.yaml': 'a: b\n', 'm.vehicle.yaml': 'kitproof: vehicle/1\nname: M\n' };
    const { status, out, err } = await kitproof(words, { files });
    expect(out).toBe('');
    expect(err).toContain(sentence);
    expect(err.split('\n').filter(Boolean)).toHaveLength(1);
    expect(status).toBe(3);
  });

  it('an internal fault is one line, with its trace only when asked for', async () => {
    const io = {
      files: {
        kind: () => Promise.reject(new Error('the disk is gone\nat length')),
        read: async () => null,
        list: async () => [],
      },
    };
    const plain = await kitproof(['check', 'a.yaml'], { io });
    expect(plain.status).toBe(3);
    expect(plain.err).toBe(
      'kitproof: an internal fault: the disk is gone (set KITPROOF_DEBUG=1 to see where)\n',
    );
    const debug = await kitproof(['check', 'a.yaml'], {
      io: { ...io, environment: { KITPROOF_DEBUG: '1' } },
    });
    expect(debug.status).toBe(3);
    expect(debug.err).toContain('\n    at ');
  });
});
