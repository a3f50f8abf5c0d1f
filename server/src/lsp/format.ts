import type { DocumentFormattingParams, TextEdit } from 'vscode-languageserver/lib/common/api.js';
import { formatting } from '../edit/format';
import { answering, type Feature, rangeOf } from './context';

/** A document laid out anew. How wide a level is, is the house's matter, not the editor's. */
export const format: Feature = {
  capabilities: () => ({ documentFormattingProvider: true }),
  register(connection, context) {
    connection.onDocumentFormatting(
      answering<DocumentFormattingParams, TextEdit[]>(context, [], async ({ textDocument }) => {
        const document = await context.document(textDocument.uri);
        if (document === null) return [];
        return formatting(document).map(({ place, text }) => ({
          range: rangeOf(document.lines, place.span),
          newText: text,
        }));
      }),
    );
  },
};
