import { find, follow, items, keyName } from '../text/access';
import type { Node } from '../text/tree';
import type { Document } from './document';
import { type Name, type NameGroup, namesAt, namesOf } from './names';
import type { Closure, Project } from './project';
import { referencesOf } from './references';

/** The names of documents, each read once. */
export class NameIndex {
  private readonly known = new WeakMap<Document, readonly Name[]>();

  of(document: Document): readonly Name[] {
    const known = this.known.get(document);
    if (known !== undefined) return known;
    const names = namesOf(document);
    this.known.set(document, names);
    return names;
  }
}

/** A name with everywhere it is written. */
export interface Named {
  /** As it is written where it was asked for. */
  readonly name: Name;
  /** Where it is declared; null where no document says so, which is enough for the names of a guide. */
  readonly declaration: Name | null;
  /** All places, the declaration among them. Of what belongs to a part its owner may be another there: what is `like` it. */
  readonly places: readonly Name[];
}

/** All documents that a document's names may be declared in, itself first. */
export const documentsOf = (closure: Closure): Document[] => [
  ...closure.documents.values(),
  ...closure.housePacks,
];

/** Where a name is declared, in documents of ours; of several places the first. */
export function declarationOf(index: NameIndex, documents: readonly Document[], name: Name): Name | null {
  if (name.declares) return name;
  for (const document of documents) {
    const found = index
      .of(document)
      .find((one) => one.declares && one.group === name.group && one.name === name.name);
    if (found !== undefined) return found;
  }
  return null;
}

/**
 * The name at an offset and every place of it, in all documents that see the same declaration.
 * @param others names of the documents that are looked through.
 */
export async function namedAt(
  project: Project,
  index: NameIndex,
  document: Document,
  offset: number,
  others: readonly string[],
): Promise<Named | null> {
  const [name] = namesAt(index.of(document), offset);
  if (name === undefined) return null;
  if (LOCAL.has(name.group)) {
    const places = index.of(document).filter((one) => one.group === name.group && one.name === name.name);
    return { name, declaration: places.find((one) => one.declares) ?? null, places };
  }
  const closure = await project.closureOf(document);
  const near = documentsOf(closure);
  const beside = await Promise.all((closure.library.vehicles ?? []).map(({ uri }) => project.open(uri)));
  near.push(...beside.filter((one) => one !== null));
  const seeing = new Map<string, Document>([[document.uri, document]]);
  let family = familyOf(near, name);
  const homes = new Set<string>();
  // What takes a joint over may stand in a kit that the vehicle knows nothing of, and is declared there once more.
  for (let before = -1; before < homes.size + seeing.size; ) {
    before = homes.size + seeing.size;
    family = familyOf([...near, ...seeing.values()], name);
    for (const one of [...near, ...seeing.values()])
      if (index.of(one).some((other) => other.declares && isOf(family, name, other))) homes.add(one.uri);
    for (const other of new Set([...homes, ...others])) {
      const one = seeing.has(other) ? null : await project.open(other);
      if (one !== null && (await sees(project, one, homes))) seeing.set(other, one);
    }
  }
  const all = [...seeing.values()].sort((a, b) => (a.uri < b.uri ? -1 : 1));
  const first = declarationOf(index, near, name);
  const places = all.flatMap((one) => {
    const found = index.of(one).filter((other) => isOf(family, name, other));
    // A section of the same name in another guide is another section.
    const another = name.group === 'section' && one.uri !== first?.place.uri;
    return another && found.some(({ declares }) => declares) ? [] : found;
  });
  const declaration = first ?? places.find((one) => one.declares) ?? null;
  return { name, declaration, places };
}

/** Names that another document has for things of its own. */
const LOCAL: ReadonlySet<NameGroup> = new Set(['step', 'found']);

/** What belongs to a part may be declared with its kind. */
const isOf = (family: ReadonlySet<string>, { group, name }: Name, one: Name): boolean =>
  family.has(one.name) &&
  (one.group === group || (name.includes('.') && SPACES.has(group) && SPACES.has(one.group)));

const SPACES: ReadonlySet<NameGroup> = new Set(['item', 'kind']);

/** Whether a document reads one of others, or is one of them. */
async function sees(project: Project, document: Document, homes: ReadonlySet<string>): Promise<boolean> {
  if (homes.has(document.uri) || referencesOf(document).some(({ uri }) => homes.has(uri))) return true;
  const { documents, housePacks, library } = await project.closureOf(document);
  const read = [...documents.keys(), ...housePacks.map(({ uri }) => uri)];
  // A kit names what a vehicle declares without naming its file.
  if (document.kind === 'kit') read.push(...(library.vehicles ?? []).map(({ uri }) => uri));
  return read.some((uri) => homes.has(uri));
}

/**
 * What is the same thing under other owners: a joint of a part is also that of what is `like` the part, of what replaces
 * it and of what is of its kind, as far as the files say so. Any other name stands for itself.
 */
function familyOf(documents: readonly Document[], { group, name }: Name): Set<string> {
  const dot = name.indexOf('.');
  if ((group !== 'item' && group !== 'kind') || dot < 0) return new Set([name]);
  const kin = new Map<string, Set<string>>();
  const join = (a: string, b: string): void => {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const)
      kin.set(from, (kin.get(from) ?? new Set()).add(to));
  };
  for (const document of documents) {
    const { root } = document.reading;
    if (root === null) continue;
    for (const section of ['parts', 'lines', 'kinds']) {
      const map = find(root, section, document.reading)?.value;
      for (const [owner, body] of pairsOf(document, map)) {
        const self = section === 'kinds' ? `kind ${owner}` : owner;
        for (const like of textsAt(document, body, 'like')) join(self, like);
        for (const replaced of textsAt(document, body, 'replaces')) join(self, replaced);
        for (const kind of textsAt(document, body, 'kind')) join(self, `kind ${kind}`);
      }
    }
  }
  const start = group === 'kind' ? `kind ${name.slice(0, dot)}` : name.slice(0, dot);
  const found = new Set([start]);
  for (const owner of found) for (const other of kin.get(owner) ?? []) found.add(other);
  return new Set([...found].map((owner) => `${owner.replace(/^kind /, '')}${name.slice(dot)}`));
}

function pairsOf(document: Document, map: Node | undefined): [string, Node][] {
  if (map?.kind !== 'map') return [];
  return (map.keys ?? []).flatMap((key, at): [string, Node][] => {
    const name = keyName(key, document.reading);
    const value = map.items?.[at];
    return name === null || value === undefined ? [] : [[name, follow(value, document.reading)]];
  });
}

function textsAt(document: Document, map: Node, key: string): string[] {
  if (map.kind !== 'map') return [];
  const value = find(map, key, document.reading)?.value;
  if (value === undefined) return [];
  const nodes = value.kind === 'seq' ? items(value, document.reading).map((item) => item.value) : [value];
  return nodes.flatMap((node) => (typeof node.value === 'string' ? [node.value] : []));
}
