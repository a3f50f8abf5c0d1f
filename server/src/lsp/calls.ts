import {
  type CallHierarchyIncomingCall,
  type CallHierarchyItem,
  type CallHierarchyOutgoingCall,
  type Position,
  type Range,
  SymbolKind,
} from 'vscode-languageserver/lib/common/api.js';
import { type OperationOutline, outlineOf, type SectionOutline, sectionNamed } from '../model/outline';
import { textAt } from '../model/source';
import type { Document } from '../workspace/document';
import { baseName, folderOf, resolvePath } from '../workspace/paths';
import { answering, type Context, type Feature, rangeOf } from './context';
import { nameOfUri } from './uris';

/** A section with its document. */
interface Home {
  readonly document: Document;
  readonly section: SectionOutline;
}

/** Which sections take which others by `use`, over all files. */
export const calls: Feature = {
  capabilities: () => ({ callHierarchyProvider: true }),
  register(connection, context) {
    connection.languages.callHierarchy.onPrepare(
      answering<{ textDocument: { uri: string }; position: Position }, CallHierarchyItem[] | null>(
        context,
        null,
        async ({ textDocument, position }) => {
          const document = await context.document(textDocument.uri);
          if (document === null) return null;
          const offset = document.lines.offsetAt(position);
          for (const section of await sectionsOf(context, document)) {
            for (const use of usesIn(section)) {
              const { start, end } = use.target.place.span;
              const used = start <= offset && offset <= end ? await usedBy(context, document, use) : null;
              if (used !== null) return [itemOf(context, used)];
            }
            const node = document.reading.root === null ? null : nodeSpan(section);
            if (node !== null && node.start <= offset && offset < node.end)
              return [itemOf(context, { document, section })];
          }
          return null;
        },
      ),
    );
    connection.languages.callHierarchy.onIncomingCalls(
      answering<{ item: CallHierarchyItem }, CallHierarchyIncomingCall[]>(context, [], async ({ item }) => {
        const found: CallHierarchyIncomingCall[] = [];
        for (const name of await context.everyDocument()) {
          const document = await context.project.open(name);
          if (document === null) continue;
          for (const section of await sectionsOf(context, document)) {
            const fromRanges: Range[] = [];
            for (const use of usesIn(section)) {
              const used = await usedBy(context, document, use);
              if (used !== null && isItem(used, item))
                fromRanges.push(rangeOf(document.lines, use.target.span));
            }
            if (fromRanges.length > 0)
              found.push({ from: itemOf(context, { document, section }), fromRanges });
          }
        }
        return found;
      }),
    );
    connection.languages.callHierarchy.onOutgoingCalls(
      answering<{ item: CallHierarchyItem }, CallHierarchyOutgoingCall[]>(context, [], async ({ item }) => {
        const document = await context.document(item.uri);
        if (document === null) return [];
        const found: CallHierarchyOutgoingCall[] = [];
        for (const section of await sectionsOf(context, document)) {
          if (!isItem({ document, section }, item)) continue;
          for (const use of usesIn(section)) {
            const used = await usedBy(context, document, use);
            if (used === null) continue;
            found.push({ to: itemOf(context, used), fromRanges: [rangeOf(document.lines, use.target.span)] });
          }
        }
        return found;
      }),
    );
  },
};

async function sectionsOf(context: Context, document: Document): Promise<readonly SectionOutline[]> {
  if (document.kind !== 'install') return [];
  const closure = await context.project.closureOf(document);
  return outlineOf(closure.opened(document)).sections;
}

const usesIn = (section: SectionOutline): OperationOutline[] =>
  section.steps.flatMap(({ operations }) => operations.filter(({ verb }) => verb === 'use'));

/** The section that a `use` takes; null where there is none. */
async function usedBy(
  context: Context,
  document: Document,
  { target }: OperationOutline,
): Promise<Home | null> {
  const file = target.isMap ? textAt(target, 'guide') : null;
  const name = target.isMap ? textAt(target, 'section') : target.text;
  const home =
    file === null ? document : await context.project.open(resolvePath(folderOf(document.uri), file.trim()));
  if (home === null || name === null || home.kind !== 'install') return null;
  const closure = await context.project.closureOf(home);
  const section = sectionNamed(outlineOf(closure.opened(home)), name);
  return section === null ? null : { document: home, section };
}

function nodeSpan(section: SectionOutline): { start: number; end: number } | null {
  return section.cursor.document.at.node(section.cursor.value as object);
}

function itemOf(context: Context, { document, section }: Home): CallHierarchyItem {
  const head = section.cursor.get('title')?.span ?? section.cursor.header.span;
  const span = nodeSpan(section) ?? head;
  return {
    name: section.title === '' ? `Section ${section.number}` : section.title,
    kind: SymbolKind.Module,
    detail: baseName(document.uri),
    uri: context.uriOf(document.uri),
    range: rangeOf(document.lines, {
      start: Math.min(span.start, head.start),
      end: Math.max(span.end, head.end),
    }),
    selectionRange: rangeOf(document.lines, head),
    data: section.number,
  };
}

const isItem = ({ document, section }: Home, item: CallHierarchyItem): boolean =>
  document.uri === nameOfUri(item.uri) && section.number === item.data;
