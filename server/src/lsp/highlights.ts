import { type DocumentHighlight, DocumentHighlightKind } from 'vscode-languageserver/lib/common/api.js';
import { lookAt } from '../workspace/at';
import { namesAt } from '../workspace/names';
import { answering, type Feature, rangeOf } from './context';

interface At {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
}

/** Every other operation on the same thing, what belongs to it included; where a text speaks of it, more quietly. */
export const highlights: Feature = {
  capabilities: () => ({ documentHighlightProvider: true }),
  register(connection, context) {
    connection.onDocumentHighlight(
      answering<At, DocumentHighlight[]>(context, [], async ({ textDocument, position }) => {
        const document = await context.document(textDocument.uri);
        if (document === null) return [];
        const names = context.names.of(document);
        const [name] = namesAt(names, document.lines.offsetAt(position));
        if (name === undefined) return [];
        const within = `${name.name}.`;
        const found = names.filter(
          (one) =>
            one.group === name.group &&
            (one.name === name.name || (name.group === 'item' && one.name.startsWith(within))),
        );
        // Of `part.joint` the part is a name of its own: the longer of two that begin together is what is meant.
        const longest = new Map<number, (typeof found)[number]>();
        for (const one of found) {
          const known = longest.get(one.place.span.start);
          if (known === undefined || known.place.span.end < one.place.span.end)
            longest.set(one.place.span.start, one);
        }
        return [...longest.values()].map(({ place }) => ({
          range: rangeOf(document.lines, place.span),
          kind:
            (lookAt(document, place.span.start)?.operation ?? null) === null
              ? DocumentHighlightKind.Read
              : DocumentHighlightKind.Write,
        }));
      }),
    );
  },
};
