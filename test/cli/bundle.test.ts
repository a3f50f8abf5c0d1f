import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/** The program as it is shipped: bundled, and run by Node alone. */
let folder: string;
let program: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'kitproof-'));
  // A script without types, so it is loaded by its path.
  const script = pathToFileURL(join(import.meta.dirname, '../../esbuild.mjs')).href;
  const { bundle } = (await import(script)) as { bundle(folder: string): Promise<string> };
  program = await bundle(join(folder, 'dist'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

function kitproof(words: string[], options: { input?: string; env?: Record<string, string> } = {}) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
    cwd: folder,
    encoding: 'utf8',
    input: options.input ?? '',
    env: { ...process.env, ...options.env },
  });
  return { status, stdout, stderr };
}

describe('the bundled program', () => {
  it('can be run', () => {
    expect(readFileSync(program, 'utf8').startsWith('#!/usr/bin/env node\n')).toBe(true);
    if (process.platform !== 'win32') expect(statSync(program).mode & 0o111).toBe(0o111);
    const { version } = JSON.parse(readFileSync(join(import.meta.dirname, '../../package.json'), 'utf8'));
    expect(kitproof(['--version'])).toEqual({ status: 0, stdout: `${version}\n`, stderr: '' });
  });

  it('writes, checks, totals and traces on a disk', () => {
    expect(kitproof(['init', 'kit']).status).toBe(0);
    expect(kitproof(['init', 'kit'])).toMatchObject({ status: 3, stdout: '' });
    for (const path of ['kit', 'kit/*.yaml', 'kit/rear-shocks.install.yaml']) {
      const checked = kitproof(['check', path, '--fail-on', 'info']);
      expect(checked).toMatchObject({ status: 0, stderr: '' });
      expect(checked.stdout).toContain('Steps checked: 6 of 6');
    }
    expect(kitproof(['labour', 'kit/rear-shocks.install.yaml']).stdout).toContain('0.7 h');
    expect(kitproof(['trace', 'kit/rear-shocks.install.yaml', '--at', '2.3']).stdout).toContain(
      'nothing open',
    );
  });

  it.skipIf(process.platform === 'win32')(
    'writes to a pipe or a device, and never puts a file in its place',
    () => {
      const pipe = join(folder, 'pipe');
      const wrote = join(folder, 'wrote.json');
      kitproof(['init', 'piped']);
      const line = `mkfifo "${pipe}" && (cat "${pipe}" > "${wrote}" & "$0" "$1" check piped --format json="${pipe}" && wait)`;
      const { status, stderr } = spawnSync('sh', ['-c', line, process.execPath, program], {
        cwd: folder,
        encoding: 'utf8',
      });
      expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
      expect(statSync(pipe).isFIFO()).toBe(true);
      expect(JSON.parse(readFileSync(wrote, 'utf8'))).toMatchObject({ findings: [] });
    },
  );

  it('carries the examples of its rules in a file that nothing but explaining and testing rules reads', () => {
    expect(kitproof(['rules', 'explain', 'left-loose']).stdout).toContain('- { loosen: bracket.bolt }');
    const beside = join(folder, 'dist/packs.js');
    renameSync(beside, `${beside}.gone`);
    expect(kitproof(['init', 'lean']).status).toBe(0);
    expect(kitproof(['check', 'lean'])).toMatchObject({ status: 0, stderr: '' });
    expect(kitproof(['rules', 'list']).status).toBe(0);
    renameSync(`${beside}.gone`, beside);
  });

  it('reads standard input', () => {
    const { status, stdout } = kitproof(
      ['check', '-', '--stdin-name', 'kit/x.install.yaml', '--format', 'json'],
      {
        input: 'kitproof: install/1\ntitle: X\nvehicle: gone.yaml\nsections: []\n',
      },
    );
    expect(status).toBe(1);
    expect(JSON.parse(stdout).findings[0]).toMatchObject({
      file: 'kit/x.install.yaml',
      line: 3,
      rule: 'missing-file',
    });
  });

  it('says the same on every run, byte for byte', () => {
    writeFileSync(
      join(folder, 'a.install.yaml'),
      'kitproof: install/1\ntitle: A\nsections:\n  - title: S\n    steps:\n      - do: [{ raise: vehicle }]\n',
    );
    const once = kitproof(['check', 'a.install.yaml']);
    expect(once.status).toBe(0);
    expect(once.stdout).toContain('left-raised');
    expect(kitproof(['check', 'a.install.yaml'])).toEqual(once);
  });
});
