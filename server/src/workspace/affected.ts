import { isYamlName, kindInName } from './document';
import { baseName, folderOf } from './paths';
import type { Project } from './project';
import type { Change } from './revisions';

/**
 * Of some documents those whose check may come out otherwise than before some changes: changed ones, and those that read, name or
 * would be governed by what changed, came or went. What stands outside `root` is counted among them: nothing is known of it.
 * @param root the folder that the changes are told of.
 */
export async function affectedBy(
  project: Project,
  names: readonly string[],
  changes: readonly Change[],
  root: string,
): Promise<string[]> {
  const touched = new Set<string>();
  /** Folders in which something came or went. */
  const stirred = new Set<string>();
  const settings = new Set<string>();
  const vehicles = new Set<string>();
  for (const { name, kind, before } of changes) {
    for (const one of before === null ? [name] : [name, before]) {
      touched.add(one);
      if (kind === 'changed') continue;
      if (isYamlName(one)) stirred.add(`${folderOf(one)}/*`);
      // What governs a document by standing above it leaves no trace in it when it goes.
      const said = kindInName(baseName(one));
      if (said === 'config') settings.add(folderOf(one));
      if (said === 'vehicle') vehicles.add(folderOf(one));
    }
  }
  const isTouched = (name: string): boolean => {
    if (!isIn(root, name)) return true;
    for (let at = name; isIn(root, at); at = folderOf(at)) if (touched.has(at)) return true;
    return stirred.has(name);
  };
  const under = (folders: ReadonlySet<string>, name: string): boolean =>
    [...folders].some((folder) => isIn(folder, name));
  const affected: string[] = [];
  for (const name of names) {
    const document = await project.open(name);
    if (document === null) continue;
    const inputs = [...(await project.inputsOf(document))];
    const ruled = under(settings, name) || (document.kind === 'kit' && under(vehicles, name));
    if (ruled || inputs.some(isTouched)) affected.push(name);
  }
  return affected;
}

const isIn = (folder: string, name: string): boolean =>
  name.startsWith(folder === '/' ? folder : `${folder}/`);
