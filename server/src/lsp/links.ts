import type { DocumentLink } from 'vscode-languageserver/lib/common/api.js';
import { referencesOf } from '../workspace/references';
import { answering, type Feature, rangeOf } from './context';

/** Paths of vehicles, kits, guides, packs and times lead to their files, where these are there. */
export const links: Feature = {
  capabilities: () => ({ documentLinkProvider: {} }),
  register(connection, context) {
    connection.onDocumentLinks(
      answering<{ textDocument: { uri: string } }, DocumentLink[]>(context, [], async ({ textDocument }) => {
        const document = await context.document(textDocument.uri);
        if (document === null) return [];
        const found: DocumentLink[] = [];
        for (const { uri, node } of referencesOf(document)) {
          if (!(await context.project.exists(uri))) continue;
          found.push({ range: rangeOf(document.lines, node), target: context.uriOf(uri) });
        }
        return found;
      }),
    );
  },
};
