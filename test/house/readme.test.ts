import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { diskFiles } from '../../server/src/workspace/disk';
import { nameOfPath } from '../../server/src/workspace/paths';
import { kitproof } from '../cli/program';

const root = join(import.meta.dirname, '../..');
const read = (name: string) => readFileSync(join(root, name), 'utf8').replaceAll('\r\n', '\n');
const readme = read('README.md');
const packageJson = JSON.parse(read('package.json'));

describe('the README', () => {
  const blocks = [...readme.matchAll(/```yaml\n([\s\S]*?)```/g)].map((match) => match[1]!);

  it('has a first guide in ten lines that reads and binds, and finds what is wrong with it', async () => {
    const guide = blocks[0]!;
    expect(guide.trim().split('\n').length).toBe(10);
    const { out } = await kitproof(['check', '--format', 'json', '--fail-on', 'never'], {
      files: { 'g.install.yaml': guide },
    });
    const { findings, summary } = JSON.parse(out);
    expect(summary.coverage).toMatchObject({ steps: 4, checkedSteps: 4 });
    expect(findings.filter((one: { harm: unknown }) => one.harm === null)).toEqual([]);
  });

  it('shows steps that read', async () => {
    const step = blocks[1]!;
    const guide = `kitproof: install/1\ntitle: G\nsections:\n  - title: S\n    steps:\n${step.replaceAll(/^(?=.)/gm, '      ')}`;
    const { out } = await kitproof(['check', '--format', 'json', '--fail-on', 'never'], {
      files: { 'g.install.yaml': guide },
    });
    const rules = JSON.parse(out).findings.map((one: { rule: string }) => one.rule);
    // No vehicle here has a trait called lift; all else reads.
    expect(rules.filter((rule: string) => rule.startsWith('unknown') && rule !== 'unknown-trait')).toEqual(
      [],
    );
    expect(rules).not.toContain('yaml-syntax');
  });

  it('names commands, scripts and files that are there', async () => {
    const { out } = await kitproof(['--help']);
    for (const [, command] of readme.matchAll(/^kitproof (\w+) /gm)) expect(out).toContain(`\n  ${command} `);
    for (const [, script] of readme.matchAll(/^npm (\w+) /gm))
      expect(packageJson.scripts).toHaveProperty(script!);
    for (const page of [readme, read('DEVELOPERS.md')]) {
      for (const [, target] of page.matchAll(/\]\(([^)#]+)\)/g))
        expect(existsSync(join(root, target!)), target).toBe(true);
      for (const [, path] of page.matchAll(/`((?:server|schemas|test|samples)\/[\w./-]+)`/g)) {
        expect(existsSync(join(root, path!)), path).toBe(true);
      }
    }
  });
});

describe('the house', () => {
  it('gives every dependency its line', () => {
    const developers = read('DEVELOPERS.md');
    const named = [...developers.matchAll(/^\| `([^`]+)` \|/gm)].map((match) => match[1]!).sort();
    const there = [
      ...Object.keys(packageJson.dependencies),
      ...Object.keys(packageJson.devDependencies),
    ].sort();
    expect(named).toEqual(there);
  });

  it('says what changed in this version', () => {
    expect(read('DEVELOPERS.md')).toContain(`### ${packageJson.version}\n`);
  });

  it('needs no install script, so none is run', () => {
    const lock = JSON.parse(read('package-lock.json'));
    const scripted = Object.entries(
      lock.packages as Record<string, { hasInstallScript?: boolean; optional?: boolean }>,
    )
      .filter(([, entry]) => entry.hasInstallScript && !entry.optional)
      .map(([path]) => path);
    // The bundler's only looks whether its program, an optional package of the platform, is there.
    // That of the packer brings a program that signs, and nothing here is signed.
    const known = ['node_modules/esbuild', 'node_modules/@vscode/vsce-sign'];
    expect(scripted.filter((path) => !known.includes(path))).toEqual([]);
  });
});

describe('npm start', () => {
  it('finds faults in folders called faulty only, whatever sample they belong to', async () => {
    const { isFaultySample } = (await import(join(root, 'server/scripts/house.mjs'))) as {
      isFaultySample(path: string): boolean;
    };
    const io = { files: diskFiles, folder: nameOfPath(root) };
    const words = ['check', 'samples', '--format', 'json', '--fail-on', 'never', '--as-of', '2026-03-14'];
    const { out } = await kitproof(words, { io });
    const files: string[] = JSON.parse(out).findings.map((one: { file: string }) => one.file);
    expect(files.filter((file) => !isFaultySample(file))).toEqual([]);
    expect(files.some((file) => !file.startsWith('samples/faulty/'))).toBe(true);
    expect(isFaultySample('samples/faulty.install.yaml')).toBe(false);
  });
});
