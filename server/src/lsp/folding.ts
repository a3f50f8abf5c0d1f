import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver/lib/common/api.js';
import { walk } from '../text/access';
import { answering, type Feature } from './context';

/** Sections, steps, parts and whatever else goes over several lines, and blocks of comments. */
export const folding: Feature = {
  capabilities: () => ({ foldingRangeProvider: true }),
  register(connection, context) {
    connection.onFoldingRanges(
      answering<{ textDocument: { uri: string } }, FoldingRange[]>(context, [], async ({ textDocument }) => {
        const document = await context.document(textDocument.uri);
        if (document === null) return [];
        const { lines, reading } = document;
        // Of several that begin on one line the longest counts.
        const ends = new Map<number, number>();
        const fold = (start: number, end: number): void => {
          const first = lines.positionAt(start).line;
          const last = lastLine(document.text, end, lines);
          if (last > first && last > (ends.get(first) ?? -1)) ends.set(first, last);
        };
        if (reading.root !== null)
          walk(reading.root, (node) => {
            node.items?.forEach((item, index) => {
              const start = node.keys?.[index]?.start ?? item.start;
              if (item.kind !== 'alias') fold(start, item.end);
            });
          });
        const found: FoldingRange[] = [...ends].map(([startLine, endLine]) => ({ startLine, endLine }));
        for (let line = 0; line < lines.count; line++) {
          const first = line;
          while (lines.lineAt(line).trimStart().startsWith('#')) line++;
          if (line - first > 1)
            found.push({ startLine: first, endLine: line - 1, kind: FoldingRangeKind.Comment });
        }
        return found.sort((a, b) => a.startLine - b.startLine || a.endLine - b.endLine);
      }),
    );
  },
};

/** The last line that holds something of what ends at an offset. */
function lastLine(
  text: string,
  end: number,
  lines: { positionAt(offset: number): { line: number } },
): number {
  let at = end;
  while (at > 0 && /\s/.test(text[at - 1]!)) at--;
  return lines.positionAt(at).line;
}
