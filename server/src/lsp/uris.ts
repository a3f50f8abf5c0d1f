/** What a protocol calls a document, and the name that the workspace knows it by. */

const FILE = 'file://';

/** The name of a uri: files by their path with `/`, anything else as it is. Never throws. */
export function nameOfUri(uri: string): string {
  if (!uri.startsWith(FILE)) return uri;
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
  return name.startsWith('/') ? FILE + encoded(name) : name;
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
