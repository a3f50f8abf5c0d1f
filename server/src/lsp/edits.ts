import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver/lib/common/api.js';
import type { Context } from './context';

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
