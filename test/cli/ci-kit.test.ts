import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { load } from 'js-yaml';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { gitEnvironment, type TestRepository, testRepository } from '../support/repository';
import { FILES, GUIDE } from './reporters/support';

const root = join(import.meta.dirname, '../..');
const ACTION = '.github/actions/check/action.yml';
const GOOD = GUIDE.replace('brackett', 'bracket').replace(
  '- loosen: bracket.bolt',
  '- { torque: bracket.bolt, to: 22 N·m }',
);

/** A checkout of Kitproof with nothing in it but the action and what is built. */
let checkout: string;
/** A folder for the path, with the program in it under its name. */
let programs: string;
let repository: TestRepository;

beforeAll(async () => {
  checkout = mkdtempSync(join(tmpdir(), 'kitproof-checkout-'));
  programs = join(checkout, 'bin');
  const script = pathToFileURL(join(root, 'esbuild.mjs')).href;
  const { bundle } = (await import(script)) as { bundle(folder: string): Promise<string> };
  await bundle(join(checkout, 'dist'));
  cpSync(join(root, 'package.json'), join(checkout, 'package.json'));
  mkdirSync(dirname(join(checkout, ACTION)), { recursive: true });
  cpSync(join(root, ACTION), join(checkout, ACTION));
  mkdirSync(programs);
  const shim = `#!/bin/sh\nexec "${process.execPath}" "${join(checkout, 'dist/cli.js')}" "$@"\n`;
  writeFileSync(join(programs, 'kitproof'), shim);
  chmodSync(join(programs, 'kitproof'), 0o755);
});
afterAll(() => rmSync(checkout, { recursive: true, force: true }));
beforeEach(() => {
  repository = testRepository();
  repository.commit({ ...FILES, 'guides/b.install.yaml': GOOD });
});
afterEach(() => repository.remove());

/** Runs a piece of shell in the repository as build servers do, the program on the path. */
function shell(script: string, environment: Readonly<Record<string, string>> = {}) {
  const { status, stdout, stderr } = spawnSync(
    'bash',
    ['--noprofile', '--norc', '-eo', 'pipefail', '-c', script],
    {
      cwd: repository.root,
      encoding: 'utf8',
      env: { ...gitEnvironment(), PATH: `${programs}:${process.env.PATH}`, ...environment },
    },
  );
  return { status, out: stdout, err: stderr };
}

const inRepository = (path: string) => join(repository.root, path);
const readJson = (path: string) => JSON.parse(readFileSync(inRepository(path), 'utf8'));

interface Step {
  readonly name?: string;
  readonly uses?: string;
  readonly if?: string;
  readonly shell?: string;
  readonly run?: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly with?: Readonly<Record<string, unknown>>;
}

interface Action {
  readonly inputs: Readonly<Record<string, { readonly description: string; readonly default: string }>>;
  readonly outputs: Readonly<Record<string, unknown>>;
  readonly runs: { readonly using: string; readonly steps: readonly Step[] };
}

const action = load(readFileSync(join(root, ACTION), 'utf8')) as Action;

/** Runs the steps of the action with some inputs, as the runner does. */
function runAction(inputs: Readonly<Record<string, string>> = {}) {
  const files = Object.fromEntries(
    ['GITHUB_STEP_SUMMARY', 'GITHUB_OUTPUT'].map((name) => [name, join(checkout, name)]),
  );
  for (const file of Object.values(files)) writeFileSync(file, '');
  for (const name of Object.keys(inputs)) expect(action.inputs).toHaveProperty(name);
  const valued = (text: string) =>
    text.replaceAll(
      /\$\{\{ inputs\.([\w-]+) \}\}/g,
      (_, name: string) => inputs[name] ?? action.inputs[name]!.default,
    );
  let out = '';
  let status: number | null = 0;
  for (const { run, env = {}, shell: by } of action.runs.steps) {
    if (run === undefined || status !== 0) continue;
    expect(by).toBe('bash');
    // Nothing from outside becomes part of the script.
    expect(run).not.toContain('${{');
    const values = Object.fromEntries(Object.entries(env).map(([name, text]) => [name, valued(text)]));
    const ran = shell(run, {
      GITHUB_ACTION_PATH: join(checkout, dirname(ACTION)),
      RUNNER_TEMP: checkout,
      ...files,
      ...values,
    });
    out += ran.out + ran.err;
    status = ran.status;
  }
  return {
    out,
    status,
    summary: readFileSync(files.GITHUB_STEP_SUMMARY!, 'utf8'),
    outputs: Object.fromEntries(
      readFileSync(files.GITHUB_OUTPUT!, 'utf8')
        .split('\n')
        .filter(Boolean)
        .map((line) => line.split('=')),
    ) as Record<string, string>,
  };
}

