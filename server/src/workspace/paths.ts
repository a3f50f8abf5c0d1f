/** Names of files: absolute paths with `/`, with a drive or a `scheme://host` before them or not. */

/** What stands before the first `/` that parts folders: nothing, `C:` or `scheme://host`. */
function rootOf(name: string): string {
  const scheme = name.indexOf('://');
  if (scheme > 0) {
    const slash = name.indexOf('/', scheme + 3);
    return slash < 0 ? name : name.slice(0, slash);
  }
  return name[1] === ':' ? name.slice(0, 2) : '';
}

/** Whether a name is of a place that has a scheme, not a path of a machine. */
export const hasScheme = (name: string): boolean => name.indexOf('://') > 0;

/** A path of this machine as a name: `/` throughout, an upper-case drive. */
export function nameOfPath(path: string): string {
  const name = path.replaceAll('\\', '/');
  return name[1] === ':' ? name[0]!.toUpperCase() + name.slice(1) : name;
}

/** The folder that holds a file or folder; a root is its own. */
export function folderOf(name: string): string {
  const root = rootOf(name);
  const slash = name.lastIndexOf('/');
  return slash <= root.length ? `${root}/` : name.slice(0, slash);
}

export function baseName(name: string): string {
  return name.slice(name.lastIndexOf('/') + 1);
}

/** A path, as a document writes it, seen from a folder. `..` above the root stays at the root; `\` is read as `/`. */
export function resolvePath(folder: string, written: string): string {
  const path = nameOfPath(written);
  if (rootOf(path) !== '') return tidied(rootOf(path), path.slice(rootOf(path).length));
  const root = rootOf(folder);
  return path.startsWith('/') ? tidied(root, path) : tidied(root, `${folder.slice(root.length)}/${path}`);
}

function tidied(root: string, path: string): string {
  const parts: string[] = [];
  for (const part of path.split('/')) {
    if (part === '..') parts.pop();
    else if (part !== '' && part !== '.') parts.push(part);
  }
  return `${root}/${parts.join('/')}`;
}

/** A name as seen from a folder: with `../` where it stands outside, whole where it has another root. */
export function relativePath(folder: string, name: string): string {
  const root = rootOf(folder);
  if (rootOf(name) !== root) return name;
  const from = folder.slice(root.length).split('/').filter(Boolean);
  const to = name.slice(root.length).split('/').filter(Boolean);
  let same = 0;
  while (same < from.length && same < to.length && from[same] === to[same]) same++;
  return [...from.slice(same).map(() => '..'), ...to.slice(same)].join('/') || '.';
}
