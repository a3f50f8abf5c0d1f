import { readdir, readFile, stat } from 'node:fs/promises';
import type { EntryKind, Files, Listed } from './port';

/** Files of this machine. Links are followed, save that `list` leaves out links to folders: they may lead in circles. */
export const diskFiles: Files = {
  async read(name) {
    try {
      return await readFile(name, 'utf8');
    } catch {
      return null;
    }
  },
  async bytes(name) {
    try {
      return await readFile(name);
    } catch {
      return null;
    }
  },
  async list(folder) {
    try {
      const entries = await readdir(folder, { withFileTypes: true });
      const listed: Listed[] = [];
      for (const entry of entries) {
        const link = entry.isSymbolicLink();
        const kind = link ? await kindOf(`${folder}/${entry.name}`) : plainKind(entry);
        if (kind !== null && !(link && kind === 'folder')) listed.push({ name: entry.name, kind });
      }
      return listed.sort((a, b) => (a.name < b.name ? -1 : 1));
    } catch {
      return [];
    }
  },
  kind: kindOf,
};

async function kindOf(name: string): Promise<EntryKind | null> {
  try {
    return plainKind(await stat(name));
  } catch {
    return null;
  }
}

function plainKind(entry: { isFile(): boolean; isDirectory(): boolean }): EntryKind | null {
  return entry.isFile() ? 'file' : entry.isDirectory() ? 'folder' : null;
}
