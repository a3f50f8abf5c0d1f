/** A page of HTML printed to PDF by a browser of this machine. For node alone. */

import { execFile } from 'node:child_process';
import { access, constants, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import process from 'node:process';
import { pathToFileURL } from 'node:url';

/** Nothing on this machine prints a page. */
export class NoBrowser extends Error {
  constructor() {
    super(
      'No PDF can be had here: it is printed by Chromium or a browser made of it, and none was found. Install one, or say where it is in KITPROOF_BROWSER; the HTML prints as well from any browser.',
    );
  }
}

/** A browser was found and did not print. */
export class PrintFailed extends Error {}

/** Browsers that print without a window, by the names of their programs. */
const PROGRAMS = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'chrome',
  'msedge',
];
const ELSEWHERE: readonly string[] =
  process.platform === 'darwin'
    ? [
        '/Applications/Chromium.app/Contents/MacOS/Chromium',
        '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
        '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
      ]
    : process.platform === 'win32'
      ? [
          'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
          'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
        ]
      : [];

const MOST_TIME_MS = 120_000;

type Environment = Readonly<Record<string, string | undefined>>;

/**
 * The PDF of a page that carries all it shows: tagged for those who hear it, with its headings as bookmarks, its words to be
 * searched. `NoBrowser` or `PrintFailed`, each with a sentence to print, where there is none.
 * @param page a whole HTML document.
 */
export async function printPdf(page: string, environment: Environment): Promise<Uint8Array> {
  const browser = await browserOf(environment);
  if (browser === null) throw new NoBrowser();
  const folder = await mkdtemp(join(tmpdir(), 'kitproof-print-'));
  try {
    const [source, target] = [join(folder, 'guide.html'), join(folder, 'guide.pdf')];
    await writeFile(source, page);
    await run(browser, [
      '--headless',
      '--disable-gpu',
      '--no-first-run',
      // The page runs no script and loads nothing; root has no other way.
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
      `--user-data-dir=${join(folder, 'profile')}`,
      '--no-pdf-header-footer',
      '--export-tagged-pdf',
      '--generate-pdf-document-outline',
      `--print-to-pdf=${target}`,
      pathToFileURL(source).href,
    ]);
    return await readFile(target).catch(() => {
      throw new PrintFailed(`${browser} wrote no PDF.`);
    });
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 3 });
  }
}

async function browserOf(environment: Environment): Promise<string | null> {
  const said = environment.KITPROOF_BROWSER ?? '';
  if (said !== '') {
    if (await runs(said)) return said;
    throw new PrintFailed(`KITPROOF_BROWSER says ${said}, which cannot be run.`);
  }
  const ending = process.platform === 'win32' ? '.exe' : '';
  const folders = (environment.PATH ?? environment.Path ?? '').split(delimiter).filter((one) => one !== '');
  for (const name of PROGRAMS)
    for (const folder of folders) {
      const program = join(folder, name + ending);
      if (await runs(program)) return program;
    }
  for (const program of ELSEWHERE) if (await runs(program)) return program;
  return null;
}

const runs = (program: string): Promise<boolean> =>
  access(program, constants.X_OK).then(
    () => true,
    () => false,
  );

function run(program: string, words: readonly string[]): Promise<void> {
  return new Promise((done, failed) => {
    execFile(program, words, { timeout: MOST_TIME_MS, maxBuffer: 1 << 24 }, (error) => {
      if (error === null) done();
      else
        failed(
          new PrintFailed(
            error.killed === true
              ? `${program} did not print the page within two minutes.`
              : `${program} could not print the page.`,
          ),
        );
    });
  });
}
