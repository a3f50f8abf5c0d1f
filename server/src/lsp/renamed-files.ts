import type { FileRename, WorkspaceEdit } from 'vscode-languageserver/lib/common/api.js';
import { scalarText } from '../edit/write';
import { folderOf, relativePath, resolvePath } from '../workspace/paths';
import { referencesOf } from '../workspace/references';
import { answering, type Context, type Feature, rangeOf } from './context';
import { changesOf } from './edits';
import { nameOfUri } from './uris';

const FILTERS = [{ pattern: { glob: '**/*' } }];

/** A file or folder is moved or renamed: every path that leads to it, and those that it writes itself, are changed with it. */
export const renamedFiles: Feature = {
  capabilities: (client) =>
    client.workspace?.fileOperations?.willRename === true
      ? { workspace: { fileOperations: { willRename: { filters: FILTERS } } } }
      : {},
  register(connection, context) {
    connection.workspace.onWillRenameFiles(
      answering<{ readonly files: readonly FileRename[] }, WorkspaceEdit | null>(
        context,
        null,
        async ({ files }) => {
          const moves = files.map(({ oldUri, newUri }) => [nameOfUri(oldUri), nameOfUri(newUri)] as const);
          const edits = await pathEdits(context, moves);
          return edits.length === 0 ? null : changesOf(context, edits);
        },
      ),
    );
  },
};

async function pathEdits(context: Context, moves: readonly (readonly [string, string])[]) {
  const moved = (name: string): string => {
    for (const [from, to] of moves) {
      if (name === from) return to;
      if (name.startsWith(`${from}/`)) return to + name.slice(from.length);
    }
    return name;
  };
  const edits: { uri: string; edit: { range: ReturnType<typeof rangeOf>; newText: string } }[] = [];
  for (const name of await context.everyDocument()) {
    const document = await context.project.open(name);
    if (document === null) continue;
    const home = moved(name);
    for (const { node, uri, written } of referencesOf(document)) {
      const target = moved(uri);
      const leads = resolvePath(folderOf(home), written.trim());
      if (leads === target) continue;
      const path = relativePath(folderOf(home), target);
      edits.push({
        uri: name,
        edit: { range: rangeOf(document.lines, node), newText: scalarText(path, true) },
      });
    }
  }
  return edits;
}
