import { describe, expect, it } from 'vitest';
import { CLEAN, VEHICLE } from './moorhen';
import { kitproof } from './program';

describe('files that are not ours', () => {
  const files = {
    'a/x.install.yaml': 'title: The key was forgotten\n',
    'a/compose.yaml': 'services: 1\n',
    'g.yaml': CLEAN,
    'm.vehicle.yaml': VEHICLE,
  };
  it('are told of where they are named so, or named one by one; the rest is checked all the same', async () => {
    const note = (path: string) =>
      `kitproof: ${path} has no key "kitproof", so it is no document of ours; a document begins with a line such as "kitproof: install/1".\n`;
    const all = await kitproof(['check'], { files });
    // A guide that lost its first line must not go unseen in a build, whatever is written.
    expect(all).toMatchObject({ status: 3, err: note('a/x.install.yaml') });
    expect(all.out).toContain('in 2 files');
    for (const path of ['a/compose.yaml', 'a/x.install.yaml']) {
      expect(await kitproof(['check', path], { files })).toEqual({
        status: 3,
        out: '',
        err: note(path),
        files: expect.anything(),
      });
    }
    const found = await kitproof(['check', 'g.yaml', 'a/compose.yaml'], { files });
    expect(found).toMatchObject({ status: 0, err: note('a/compose.yaml') });
    const asked = await kitproof(['check', 'g.yaml', 'a/x.install.yaml'], { files });
    expect(asked).toMatchObject({ status: 3, err: note('a/x.install.yaml') });
    expect(found.out).toContain('in 1 file');
  });

  it.each([
    ['.', '--format', 'text', '--format', 'sarif=k.sarif', '--fail-on', 'never'],
    ['**/*.yaml'],
    ['a', 'g.yaml', '--shard', '1/1', '--format', 'json'],
  ])('fail a check of %s', async (...words) => {
    const { status, err } = await kitproof(['check', ...words], { files });
    expect(status).toBe(3);
    expect(err).toContain('a/x.install.yaml has no key');
  });

  it('leave no step that could be checked, so no cover is met', async () => {
    const { status, err } = await kitproof(['check', '--require-cover', '95'], {
      files: { 'm.vehicle.yaml': VEHICLE },
    });
    expect(status).toBe(1);
    expect(err).toBe('kitproof: 0 of 0 steps could be checked; --require-cover asks for 95 %.\n');
  });

  it.each([
    ['e.kit.yaml', '', 'e.kit.yaml is empty; a document begins with a line such as "kitproof: kit/1".'],
    ['photo.jpg', 'JFIF\0\u0001', 'photo.jpg is no text;'],
    ['notes.md', 'Take the wheels off: all of them.\n', 'notes.md has no key "kitproof"'],
  ])('%s is told in one line', async (name, text, sentence) => {
    const { status, out, err } = await kitproof(['check', name], { files: { [name]: text } });
    expect({ status, out }).toEqual({ status: 3, out: '' });
    expect(err.split('\n').filter(Boolean)).toHaveLength(1);
    expect(err).toContain(sentence);
  });

  it.each(['', 'Some prose.\n', 'title: X\n'])('%j on standard input likewise', async (input) => {
    const { status, out, err } = await kitproof(['check', '-', '--format', 'json'], { input });
    expect({ status, out }).toEqual({ status: 3, out: '' });
    expect(err).toContain('kitproof: Standard input ');
    expect(err.split('\n').filter(Boolean)).toHaveLength(1);
  });

  it('others in folders are left alone', async () => {
    const { status, err } = await kitproof(['check', 'b'], {
      files: { 'b/compose.yaml': 'services: 1\n', 'b/g.yaml': CLEAN, 'b/m.vehicle.yaml': VEHICLE },
    });
    expect({ status, err }).toEqual({ status: 0, err: '' });
  });

  it('alone in a folder are nothing to check', async () => {
    const { status, err } = await kitproof(['check', 'a'], { files });
    expect(status).toBe(3);
    expect(err).toContain('a/x.install.yaml has no key');
    expect((await kitproof(['check', 'c'], { files: { 'c/compose.yaml': 'services: 1\n' } })).err).toContain(
      'There is nothing to check in c',
    );
  });
});

describe('the first key', () => {
  const body = 'title: G\nsections:\n  - title: S\n    steps:\n      - do: [{ check: front-wheel.nut }]\n';
  it.each([
    '---\nkitproof: install/1\n',
    '\uFEFF---\n# Ours\n\nkitproof: install/1\n',
    '# Ours\n\n--- # here\nkitproof: install/1\n',
    '%YAML 1.2\n---\nkitproof: install/1\n',
    '---\r\n\r\nkitproof: install/1\r\n',
  ])('%j begins a document of ours', async (head) => {
    const { status, out } = await kitproof(['check', 'g.yaml'], { files: { 'g.yaml': head + body } });
    expect(status).toBe(0);
    expect(out).toContain('Steps checked: 1 of 1');
  });

  it.each([
    ['kitprof: install/1\n', 1],
    ['---\n# c\nKitproof: install/1\n', 3],
    ['\uFEFF\nkit-proof: "kit/1"\n', 2],
    ['KITPROOF : vehicle/2\n', 1],
    ['{ kitproff: install/1 }\n# ', 1],
  ])('%j is ours, misspelt', async (head, line) => {
    for (const words of [['g.yaml'], ['.']]) {
      const { status, out } = await kitproof(['check', '--format', 'json', ...words], {
        files: { 'g.yaml': head + (head.startsWith('{') ? '' : body) },
      });
      expect(status).toBe(1);
      expect(JSON.parse(out).findings).toMatchObject([
        {
          rule: 'unknown-key',
          line,
          message: expect.stringContaining('did you mean kitproof?'),
          fixes: [{ title: 'Write "kitproof"' }],
        },
      ]);
    }
  });

  it.each([
    'kitprof: yes\n',
    'waterproof: install/1\n',
    'title: X\nkitprof: install/1\n',
    'Kitproof is a tool.\n',
  ])('%j is not ours', async (text) => {
    expect((await kitproof(['check', '.'], { files: { 'g.yaml': text } })).err).toContain('nothing to check');
  });
});
