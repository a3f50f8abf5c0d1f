import {
  type CodeAction,
  CodeActionKind,
  CreateFile,
  TextDocumentEdit,
  TextEdit,
} from 'vscode-languageserver/lib/common/api.js';
import type { Span } from '../findings/finding';
import type { OpenGuide } from '../workspace/guides';
import { undeclaredAt } from '../workspace/missing';
import { baseName } from '../workspace/paths';
import { newVehicleFor } from '../workspace/vehicle-file';
import { type Context, rangeOf } from './context';

/**
 * The action that writes a vehicle file for a guide without one. It is offered where the guide says what it is for and at
 * what no file declares, to clients that can make a file.
 */
export async function newVehicleAction(
  context: Context,
  guide: OpenGuide,
  span: Span,
): Promise<CodeAction | null> {
  const { documentChanges, resourceOperations = [] } = context.client.workspace?.workspaceEdit ?? {};
  if (documentChanges !== true || !resourceOperations.includes('create')) return null;
  const head = guide.model.steps[0]?.place.span.start ?? Number.POSITIVE_INFINITY;
  if (span.start > head && undeclaredAt(guide, span).length === 0) return null;
  const made = await newVehicleFor(guide, context.project, context.today());
  if (made === null) return null;
  const uri = context.uriOf(made.uri);
  const start = { line: 0, character: 0 };
  const version = context.texts.open.get(guide.document.uri)?.version ?? null;
  return {
    title: `Write ${baseName(made.uri)} with what this guide names`,
    kind: CodeActionKind.RefactorRewrite,
    edit: {
      documentChanges: [
        CreateFile.create(uri, { ignoreIfExists: true }),
        TextDocumentEdit.create({ uri, version: null }, [TextEdit.insert(start, made.text)]),
        ...(made.edits.length === 0
          ? []
          : [
              TextDocumentEdit.create(
                { uri: context.uriOf(guide.document.uri), version },
                made.edits.map(({ place, text }) =>
                  TextEdit.replace(rangeOf(guide.document.lines, place.span), text),
                ),
              ),
            ]),
      ],
    },
  };
}
