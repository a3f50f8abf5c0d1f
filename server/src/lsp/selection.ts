import type { Position, SelectionRange } from 'vscode-languageserver/lib/common/api.js';
import type { Span } from '../findings/finding';
import { pathAt } from '../schema/describe';
import type { Document } from '../workspace/document';
import { namesAt } from '../workspace/names';
import { answering, type Context, type Feature, rangeOf } from './context';

interface Selected {
  readonly textDocument: { readonly uri: string };
  readonly positions: readonly Position[];
}

/** What a selection grows to: the name, the value, the pair, the operation, the step, the section, the whole. */
export const selection: Feature = {
  capabilities: () => ({ selectionRangeProvider: true }),
  register(connection, context) {
    connection.onSelectionRanges(
      answering<Selected, SelectionRange[]>(context, [], async ({ textDocument, positions }) => {
        const document = await context.document(textDocument.uri);
        if (document === null) return [];
        return positions.map((position) => grown(context, document, position));
      }),
    );
  },
};

function grown(context: Context, document: Document, position: Position): SelectionRange {
  const { lines, reading, text } = document;
  const offset = lines.offsetAt(position);
  const spans: Span[] = [{ start: 0, end: text.length }];
  if (reading.root !== null)
    for (const { keyNode, value } of pathAt(reading.root, reading, offset)) {
      if (keyNode !== null) spans.push({ start: keyNode.start, end: Math.max(keyNode.end, value.end) });
      const inKey = keyNode !== null && offset <= keyNode.end;
      spans.push(inKey ? keyNode : value);
    }
  for (const { place } of namesAt(context.names.of(document), offset).reverse()) spans.push(place.span);
  let found: SelectionRange | undefined;
  let last: Span | null = null;
  for (const span of spans) {
    if (span.start > offset || span.end < offset) continue;
    if (last !== null && (span.start < last.start || span.end > last.end)) continue;
    if (last !== null && span.start === last.start && span.end === last.end) continue;
    last = span;
    const range = rangeOf(lines, span);
    found = found === undefined ? { range } : { range, parent: found };
  }
  return found!;
}
