import type { Configuration } from './configuration';
import { isYamlName, SKIPPED_FOLDERS } from './document';
import { relativePath } from './paths';
import { matchesPattern } from './patterns';
import type { Files } from './port';

/** Folders deeper than this are not looked into: links that lead back up would never end. */
const DEEPEST = 40;

/** The YAML files in a folder and below, in order of name. Hidden folders and those that no guide stands in are left out. */
export async function filesBelow(files: Files, folder: string, depth = 0): Promise<string[]> {
  if (depth > DEEPEST) return [];
  // Side by side: where an editor is asked, each answer takes its time.
  const found = (await files.list(folder)).map((entry): string[] | Promise<string[]> => {
    const name = folder.endsWith('/') ? folder + entry.name : `${folder}/${entry.name}`;
    if (entry.kind === 'file') return isYamlName(entry.name) ? [name] : [];
    const skipped = entry.name.startsWith('.') || SKIPPED_FOLDERS.has(entry.name);
    return skipped ? [] : filesBelow(files, name, depth + 1);
  });
  return (await Promise.all(found)).flat();
}

/** Whether the configuration of a file leaves it alone. */
export function isIgnored(configuration: Configuration, name: string): boolean {
  const { folder } = configuration;
  if (folder === null) return false;
  const path = relativePath(folder, name);
  return configuration.ignore.some((pattern) => matchesPattern(pattern, path));
}
