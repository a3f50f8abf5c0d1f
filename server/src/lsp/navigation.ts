import type { Location } from 'vscode-languageserver/lib/common/api.js';
import type { Place } from '../findings/finding';
import { lookAt } from '../workspace/at';
import type { Document } from '../workspace/document';
import { targetAt } from '../workspace/meaning';
import { type Name, namesAt, namesOf } from '../workspace/names';
import type { Closure } from '../workspace/project';
import { referencesOf } from '../workspace/references';
import { answering, type Context, type Feature } from './context';

interface Position {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
}

/** From a name to where it is declared, and from there to everywhere it is used. */
export const navigation: Feature = {
  capabilities: () => ({ definitionProvider: true, referencesProvider: true }),
  register(connection, context) {
    const index = new NameIndex();
    connection.onDefinition(
      answering<Position, Location[]>(context, [], async ({ textDocument, position }) => {
        const document = await context.document(textDocument.uri);
        if (document === null) return [];
        return located(
          context,
          await definitionsAt(context, index, document, document.lines.offsetAt(position)),
        );
      }),
    );
    connection.onReferences(
      answering<Position & { context: { includeDeclaration: boolean } }, Location[]>(
        context,
        [],
        async ({ textDocument, position, context: { includeDeclaration } }) => {
          const document = await context.document(textDocument.uri);
          if (document === null) return [];
          const offset = document.lines.offsetAt(position);
          return located(context, await usesAt(context, index, document, offset, includeDeclaration));
        },
      ),
    );
  },
};

/** The names of documents, each read once. */
class NameIndex {
  private readonly known = new WeakMap<Document, readonly Name[]>();

  of(document: Document): readonly Name[] {
    const known = this.known.get(document);
    if (known !== undefined) return known;
    const names = namesOf(document);
    this.known.set(document, names);
    return names;
  }
}

async function located(context: Context, places: readonly Place[]): Promise<Location[]> {
  const found: Location[] = [];
  const seen = new Set<string>();
  for (const place of places) {
    const key = `${place.uri} ${place.span.start} ${place.span.end}`;
    // The standard packs are no files that an editor could show.
    if (seen.has(key) || place.uri.startsWith('kitproof:')) continue;
    seen.add(key);
    const location = await context.location(place);
    if (location !== null) found.push(location);
  }
  return found;
}

/** All documents that a document's names may be declared in, itself first. */
const documentsOf = (closure: Closure): Document[] => [...closure.documents.values(), ...closure.housePacks];

async function definitionsAt(
  context: Context,
  index: NameIndex,
  document: Document,
  offset: number,
): Promise<Place[]> {
  const link = referencesOf(document).find(({ node }) => node.start <= offset && offset <= node.end);
  if (link !== undefined)
    return (await context.project.exists(link.uri)) ? [{ uri: link.uri, span: { start: 0, end: 0 } }] : [];
  const closure = await context.project.closureOf(document);
  const named = namesAt(index.of(document), offset);
  const declared = named.flatMap((name) => declarationsOf(index, documentsOf(closure), name)).slice(0, 1);
  if (declared.length > 0) return declared;
  // What a part has from its kind is declared there; the bound guide knows.
  const guide = await context.guides.open(document.uri);
  const at = guide === null ? null : lookAt(document, offset);
  const target = at === null || guide === null || at.names === null ? null : targetAt(guide.model, at);
  if (target === null) return [];
  const place =
    target.type === 'joint' || target.type === 'piece'
      ? (target.joint.declared ?? target.joint.part.declared)
      : target.type === 'part'
        ? target.part.declared
        : target.type === 'line'
          ? (target.lines[0]?.declared ?? null)
          : target.type === 'end' || target.type === 'hole' || target.type === 'face'
            ? partOf(target).declared
            : null;
  return place === null ? [] : [place];
}

function partOf(target: { readonly end?: unknown; readonly hole?: unknown; readonly face?: unknown }) {
  const owner = (target.end ?? target.hole ?? target.face) as {
    readonly part: { readonly declared: Place | null };
  };
  return owner.part;
}

function declarationsOf(index: NameIndex, documents: readonly Document[], name: Name): Place[] {
  if (name.declares) return [name.place];
  for (const document of documents) {
    const found = index
      .of(document)
      .filter((one) => one.declares && one.group === name.group && one.name === name.name);
    if (found.length > 0) return found.map(({ place }) => place);
  }
  return [];
}

/** Every place of the name at an offset, in all documents that see the same declaration. */
async function usesAt(
  context: Context,
  index: NameIndex,
  document: Document,
  offset: number,
  withDeclaration: boolean,
): Promise<Place[]> {
  const [name] = namesAt(index.of(document), offset);
  if (name === undefined) return [];
  const closure = await context.project.closureOf(document);
  const [declaration] = declarationsOf(index, documentsOf(closure), name);
  const home = declaration?.uri ?? document.uri;
  const found: Place[] = [];
  for (const other of new Set([document.uri, home, ...context.checker.asked()])) {
    const one = await context.project.open(other);
    if (one === null) continue;
    const sees =
      other === home || (await context.project.closureOf(one)).documents.has(home) || isSettingOf(one, home);
    const housePack = sees
      ? false
      : (await context.project.closureOf(one)).housePacks.some(({ uri }) => uri === home);
    if (!sees && !housePack) continue;
    for (const use of index.of(one)) {
      if (use.group !== name.group || use.name !== name.name) continue;
      if (use.declares && !withDeclaration) continue;
      found.push(use.place);
    }
  }
  return found;
}

const isSettingOf = (document: Document, home: string): boolean =>
  referencesOf(document).some(({ uri }) => uri === home);
