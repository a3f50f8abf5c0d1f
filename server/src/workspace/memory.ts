import { folderOf } from './paths';
import type { EntryKind, Files, Listed } from './port';

/** Files that are nowhere but here: for tests, and for editors that hold a project in memory. Change the map to change them. */
export function memoryFiles(contents: ReadonlyMap<string, string>): Files {
  const kind = (name: string): EntryKind | null => {
    if (contents.has(name)) return 'file';
    const inside = name.endsWith('/') ? name : `${name}/`;
    for (const file of contents.keys()) if (file.startsWith(inside)) return 'folder';
    return null;
  };
  return {
    read: async (name) => contents.get(name) ?? null,
    bytes: async (name) => {
      const text = contents.get(name);
      return text === undefined ? null : new TextEncoder().encode(text);
    },
    kind: async (name) => kind(name),
    list: async (folder) => {
      const inside = folder.endsWith('/') ? folder : `${folder}/`;
      const found = new Map<string, Listed>();
      for (const file of contents.keys()) {
        if (!file.startsWith(inside)) continue;
        const name = file.slice(inside.length).split('/')[0]!;
        found.set(name, { name, kind: folderOf(file) === folder ? 'file' : 'folder' });
      }
      return [...found.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
    },
  };
}
