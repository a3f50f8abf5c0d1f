import { git, gitOrThrow, Objects, RevisionError } from './git';
import { nameOfPath } from './paths';
import type { EntryKind, Files, Listed } from './port';

export { RevisionError } from './git';

/** There are no revisions yet. */
export class NoCommitYet extends RevisionError {}

/** A git repository with its working tree, as seen from a folder in it. */
export interface Repository {
  /** The folder at the top of the working tree, as a name. */
  readonly root: string;
  /**
   * A revision by what people write for it: a branch, a tag, `HEAD~2`, the beginning of an id. One that there is not is a
   * `RevisionError`, which says so where the clone is shallow.
   */
  revision(written: string): Promise<Revision>;
}

/** One commit of a repository. */
export interface Revision {
  /** As it was written. */
  readonly written: string;
  /** The whole id. */
  readonly commit: string;
  /** The files of its tree, under the names that they have, or would have, in the working tree. */
  files(): Promise<RevisionFiles>;
  /** What is otherwise in the working tree than in this revision, in order of name; what git ignores is left out. */
  changes(): Promise<readonly Change[]>;
}

/** Files of a revision. `close` ends the process that reads them; the program can end without it. */
export interface RevisionFiles extends Files {
  close(): void;
}

export interface Change {
  /** Of a file; of another repository within this one, whose files are not told one by one, the folder. */
  readonly name: string;
  /** `added` counts what git does not know yet too. */
  readonly kind: 'added' | 'changed' | 'deleted' | 'renamed';
  /** For `renamed` what it was called. Nothing stands under that name any more, unless another change says so. */
  readonly before: string | null;
}

/** The repository that a folder stands in. None, or none that git will read, is a `RevisionError`. */
export async function repositoryAt(folder: string): Promise<Repository> {
  const { status, out, err } = await git(folder, ['rev-parse', '--show-toplevel', '--show-prefix']);
  if (status !== 0) throw new RevisionError(whyNone(folder, err));
  const [top = '', prefix = ''] = out.split('\n');
  const root = rootOf(nameOfPath(folder), nameOfPath(top), prefix);
  return { root, revision: (written) => revisionOf(root, written) };
}

/** By the names that files are asked for: where a link leads to the folder, git tells what it leads to. */
function rootOf(folder: string, top: string, prefix: string): string {
  const inside = `/${prefix.replace(/\/$/, '')}`;
  if (inside === '/') return folder;
  return folder.endsWith(inside) ? folder.slice(0, -inside.length) : top;
}

function whyNone(folder: string, complaint: string): string {
  if (complaint.includes('dubious ownership'))
    return `The repository at ${folder} belongs to another user, so git does not read it; "git config --global --add safe.directory ${folder}" says that it may.`;
  if (complaint.includes('must be run in a work tree'))
    return `The repository at ${folder} has no working tree.`;
  return `${folder} is in no git repository, so there are no revisions.`;
}

async function revisionOf(root: string, written: string): Promise<Revision> {
  // Nothing that git would take for an option, or for two revisions.
  if (written.trim() === '' || written.startsWith('-') || /\p{Cc}/u.test(written))
    throw new RevisionError(`"${written}" is no revision; a branch, a tag, HEAD~2 or an id is.`);
  const asked = ['rev-parse', '--verify', '--quiet', `${written}^{commit}`];
  const { status, out } = await git(root, asked);
  const commit = out.trim();
  if (status !== 0 || !/^[0-9a-f]{40,64}$/.test(commit)) throw await whyUnknown(root, written);
  return {
    written,
    commit,
    files: () => filesOf(root, commit),
    changes: () => changesSince(root, commit),
  };
}

async function whyUnknown(root: string, written: string): Promise<RevisionError> {
  const { out } = await git(root, ['rev-parse', '--is-shallow-repository']);
  if (out.trim() === 'true')
    return new RevisionError(
      `There is no revision "${written}" in this clone, which is shallow: it holds the latest commits only. Fetch the history too (git fetch --unshallow; in CI, a fetch depth of 0).`,
    );
  if ((await git(root, ['rev-list', '--all', '--max-count=1'])).out === '')
    return new NoCommitYet('This repository has no commit yet.');
  return new RevisionError(`There is no revision "${written}" in this repository.`);
}

const LINK = '120000';
/** Links that lead from one to the next are followed this far. */
const MOST_LINKS = 10;

