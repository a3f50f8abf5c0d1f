import type { Location } from 'vscode-languageserver/lib/common/api.js';
import type { Place } from '../findings/finding';
import { lookAt } from '../workspace/at';
import type { Document } from '../workspace/document';
import { targetAt } from '../workspace/meaning';
import { namesAt } from '../workspace/names';
import { referencesOf } from '../workspace/references';
import { declarationOf, documentsOf, type NameIndex, namedAt } from '../workspace/uses';
import { answering, type Context, type Feature } from './context';

interface Position {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
}

/** From a name to where it is declared, and from there to everywhere it is used. */
export const navigation: Feature = {
  capabilities: () => ({ definitionProvider: true, referencesProvider: true }),
  register(connection, context) {
    const index = context.names;
    connection.onDefinition(
      answering<Position, Location[]>(context, [], async ({ textDocument, position }) => {
        const document = await context.document(textDocument.uri);
        if (document === null) return [];
        const offset = document.lines.offsetAt(position);
        const found = await located(context, await definitionsAt(context, index, document, offset));
        return found.length > 0 ? found : await described(context, document, offset);
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
          const every = await context.everyDocument();
          const named = await namedAt(context.project, index, document, offset, every);
          const uses = (named?.places ?? []).filter(({ declares }) => includeDeclaration || !declares);
          return located(
            context,
            uses.map(({ place }) => place),
          );
        },
      ),
    );
  },
};

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

/** A standard rule is no file that an editor could show; it is described in the catalogue. */
async function described(context: Context, document: Document, offset: number): Promise<Location[]> {
  const at = lookAt(document, offset);
  if (at?.names !== 'rule' || at.written === null) return [];
  const page = (await context.rulePages.of(document.uri, new Set([at.written]))).get(at.written);
  if (page === undefined) return [];
  const [uri = '', line] = page.split('#L');
  const start = { line: Number(line) - 1, character: 0 };
  return [{ uri, range: { start, end: start } }];
}

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
  for (const name of namesAt(index.of(document), offset)) {
    const declared = declarationOf(index, documentsOf(closure), name);
    if (declared !== null) return [declared.place];
  }
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
