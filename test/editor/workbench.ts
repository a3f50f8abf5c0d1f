/** The editor's own workbench, served from this machine and shown in a browser without a screen. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import {
  cpSync,
  createWriteStream,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';

/** The folder is not trusted: the extension must do all its work there. In a picture the mark of that would puzzle. */
export const TRUSTED = Boolean(process.env.KITPROOF_PICTURES);

const SETTINGS = {
  'security.workspace.trust.enabled': !TRUSTED,
  'security.workspace.trust.startupPrompt': 'never',
  'security.workspace.trust.banner': 'never',
  'security.workspace.trust.untrustedFiles': 'open',
  'telemetry.telemetryLevel': 'off',
  'workbench.enableExperiments': false,
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.colorTheme': 'Default Light Modern',
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.layoutControl.enabled': false,
  'chat.commandCenter.enabled': false,
  'window.commandCenter': false,
  'extensions.autoCheckUpdates': false,
  'extensions.autoUpdate': false,
  'extensions.ignoreRecommendations': true,
  'git.enabled': false,
  'json.schemaDownload.enable': false,
  'npm.fetchOnlinePackageInfo': false,
  'editor.minimap.enabled': false,
  'editor.stickyScroll.enabled': false,
  'editor.fontFamily': 'DejaVu Sans Mono',
  'editor.fontSize': 12,
  'files.autoSave': 'off',
  // What is typed at a machine's speed is meant to be typed.
  'editor.acceptSuggestionOnEnter': 'off',
};

/** How large the window is; the pictures are of all of it or a part. */
export const WINDOW = { width: 1280, height: 800 };

export interface Workbench {
  readonly page: Page;
  /** The folder that is open. */
  readonly folder: string;
  /** Addresses that the browser asked for beyond this machine. */
  readonly outside: readonly string[];
  /** The processes of the extension's language server; none where it runs in the browser. */
  languageServers(): number[];
  /** Keeps what tells of a failure: the window as it is, and the logs. Gives the folder. */
  keep(): Promise<string>;
  close(): Promise<void>;
}

/**
 * Where the extension is run: on the machine that serves the editor, or in the browser that shows it, which gets files only
 * through the editor, by uris that are no paths.
 */
export type Host = 'machine' | 'browser';

/** The editor runs what has a `browser` entry there by this alone; the package is the same. */
const HOSTS: Readonly<Record<Host, object>> = {
  machine: {},
  browser: { 'remote.extensionKind': { 'kitproof.kitproof': ['web'] } },
};

/**
 * Installs the extension in a new editor and opens a folder in it.
 * @param files what the folder holds, by path.
 */