describe('the action', () => {
  it('describes its inputs, each of which it hands on', () => {
    const used = JSON.stringify(action.runs.steps);
    for (const [name, { description }] of Object.entries(action.inputs)) {
      expect(description.length, name).toBeGreaterThan(20);
      expect(used, name).toContain(`inputs.${name}`);
    }
    expect(action.runs.using).toBe('composite');
    for (const { uses } of action.runs.steps)
      if (uses !== undefined) expect(uses).toMatch(/^[\w-]+\/[\w/-]+@v\d+$/);
    const upload = action.runs.steps.find(({ uses }) => uses?.includes('upload-sarif'))!;
    expect(upload.if).toContain('!cancelled()');
    expect(JSON.stringify(upload.with)).toContain(' steps.check.outputs.sarif ');
  });

  it('passes where nothing is wrong', () => {
    const { status, out, summary, outputs } = runAction();
    expect(out).toBe('Kitproof: 0 errors, 0 warnings, 0 notes in 2 files; 3 of 3 steps checked.\n');
    expect(status).toBe(0);
    expect(summary).toContain('No findings in 2 files.');
    expect(outputs).toEqual({ status: '0', sarif: 'kitproof.sarif' });
    expect(readJson('kitproof.sarif').version).toBe('2.1.0');
  });

  it('fails where something is, puts it beside the line, and hands on the reports', () => {
    repository.write({ 'guides/b.install.yaml': GUIDE });
    const { status, out, summary, outputs } = runAction({
      paths: 'guides',
      junit: 'out/k.xml',
      json: 'k.json',
    });
    expect(status).toBe(1);
    expect(out).toContain('::error file=guides/b.install.yaml,line=15,endLine=15,');
    expect(summary).toContain('2 errors in 2 files.');
    expect(outputs).toEqual({ status: '1', sarif: 'kitproof.sarif' });
    expect(readFileSync(inRepository('out/k.xml'), 'utf8')).toContain('<failure type="left-loose"');
    expect(readJson('k.json').summary.errors).toBe(2);
    expect(runAction({ 'fail-on': 'never' }).status).toBe(0);
    expect(runAction({ 'fail-on': 'never', 'require-cover': '100' }).status).toBe(1);
    expect(runAction({ baseline: 'k.json' }).status).toBe(0);
  });

  it('checks what changed, in shares', () => {
    const since = 'HEAD';
    expect(runAction({ since }).summary).toContain('Nothing here changed since HEAD');
    repository.write({ 'guides/c.install.yaml': GUIDE });
    const one = runAction({ since });
    expect([one.status, one.out.includes('guides/c.install.yaml')]).toEqual([1, true]);
    const shares = ['1/2', '2/2'].map((shard) => runAction({ since, shard }).summary);
    expect(shares.map((summary) => /Shard.*/.exec(summary)?.[0])).toEqual([
      'Shard 1 of 2: 1 of 1 file.',
      'Shard 2 of 2: 0 of 1 file.',
    ]);
  });

  it('takes several paths, one a line, and nothing of them for a command or an option', () => {
    repository.write({ 'more guides/c.install.yaml': GOOD.replace('moorhen', '../guides/moorhen') });
    const { out } = runAction({ paths: 'guides/b.install.yaml\nmore guides\n' });
    expect(out).toContain('in 2 files; 6 of 6 steps');
    for (const paths of ['$(touch touched)', '"; touch touched; "', '--fix', '`touch touched`']) {
      const { status, outputs, out: said } = runAction({ paths });
      expect([status, outputs, said.includes('Cannot read')], paths).toEqual([3, { status: '3' }, true]);
    }
    expect(existsSync(inRepository('touched'))).toBe(false);
  });
});

