import { KeptGuides } from '../workspace/check';
import { isNamedAsOurs, kindInName } from '../workspace/document';
import { standardPacks } from '../workspace/packs';
import { baseName, folderOf, relativePath, resolvePath } from '../workspace/paths';
import { isTop } from '../workspace/port';
import { Project } from '../workspace/project';
import type { CheckAsked } from './check-asked';
import { checkOnce } from './check-run';
import { EXIT, type Exit, type Io, ReadError } from './io';
import { WatchedFiles } from './watch-files';
import { counted, listed } from './words';

/** Empties a terminal, what was scrolled away too. */
const CLEAR = '\u001b[2J\u001b[3J\u001b[H';
/** Changed files that are named. */
const MOST_NAMED = 3;

/** Checks, and again whenever a file changes that the check reads or looks for, until the program is interrupted. */
export async function watching(asked: CheckAsked, io: Io): Promise<Exit> {
  const project = new Project(asked.files, standardPacks());
  const kept = new KeptGuides();
  const changed = new Set<string>();
  let inputs: ReadonlySet<string> = new Set();
  const matters = (name: string): boolean =>
    inputs.has(name) || inputs.has(`${folderOf(name)}/*`) || kindInName(baseName(name)) === 'config';
  let stopped = false;
  let wake = (): void => {};
  const watched = new WatchedFiles(
    async (names) => {
      for (const name of names) {
        if (!(watched.isBelow(name) || matters(name))) continue;
        // A file that is named as ours are and is none is told of, so each change of it counts.
        if ((await project.refresh(name)) || (isNamedAsOurs(name) && (await project.open(name)) === null))
          changed.add(name);
      }
      if (changed.size > 0) wake();
    },
    (sentence) => io.err(`kitproof: ${sentence}\n`),
  );
  void io.untilInterrupted().then(() => {
    stopped = true;
    wake();
  });
  const wanted = {
    get cancelled() {
      return stopped || changed.size > 0;
    },
  };
  try {
    await watchPaths(asked, io, watched);
    let first = true;
    let cause: string[] = [];
    while (!stopped) {
      cause = [...new Set([...cause, ...changed])].sort();
      changed.clear();
      const screen = first ? io : onFreshScreen(io);
      const once = await checkOnce(asked, screen, project, { kept, wanted }).catch((error: unknown) => {
        // What is wrong at once is wrong with the command line; what comes later may go again.
        if (first || !(error instanceof ReadError)) throw error;
        screen.err(`kitproof: ${error.message}\n`);
        return { names: [] };
      });
      if (once === null) continue;
      inputs = await inputsOf(once.names, project);
      for (const input of inputs) watched.within(folderOf(input));
      const files = [...inputs].filter((input) => !input.endsWith('/*')).length;
      const why = cause.length === 0 ? '' : `Checked anew: ${named(cause, io.folder)} changed. `;
      screen.err(asked.colours.dim(`${why}Watching ${counted(files, 'file')}; Ctrl-C ends.\n`));
      first = false;
      cause = [];
      while (!stopped && changed.size === 0)
        await new Promise<void>((resolve) => {
          wake = resolve;
        });
    }
  } finally {
    await watched.close();
  }
  return EXIT.clean;
}

/** The same streams, where the first that is said empties the terminal. */
function onFreshScreen(io: Io): Io {
  let fresh = !io.outIsTerminal;
  const clear = () => {
    if (!fresh) io.out(CLEAR);
    fresh = true;
  };
  return {
    ...io,
    out: (text) => {
      clear();
      io.out(text);
    },
    err: (text) => {
      clear();
      io.err(text);
    },
  };
}

async function watchPaths(asked: CheckAsked, io: Io, watched: WatchedFiles): Promise<void> {
  const ready = watched.ready();
  for (const path of asked.paths) {
    const name = resolvePath(io.folder, path);
    const kind = await io.files.kind(name);
    // What a pattern may match stands below the folder that it is seen from.
    if (kind === 'folder') watched.below(name);
    else if (kind === null) watched.below(io.folder);
    else watched.within(folderOf(name));
    // Settings may come to stand above.
    for (let folder = name; !(await isTop(io.files, folder)); folder = folderOf(folder))
      watched.within(folderOf(folder));
  }
  await ready;
}

/** All that the check of some documents reads or looks for. */
async function inputsOf(names: readonly string[], project: Project): Promise<ReadonlySet<string>> {
  const inputs = new Set<string>();
  for (const name of names) {
    const document = await project.open(name);
    if (document === null) continue;
    for (const input of await project.inputsOf(document)) inputs.add(input);
  }
  return inputs;
}

const named = (names: readonly string[], folder: string): string =>
  names.length > MOST_NAMED
    ? counted(names.length, 'file')
    : listed(names.map((name) => relativePath(folder, name)));