export async function openWorkbench(
  files: ReadonlyMap<string, string>,
  host: Host = 'machine',
): Promise<Workbench> {
  const home = mkdtempSync(join(tmpdir(), 'kitproof-workbench-'));
  const folder = join(home, 'guides');
  for (const [name, text] of files) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  const data = join(home, 'data');
  mkdirSync(join(data, 'data', 'User'), { recursive: true });
  writeFileSync(join(data, 'data', 'User', 'settings.json'), JSON.stringify({ ...SETTINGS, ...HOSTS[host] }));
  const program = join(needed('KITPROOF_WORKBENCH'), 'out', 'server-main.js');
  const common = [
    '--accept-server-license-terms',
    ...['--server-data-dir', data, '--user-data-dir', join(data, 'data')],
    ...['--extensions-dir', join(data, 'extensions')],
  ];
  const env = {
    ...machine(home),
    EXTENSIONS_GALLERY: '{"serviceUrl":"","itemUrl":"","resourceUrlTemplate":""}',
  };
  const installed = spawnSync(
    process.execPath,
    [program, ...common, '--install-extension', needed('KITPROOF_VSIX')],
    { env, encoding: 'utf8', timeout: 60_000 },
  );
  if (!installed.stdout.includes('was successfully installed')) {
    throw new Error(`The extension could not be installed.\n${installed.stdout}${installed.stderr}`);
  }
  const port = await freePort();
  const server = spawn(
    process.execPath,
    [
      program,
      ...common,
      ...['--host', '127.0.0.1', '--port', String(port), '--without-connection-token'],
      ...['--telemetry-level', 'off'],
    ],
    { env, detached: true, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  const log = createWriteStream(join(home, 'server.log'));
  server.stdout.pipe(log);
  server.stderr.pipe(log);
  let browser: BrowserContext | undefined;
  const close = async (): Promise<void> => {
    await browser?.close().catch(() => undefined);
    stop(server);
    rmSync(home, { recursive: true, force: true, maxRetries: 5, retryDelay: 300 });
  };
  try {
    await answering(port);
    browser = await chromium.launchPersistentContext(join(home, 'profile'), {
      executablePath: process.env.KITPROOF_CHROMIUM ?? '/usr/bin/chromium',
      viewport: WINDOW,
      args: [
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    });
    const outside: string[] = [];
    browser.on('request', (request) => {
      const url = new URL(request.url());
      // Pages of extensions come by a name of their own, which the service worker answers on this machine.
      const own = url.hostname === '127.0.0.1' || url.hostname.endsWith('.vscode-cdn.net');
      if (url.protocol.startsWith('http') && !own) outside.push(request.url());
    });
    const page = browser.pages()[0] ?? (await browser.newPage());
    page.setDefaultTimeout(25_000);
    await page.goto(`http://127.0.0.1:${port}/?folder=${encodeURIComponent(folder)}`);
    await page.locator('.monaco-workbench').waitFor({ timeout: 60_000 });
    await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor({ timeout: 60_000 });
    const keep = async (): Promise<string> => {
      const kept = join(tmpdir(), 'kitproof-editor-failed');
      rmSync(kept, { recursive: true, force: true });
      mkdirSync(kept);
      await page.screenshot({ path: join(kept, 'window.png') }).catch(() => undefined);
      cpSync(join(data, 'data', 'logs'), join(kept, 'logs'), { recursive: true });
      cpSync(join(home, 'server.log'), join(kept, 'server.log'));
      return kept;
    };
    const languageServers = () => processesOf(server.pid!, 'cli.js server');
    return { page, folder, outside, languageServers, keep, close };
  } catch (error) {
    await close();
    throw error;
  }
}

function needed(name: string): string {
  const value = process.env[name];
  if (value === undefined) throw new Error(`${name} is not set: run npm run test:editor.`);
  return value;
}

/** The machine without the user's own folders, and without the editor that this may run inside of. */
function machine(home: string): NodeJS.ProcessEnv {
  const env: NodeJS.ProcessEnv = { ...process.env, HOME: home };
  for (const name of ['CONFIG', 'CACHE', 'DATA', 'STATE'])
    env[`XDG_${name}_HOME`] = join(home, name.toLowerCase());
  for (const name of Object.keys(env))
    if (name.startsWith('VSCODE_') || name.startsWith('VITEST') || name === 'NODE_OPTIONS') delete env[name];
  return env;
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.on('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}

async function answering(port: number): Promise<void> {
  const end = Date.now() + 60_000;
  while (Date.now() < end) {
    const answer = await fetch(`http://127.0.0.1:${port}/version`).catch(() => null);
    if (answer?.status === 200) return;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  throw new Error('The editor does not answer.');
}

/** The processes of a group whose command line holds some words. */
function processesOf(group: number, words: string): number[] {
  return readdirSync('/proc').flatMap((name) => {
    if (!/^\d+$/.test(name)) return [];
    try {
      // Behind the name of the program, in brackets: its state, its parent, its group.
      const said = readFileSync(`/proc/${name}/stat`, 'utf8').split(') ').at(-1)!.split(' ');
      const line = readFileSync(`/proc/${name}/cmdline`, 'utf8').replaceAll('\0', ' ');
      return Number(said[2]) === group && line.includes(words) ? [Number(name)] : [];
    } catch {
      // It has just ended.
      return [];
    }
  });
}

/** Ends the server with what it started: its process group. */
function stop(server: ChildProcess): void {
  if (server.pid === undefined) return;
  try {
    process.kill(-server.pid, 'SIGKILL');
  } catch {
    // It has ended by itself.
  }
}
