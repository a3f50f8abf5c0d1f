import {
  LSPErrorCodes,
  type Range,
  ResponseError,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver/lib/common/api.js';
import { scalarText } from '../edit/write';
import type { Document } from '../workspace/document';
import type { Name, NameGroup } from '../workspace/names';
import { declarationOf, documentsOf, type Named, namedAt } from '../workspace/uses';
import { type Context, type Feature, rangeOf } from './context';
import { changesOf } from './edits';

interface At {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
}

const WORDS: Readonly<Record<NameGroup, string>> = {
  item: 'part, line or joint',
  kind: 'kind',
  trait: 'trait or option',
  found: 'finding of a measurement',
  aid: 'aid',
  piece: 'piece',
  rule: 'rule',
  step: 'step',
  section: 'section',
  vehicle: 'vehicle',
};

/** What a guide may name without a declaration: such a name is renamed where it stands. */
const BY_USE: ReadonlySet<NameGroup> = new Set(['item', 'trait', 'found']);

/** Parts, joints, traits, steps, kit items and whatever else has a name are renamed in all files at once. */
export const rename: Feature = {
  capabilities: (client) => ({
    renameProvider: client.textDocument?.rename?.prepareSupport === true ? { prepareProvider: true } : true,
  }),
  register(connection, context) {
    connection.onPrepareRename(async ({ textDocument, position }: At) => {
      const { document, offset } = await lookUp(context, textDocument.uri, position);
      const named = document === null ? null : await find(context, document, offset);
      if (document === null || named === null) return null;
      refuseUndeclared(named);
      return { range: rangeOf(document.lines, lastPart(named.name)), placeholder: lastName(named.name.name) };
    });
    connection.onRenameRequest(async ({ textDocument, position, newName }: At & { newName: string }) => {
      const { document, offset } = await lookUp(context, textDocument.uri, position);
      const named = document === null ? null : await find(context, document, offset);
      if (document === null || named === null) return null;
      refuseUndeclared(named);
      await refuseName(context, document, named, newName);
      return renamed(context, named, newName);
    });
  },
};

async function lookUp(context: Context, uri: string, position: At['position']) {
  const document = await context.document(uri);
  return { document, offset: document === null ? 0 : document.lines.offsetAt(position) };
}

const find = async (context: Context, document: Document, offset: number): Promise<Named | null> =>
  namedAt(context.project, context.names, document, offset, await context.everyDocument());

const refusal = (message: string) => new ResponseError(LSPErrorCodes.RequestFailed, message);

const lastName = (name: string): string => name.slice(name.lastIndexOf('.') + 1);

/** The stretch of the last name: of `front-shock.lower-bolt` the joint's. */
function lastPart({ name, place }: Name): { start: number; end: number } {
  const { start, end } = place.span;
  const length = lastName(name).length;
  // What is declared as a key of its own stands there without its owner.
  return end - start > length && end - start === name.length ? { start: end - length, end } : { start, end };
}

function refuseUndeclared({ name, declaration }: Named): void {
  if (declaration !== null || BY_USE.has(name.group)) return;
  throw refusal(
    `"${name.name}" is no ${WORDS[name.group]} that a file of this folder declares, so it cannot be renamed.`,
  );
}

/** Refuses what is no name, and what is one already. */
async function refuseName(
  context: Context,
  document: Document,
  named: Named,
  newName: string,
): Promise<void> {
  const { group, name } = named.name;
  const wanted = newName.trim();
  if (group === 'vehicle' || (group === 'section' && !/^[\w-]+$/.test(wanted))) {
    if (wanted === '') throw refusal('A name must say something.');
  } else if (!/^[\p{L}\p{N}](?:[\p{L}\p{N}_-]*[\p{L}\p{N}])?$/u.test(wanted)) {
    throw refusal(`"${newName}" is no name: letters, digits and hyphens are.`);
  }
  if (wanted === lastName(name)) return;
  const fresh = name.slice(0, name.length - lastName(name).length) + wanted;
  const closure = await context.project.closureOf(document);
  const there = declarationOf(context.names, documentsOf(closure), {
    ...named.name,
    name: fresh,
    declares: false,
  });
  if (there !== null) throw refusal(`There is a ${WORDS[group]} "${fresh}" already.`);
}

async function renamed(context: Context, { places }: Named, newName: string): Promise<WorkspaceEdit> {
  const edits: { readonly uri: string; readonly edit: TextEdit }[] = [];
  const seen = new Set<string>();
  for (const one of places) {
    const { uri } = one.place;
    const document = await context.project.open(uri);
    if (document === null) continue;
    const span = lastPart(one);
    if (seen.has(`${uri} ${span.start}`)) continue;
    seen.add(`${uri} ${span.start}`);
    const before = document.text[span.start - 1];
    const inside = before === '"' || before === "'" || before === ':' || before === '.';
    const range: Range = rangeOf(document.lines, span);
    // Inside quotes and curly brackets, and behind a dot, the bare name stands.
    edits.push({ uri, edit: { range, newText: inside ? newName.trim() : scalarText(newName.trim(), true) } });
  }
  return changesOf(context, edits);
}
