import { find, follow, items, walk } from '../text/access';
import type { Node } from '../text/tree';
import type { Document } from './document';
import { folderOf, resolvePath } from './paths';

export type ReferenceRole = 'vehicle' | 'kit' | 'follows' | 'use' | 'picture' | 'pack' | 'times';

/** A path in a document, and the file it leads to. */
export interface Reference {
  readonly role: ReferenceRole;
  readonly written: string;
  readonly uri: string;
  readonly node: Node;
}

/** The files that a document names, in order of place. */
export function referencesOf(document: Document): Reference[] {
  const { reading } = document;
  if (reading.root === null) return [];
  const found: Reference[] = [];
  const add = (role: ReferenceRole, node: Node | undefined): void => {
    const value = node === undefined ? undefined : follow(node, reading);
    if (value === undefined) return;
    if (value.kind === 'seq') {
      for (const item of items(value, reading)) add(role, item.value);
    } else if (value.kind === 'scalar' && typeof value.value === 'string' && value.value.trim() !== '') {
      const uri = resolvePath(folderOf(document.uri), value.value.trim());
      found.push({ role, written: value.value, uri, node: value });
    }
  };
  const top = (key: string) => find(reading.root!, key, reading)?.value;
  if (document.kind === 'install') {
    add('vehicle', top('vehicle'));
    add('kit', top('kit'));
    add('follows', top('follows'));
    walk(reading.root, (node) => {
      if (node.kind !== 'map') return;
      const use = find(node, 'use', reading)?.value;
      if (use?.kind === 'map') add('use', find(use, 'guide', reading)?.value);
      for (const key of ['figure', 'figures']) {
        const figures = find(node, key, reading)?.value;
        if (figures === undefined) continue;
        for (const figure of figures.kind === 'seq'
          ? items(figures, reading).map(({ value }) => value)
          : [figures])
          if (figure.kind === 'map') add('picture', find(figure, 'file', reading)?.value);
      }
    });
  } else if (document.kind === 'config') {
    add('pack', top('packs'));
    add('times', top('times'));
  }
  return found;
}
