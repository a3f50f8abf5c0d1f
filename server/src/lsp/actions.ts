import {
  type CodeAction,
  CodeActionKind,
  type CodeActionParams,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver/lib/common/api.js';
import type { Edit } from '../findings/finding';
import type { Document } from '../workspace/document';
import { declarationEdits, timeEdits, undeclaredAt, untimedStepsIn } from '../workspace/missing';
import { baseName } from '../workspace/paths';
import { answering, type Context, type Feature, rangeOf } from './context';
import type { DiagnosticData } from './diagnostic';
import { newVehicleAction } from './new-vehicle';

/** Quick fixes: those of the findings, a declaration of what no file has, a time for a step without one. */
export const actions: Feature = {
  capabilities: () => ({
    codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite] },
  }),
  register(connection, context) {
    connection.onCodeAction(
      answering<CodeActionParams, CodeAction[]>(
        context,
        [],
        async ({ textDocument, range, context: asked }) => {
          const document = await context.document(textDocument.uri);
          if (document === null) return [];
          const wanted = (kind: string) =>
            asked.only === undefined || asked.only.some((one) => kind === one || kind.startsWith(`${one}.`));
          const found: CodeAction[] = [];
          if (wanted(CodeActionKind.QuickFix)) found.push(...fixesOf(context, document, asked.diagnostics));
          if (!wanted(CodeActionKind.RefactorRewrite)) return found;
          const guide = await context.guides.open(document.uri);
          if (guide === null) return found;
          const span = {
            start: document.lines.offsetAt(range.start),
            end: document.lines.offsetAt(range.end),
          };
          for (const thing of undeclaredAt(guide, span)) {
            const vehicle = [...guide.closure.documents.values()].find(({ kind }) => kind === 'vehicle');
            const edits = vehicle === undefined ? null : declarationEdits(vehicle, thing);
            if (vehicle === undefined || edits === null) continue;
            found.push(await rewrite(context, `Declare ${thing.name} in ${baseName(vehicle.uri)}`, edits));
          }
          const vehicle = await newVehicleAction(context, guide, span);
          if (vehicle !== null) found.push(vehicle);
          for (const step of untimedStepsIn(guide, span)) {
            const { edits, minutes } = timeEdits(guide, step);
            if (edits !== null)
              found.push(
                await rewrite(
                  context,
                  `Give this step a time (${minutes} min to begin with; put yours)`,
                  edits,
                ),
              );
          }
          return found;
        },
      ),
    );
  },
};

/** The fixes that the findings under the cursor carry, as long as these are of the text as it stands. */
function fixesOf(
  context: Context,
  document: Document,
  diagnostics: CodeActionParams['context']['diagnostics'],
): CodeAction[] {
  const version = context.texts.open.get(document.uri)?.version ?? null;
  return diagnostics.flatMap((diagnostic) => {
    const data = diagnostic.data as DiagnosticData | undefined;
    if (diagnostic.source !== 'kitproof' || !Array.isArray(data?.fixes) || data.version !== version)
      return [];
    return data.fixes.map(({ title, edits, safe }): CodeAction => {
      const changes: Record<string, TextEdit[]> = {};
      for (const { uri, edit } of edits) changes[uri] = [...(changes[uri] ?? []), edit];
      return {
        title,
        kind: CodeActionKind.QuickFix,
        diagnostics: [diagnostic],
        isPreferred: safe || data.fixes.length === 1,
        edit: { changes },
      };
    });
  });
}

async function rewrite(context: Context, title: string, edits: readonly Edit[]): Promise<CodeAction> {
  const changes: NonNullable<WorkspaceEdit['changes']> = {};
  for (const { place, text } of edits) {
    const lines = await context.linesOf(place.uri);
    if (lines === null) continue;
    const uri = context.uriOf(place.uri);
    changes[uri] = [...(changes[uri] ?? []), { range: rangeOf(lines, place.span), newText: text }];
  }
  return { title, kind: CodeActionKind.RefactorRewrite, edit: { changes } };
}
