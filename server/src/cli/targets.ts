import { isNamedAsOurs, kindInName, SKIPPED_FOLDERS } from '../workspace/document';
import { folderOf, relativePath, resolvePath } from '../workspace/paths';
import type { Project } from '../workspace/project';
import { filesBelow, isIgnored } from '../workspace/scan';
import { type Io, ReadError, UsageError } from './io';

export interface Targets {
  /** Names of files, each once, in order of name. */
  readonly names: readonly string[];
  /** Files that were named one by one, or are named as ours are, and are no documents of ours: why, each in a sentence. */
  readonly notOurs: readonly string[];
  /** Whether one of them is ours by its name, or standard input: then not all that was asked could be read. */
  readonly unread: boolean;
}

/**
 * The files that the paths of a command line mean. A file named by itself counts even where `ignore:` leaves it alone
 * in a folder; what a folder or a pattern gives counts only if it is a document of ours.
 */
export async function targetsOf(
  paths: readonly string[],
  io: Io,
  project: Project,
  progress: ReadingProgress,
): Promise<Targets> {
  const names = new Set<string>();
  const notOurs: string[] = [];
  let unread = false;
  const addFound = async (found: readonly string[]): Promise<void> => {
    const lost = await addOurs(names, found, io, project, progress);
    notOurs.push(...lost);
    unread ||= lost.length > 0;
  };
  for (const path of paths) {
    const name = resolvePath(io.folder, path);
    const kind = await io.files.kind(name);
    if (kind === 'file') {
      if ((await project.open(name)) !== null) names.add(name);
      else {
        notOurs.push(await whyNotOurs(path, name, io));
        // A shell writes out a pattern: other programs' files among the guides are no fault.
        unread ||= isNamedAsOurs(name) || path === INPUT_NAME;
      }
    } else if (kind === 'folder') {
      await addFound(await filesBelow(io.files, name));
    } else if (isPattern(path)) {
      const found = await io.glob([path]);
      if (found.length === 0) throw new ReadError(`No file matches ${path}.`);
      await addFound(found.filter((file) => !inSkippedFolder(io, file)));
    } else {
      throw new ReadError(`Cannot read ${path}: there is no such file or folder.`);
    }
  }
  return { names: [...names].sort(), notOurs, unread };
}

/** The one guide that a command is about. */
export async function guideOf(positionals: readonly string[], io: Io, project: Project, command: string) {
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0) {
    throw new UsageError(
      `kitproof ${command} takes one guide, such as "kitproof ${command} lift.install.yaml".`,
    );
  }
  const name = resolvePath(io.folder, path);
  const kind = await io.files.kind(name);
  if (kind === 'folder') throw new UsageError(`${path} is a folder; kitproof ${command} takes one guide.`);
  if (kind === null) throw new ReadError(`Cannot read ${path}: there is no such file.`);
  const document = await project.open(name);
  if (document?.kind !== 'install') {
    throw new ReadError(`${path} is no guide: a guide begins with "kitproof: install/1".`);
  }
  return document;
}

/** Told before each file of a folder or a pattern is read. */
export type ReadingProgress = (done: number, all: number, name: string) => void;

/** @returns why those are none that are named as ours are: a guide that lost its first line must not go unseen. */
async function addOurs(
  names: Set<string>,
  found: readonly string[],
  io: Io,
  project: Project,
  progress: ReadingProgress,
): Promise<string[]> {
  const lost: string[] = [];
  for (const [index, name] of found.entries()) {
    progress(index, found.length, name);
    if (names.has(name) || isIgnored(await project.configurationOf(name), name)) continue;
    if ((await project.open(name)) !== null) names.add(name);
    else if (isNamedAsOurs(name)) lost.push(await whyNotOurs(relativePath(io.folder, name), name, io));
  }
  return lost;
}

/** What standard input is known by where nobody says where it would stand. */
export const INPUT_NAME = 'standard-input.yaml';

/** Why a file is no document of ours, in one sentence. */
async function whyNotOurs(path: string, name: string, io: Io): Promise<string> {
  const shown = path === INPUT_NAME ? 'Standard input' : path;
  const text = await io.files.read(name);
  if (text === null) return `Cannot read ${shown}.`;
  const first = `a document begins with a line such as "kitproof: ${kindInName(name) ?? 'install'}/1".`;
  if (text.trim() === '') return `${shown} is empty; ${first}`;
  if (text.includes('\0')) return `${shown} is no text; ${first}`;
  return `${shown} has no key "kitproof", so it is no document of ours; ${first}`;
}

const isPattern = (path: string): boolean => ['*', '?', '{', '[', '!('].some((mark) => path.includes(mark));

function inSkippedFolder(io: Io, name: string): boolean {
  return relativePath(io.folder, folderOf(name))
    .split('/')
    .some((part) => SKIPPED_FOLDERS.has(part));
}
