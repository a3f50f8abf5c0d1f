/** What a protocol calls a document, and the name that the workspace knows it by. */

const FILE = 'file://';

/** Scheme, host and path of a uri that is made of folders, and of nothing else. */
const FOLDERS = /^([a-z][a-z0-9+.-]*):(?:\/\/([^/?#]*))?(\/[^?#]*)$/i;

/**
 * The name of a uri: files by their path with `/`, other places by scheme, host and path, anything else as it is. Paths are
 * decoded, so that those that documents write lead to them. Never throws.
 */
export function nameOfUri(uri: string): string {
  if (!uri.startsWith(FILE)) {
    const [, scheme, host = '', path] = FOLDERS.exec(uri) ?? [];
    return scheme === undefined || path === undefined ? uri : `${scheme}://${host}${decoded(path)}`;
  }
  const rest = uri.slice(FILE.length);
  const slash = rest.indexOf('/');
  const host = slash < 0 ? rest : rest.slice(0, slash);
  const path = decoded(slash < 0 ? '/' : rest.slice(slash));
  if (host !== '' && host !== 'localhost') return `${FILE}${host}${path}`;
  // `/c:/guides` is a path with a drive.
  if (path[2] === ':') return path[1]!.toUpperCase() + path.slice(2);
  return path;
}

/** The uri of a name, for documents that the editor has not named itself. */
export function uriOfName(name: string): string {
  if (name.startsWith(FILE)) return FILE + encoded(name.slice(FILE.length));
  if (name[1] === ':') return `${FILE}/${encodeURIComponent(name.slice(0, 2))}${encoded(name.slice(2))}`;
  if (name.startsWith('/')) return FILE + encoded(name);
  const host = name.indexOf('://') + 3;
  const path = name.indexOf('/', host);
  if (host < 3 || path < 0) return name;
  // Without a host a uri is written without its two slashes.
  return name.slice(0, path === host ? host - 2 : path) + encoded(name.slice(path));
}

function decoded(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}

const encoded = (path: string): string =>
  path.split('/').map(encodeURIComponent).join('/').replaceAll("'", '%27');