async function filesOf(root: string, commit: string): Promise<RevisionFiles> {
  const out = await gitOrThrow(root, ['ls-tree', '-r', '-z', '--full-tree', commit]);
  const blobs = new Map<string, { readonly id: string; readonly link: boolean }>();
  const folders = new Map<string, Set<string>>([['', new Set()]]);
  for (const entry of out.split('\0')) {
    const tab = entry.indexOf('\t');
    const [mode, type, id] = entry.slice(0, Math.max(tab, 0)).split(' ');
    // What is no blob is another repository, of which this one holds nothing.
    if (type !== 'blob') continue;
    const path = entry.slice(tab + 1);
    blobs.set(path, { id: id!, link: mode === LINK });
    addTo(folders, path);
  }
  const objects = new Objects(root);

  /** What a path leads to by links, within the tree; null where to nothing there. */
  const followed = async (path: string, most = MOST_LINKS): Promise<string | null> => {
    const blob = blobs.get(path);
    if (blob === undefined) return folders.has(path) ? path : null;
    if (!blob.link) return path;
    const target = most === 0 ? null : await objects.read(blob.id);
    if (target === null) return null;
    const next = pathWithin(path.split('/').slice(0, -1), target.toString('utf8'));
    return next === null ? null : followed(next, most - 1);
  };
  const kindOf = (path: string | null): EntryKind | null =>
    path === null ? null : blobs.has(path) ? 'file' : 'folder';
  const pathOf = (name: string): string | null =>
    name === root ? '' : name.startsWith(`${root}/`) ? name.slice(root.length + 1) : null;

  return {
    async read(name) {
      const asked = pathOf(name);
      const path = asked === null ? null : await followed(asked);
      const blob = path === null ? undefined : blobs.get(path);
      return blob === undefined ? null : ((await objects.read(blob.id))?.toString('utf8') ?? null);
    },
    async kind(name) {
      const path = pathOf(name);
      return path === null ? null : kindOf(await followed(path));
    },
    async list(folder) {
      const path = pathOf(folder);
      const listed: Listed[] = [];
      for (const name of (path === null ? undefined : folders.get(path)) ?? []) {
        const own = path === '' ? name : `${path}/${name}`;
        const kind = kindOf(await followed(own));
        // As on disk: links to folders may lead in circles.
        if (kind !== null && !(blobs.get(own)?.link === true && kind === 'folder'))
          listed.push({ name, kind });
      }
      return listed.sort((a, b) => (a.name < b.name ? -1 : 1));
    },
    isTop: (folder) => folder === root,
    close: () => objects.close(),
  };
}

function addTo(folders: Map<string, Set<string>>, path: string): void {
  const parts = path.split('/');
  for (let depth = parts.length - 1; depth >= 0; depth--) {
    const folder = parts.slice(0, depth).join('/');
    const known = folders.get(folder);
    known?.add(parts[depth]!);
    // What is above a known folder has it already.
    if (known !== undefined) return;
    folders.set(folder, new Set([parts[depth]!]));
  }
}

/** A path that a link in a folder names; null where it leads out of the tree. */
function pathWithin(folder: readonly string[], target: string): string | null {
  if (target.startsWith('/')) return null;
  const parts = [...folder];
  for (const part of target.split('/')) {
    if (part === '..') {
      if (parts.pop() === undefined) return null;
    } else if (part !== '' && part !== '.') parts.push(part);
  }
  return parts.join('/');
}

const DIFF = ['diff', '--name-status', '-z', '--find-renames', '--no-ext-diff', '--no-relative'];

async function changesSince(root: string, commit: string): Promise<readonly Change[]> {
  const changes = new Map<string, Change>();
  const named = (path: string) => `${root}/${path}`;
  const words = (await gitOrThrow(root, [...DIFF, '--ignore-submodules=none', commit, '--'])).split('\0');
  for (let at = 0; at + 1 < words.length; ) {
    const letter = words[at++]![0]!;
    const before = letter === 'R' || letter === 'C' ? named(words[at++]!) : null;
    const name = named(words[at++]!);
    if (letter === 'R') changes.set(name, { name, kind: 'renamed', before });
    else {
      const kind = letter === 'A' || letter === 'C' ? 'added' : letter === 'D' ? 'deleted' : 'changed';
      changes.set(name, { name, kind, before: null });
    }
  }
  const untracked = await gitOrThrow(root, ['ls-files', '--others', '--exclude-standard', '-z']);
  for (const path of untracked.split('\0')) {
    if (path === '') continue;
    // Another repository ends in a stroke.
    const name = named(path.replace(/\/$/, ''));
    // Taken out of git and still there: not as git has it, for all that we know.
    changes.set(name, { name, kind: changes.has(name) ? 'changed' : 'added', before: null });
  }
  return [...changes.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
}
