import type { CancellationToken, TextEdit, WorkspaceEdit } from 'vscode-languageserver/lib/common/api.js';
import type { Edit } from '../findings/finding';
import type { Document } from '../workspace/document';
import type { Wanted } from '../workspace/drive';
import { type Context, rangeOf } from './context';

/** Edits of several files as a client takes them: with the versions they are of, where it knows of such. */
export function changesOf(
  context: Context,
  edits: readonly { readonly uri: string; readonly edit: TextEdit }[],
): WorkspaceEdit {
  const byName = new Map<string, TextEdit[]>();
  for (const { uri, edit } of edits) byName.set(uri, [...(byName.get(uri) ?? []), edit]);
  if (context.client.workspace?.workspaceEdit?.documentChanges === true)
    return {
      documentChanges: [...byName].map(([name, list]) => ({
        textDocument: { uri: context.uriOf(name), version: context.texts.open.get(name)?.version ?? null },
        edits: list,
      })),
    };
  return { changes: Object.fromEntries([...byName].map(([name, list]) => [context.uriOf(name), list])) };
}

/** Edits as the protocol has them, by the name of their document. */
export async function placed(context: Context, edits: readonly Edit[]) {
  const made = [];
  for (const { place, text } of edits) {
    const lines = await context.linesOf(place.uri);
    if (lines !== null)
      made.push({ uri: place.uri, edit: { range: rangeOf(lines, place.span), newText: text } });
  }
  return made;
}

/** The version of a document in the editor; null where it is not open there. */
export const versionOf = (context: Context, name: string): number | null =>
  context.texts.open.get(name)?.version ?? null;

/** Work on a document that is wanted until it is cancelled, or the text is another. */
export function wantedFor(context: Context, document: Document, token: CancellationToken): Wanted {
  const version = versionOf(context, document.uri);
  return {
    get cancelled() {
      return token.isCancellationRequested || versionOf(context, document.uri) !== version;
    },
  };
}