describe('the hooks', () => {
  interface Hook {
    readonly id: string;
    readonly entry: string;
    readonly language: string;
    readonly files: string;
    readonly pass_filenames: boolean;
  }
  const hooks = load(readFileSync(join(root, '.pre-commit-hooks.yaml'), 'utf8')) as Hook[];

  it.each(hooks)('$id passes what is in order and stops what is not', ({ entry, pass_filenames }) => {
    expect(pass_filenames).toBe(false);
    expect(shell(entry)).toMatchObject({ status: 0, err: '' });
    repository.write({ 'guides/c.install.yaml': GUIDE });
    const { status, out } = shell(entry);
    expect(status).toBe(1);
    expect(out).toContain('guides/c.install.yaml:15:19');
  });

  it('are of Node, are built where npm installs them, and look at our documents', () => {
    const { scripts, bin, files } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    expect(scripts.prepare).toBe('node server/scripts/prepare.mjs');
    expect(files).toContain(dirname(bin.kitproof));
    expect(hooks.map(({ id }) => id)).toEqual(['kitproof', 'kitproof-changed']);
    for (const { language, files: pattern, entry } of hooks) {
      expect(language).toBe('node');
      expect(bin).toHaveProperty(entry.split(' ')[0]!);
      const ours = ['a.install.yaml', 'x/b.kit.yml', 'kitproof.yaml', 'x/kitproof.yml', 'c.vehicle.yaml'];
      for (const name of ours) expect(name).toMatch(new RegExp(pattern));
      for (const name of ['a.yaml', 'install.yaml.txt', 'notkitproof.yaml'])
        expect(name).not.toMatch(new RegExp(pattern));
    }
  });
});

describe('the recipes of the README', () => {
  const readme = readFileSync(join(root, 'README.md'), 'utf8');
  const recipe = (name: string): string =>
    new RegExp(`<!-- recipe: ${name} -->\\n\`\`\`\\w+\\n([\\s\\S]*?)\`\`\``).exec(readme)![1]!;

  it('for the action names it and its inputs', () => {
    const { jobs } = load(recipe('github')) as { jobs: { guides: { steps: Step[] } } };
    const step = jobs.guides.steps.at(-1)!;
    expect(step.uses).toContain(`/${dirname(ACTION)}@`);
    for (const name of Object.keys(step.with!)) expect(action.inputs).toHaveProperty(name);
  });

  it('for the hook names one', () => {
    const { repos } = load(recipe('hook')) as { repos: { hooks: { id: string }[] }[] };
    const hooks = readFileSync(join(root, '.pre-commit-hooks.yaml'), 'utf8');
    for (const { id } of repos[0]!.hooks) expect(hooks).toContain(`- id: ${id}\n`);
  });

  it('for the container copies all that the program needs', () => {
    const lines = recipe('container').split('\n');
    const copied = lines.flatMap(
      (line) => /^COPY --from=build \/kitproof\/(\S+) \/opt\/kitproof\/(\S*)$/.exec(line)?.slice(1) ?? [],
    );
    expect(copied).toEqual(['package.json', '', 'dist', 'dist']);
    expect(lines).toContain('RUN ln -s /opt/kitproof/dist/cli.js /usr/local/bin/kitproof');
    // That is what stands in the checkout of these tests, which has no packages beside it.
    expect(existsSync(join(checkout, 'node_modules'))).toBe(false);
    expect(shell('kitproof --version').out).toMatch(/^\d/);
  });

  it('for five machines at once gives one report', () => {
    const recipes = load(recipe('gitlab')) as Record<string, { parallel?: number; script: string[] }>;
    repository.write({ 'guides/b.install.yaml': GUIDE });
    const { guides, report } = recipes;
    for (let number = 1; number <= guides!.parallel!; number++) {
      const nodes = { CI_NODE_INDEX: String(number), CI_NODE_TOTAL: String(guides!.parallel) };
      for (const line of guides!.script) expect(shell(line, nodes)).toMatchObject({ status: 0, err: '' });
    }
    const { status, out } = shell(report!.script.join('\n'));
    expect(status).toBe(1);
    expect(out).toContain('2 errors in 2 files.');
    expect(readFileSync(inRepository('kitproof.xml'), 'utf8')).toContain(
      '<testsuite name="guides/b.install.yaml"',
    );
    expect(readJson('kitproof.sarif').runs[0].results.length).toBe(3);
  });

  it('for one machine writes the reports that it hands on', () => {
    const { steps, container } = load(recipe('azure')) as {
      container: { options: string };
      steps: (Step & { script?: string; publish?: string; inputs?: Record<string, string> })[];
    };
    // Its jobs start the image with a command of their own.
    expect(container.options).toBe('--entrypoint ""');
    const { script } = steps.find((step) => step.script !== undefined)!;
    expect(shell(script!)).toMatchObject({ status: 0, err: '' });
    const handed = steps.flatMap((step) => step.publish ?? step.inputs?.testResultsFiles ?? []);
    expect(handed).toEqual(['kitproof.xml', 'kitproof.sarif']);
    for (const path of handed) expect(existsSync(inRepository(path)), path).toBe(true);
  });
});
