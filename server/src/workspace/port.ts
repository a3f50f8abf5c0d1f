import { folderOf } from './paths';

/**
 * The one way to files. Names are absolute paths with `/` on every system, or what the editor knows a document by
 * (`scheme://host/path`); a file's name is its identity everywhere in the program.
 */
export interface Files {
  /** The text of a file, null where there is no file that can be read as text. */
  read(name: string): Promise<string | null>;
  /** What a file holds, byte by byte, for pictures; null where there is none. Not all files can be had so. */
  bytes?(name: string): Promise<Uint8Array | null>;
  /** What stands in a folder, sorted by name; empty where it is no folder or cannot be listed. */
  list(folder: string): Promise<readonly Listed[]>;
  kind(name: string): Promise<EntryKind | null>;
  /** Whether nothing above a folder is to be looked for, by what these files alone know. */
  readonly isTop?: (folder: string) => boolean;
}

/** Whether the way up ends at a folder: it holds `.git` (in a worktree a file), or nothing is above it. */
export async function isTop(files: Files, folder: string): Promise<boolean> {
  if (folderOf(folder) === folder || files.isTop?.(folder) === true) return true;
  return (await files.kind(folder.endsWith('/') ? `${folder}.git` : `${folder}/.git`)) !== null;
}

export type EntryKind = 'file' | 'folder';

export interface Listed {
  /** The last part of its name. */
  readonly name: string;
  readonly kind: EntryKind;
}

/** Files with some of them replaced: the text of an open editor, or of standard input. */
export function withOverlay(files: Files, overlay: ReadonlyMap<string, string>): Files {
  return {
    read: async (name) => overlay.get(name) ?? files.read(name),
    bytes: async (name) => (await files.bytes?.(name)) ?? null,
    list: (folder) => files.list(folder),
    kind: async (name) => (overlay.has(name) ? 'file' : files.kind(name)),
    isTop: (folder) => files.isTop?.(folder) === true,
  };
}
