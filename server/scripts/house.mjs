/** What `npm start` and `npm test` share: setting up a fresh machine, running a tool, saying what happens. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** Ends the program with a sentence where the Node that runs it is too old. */
export function needNode() {
  const major = Number(process.versions.node.split('.')[0]);
  if (major >= 20) return;
  console.error(`Kitproof needs Node 20 or later; this is Node ${process.versions.node}.`);
  process.exit(1);
}

/**
 * Installs what the lock file lists, where it is not there yet. No package's own install script runs: none is needed,
 * since the bundler's and the linter's programs come as packages of their platform.
 */
export function install() {
  const missing = missingPackages();
  if (missing.length === 0) return;
  say('Installing the packages that Kitproof is built with (npm ci)');
  const status = npm(['ci', '--ignore-scripts', '--no-fund', '--no-audit']);
  if (status === 0) return;
  console.error(
    '\nnpm ci failed: the packages that Kitproof is built with could not be installed. Is there a network?',
  );
  process.exit(1);
}

/** Whether a file of the samples is faulty on purpose: it stands in or below a folder called `faulty`. */
export function isFaultySample(path) {
  return path.split('/').slice(0, -1).includes('faulty');
}

/** Packages of the lock file, save those of other platforms, that are not installed in its version. */
function missingPackages() {
  const wanted = read('package-lock.json').packages;
  const there = existsSync(join(root, 'node_modules', '.package-lock.json'))
    ? read('node_modules/.package-lock.json').packages
    : {};
  return Object.entries(wanted).flatMap(([path, entry]) => {
    if (path === '' || entry.optional || entry.devOptional) return [];
    const installed = there[path]?.version === entry.version && existsSync(join(root, path, 'package.json'));
    return installed ? [] : [path];
  });
}

const read = (path) => JSON.parse(readFileSync(join(root, path), 'utf8'));

/** Runs npm as it runs us, so that no other one on the path is taken. Gives the exit status. */
function npm(words) {
  const own = process.env.npm_execpath;
  const asScript = own !== undefined && /\.[cm]?js$/.test(own);
  const [command, ...rest] = asScript ? [process.execPath, own, ...words] : ['npm', ...words];
  return (
    spawnSync(command, rest, {
      cwd: root,
      stdio: 'inherit',
      shell: !asScript && process.platform === 'win32',
    }).status ?? 1
  );
}

/** Runs a script of a package with this Node. Gives the exit status. */
export function tool(script, words, options = {}) {
  const { status } = spawnSync(process.execPath, [join(root, script), ...words], {
    cwd: root,
    stdio: 'inherit',
    ...options,
  });
  return status ?? 1;
}

/** A heading of the run. */
export function say(text) {
  const colour = process.stdout.isTTY && !process.env.NO_COLOR;
  console.log(`\n${colour ? '\u001b[1m' : ''}${text}${colour ? '\u001b[22m' : ''}`);
}
