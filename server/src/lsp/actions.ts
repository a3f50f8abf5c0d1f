import {
  type CodeAction,
  CodeActionKind,
  type CodeActionParams,
} from 'vscode-languageserver/lib/common/api.js';
import type { Edit, Span } from '../findings/finding';
import type { OpenGuide } from '../workspace/guides';
import { knownInGuide, spannersAt } from '../workspace/known';
import { declarationEdits, timeEdits, undeclaredAt, untimedStepsIn } from '../workspace/missing';
import { baseName } from '../workspace/paths';
import { TriedFixes } from '../workspace/tried';
import { answering, type Context, type Feature } from './context';
import { changesOf, placed } from './edits';
import { type Asked, carried, FIX_KINDS, fixesAt, slipActions, wholeActions, worked } from './fixes';
import { newVehicleAction } from './new-vehicle';
import { answerWaivers } from './waive';

/** Fixes of what is found, a declaration of what no file has, a time for a step without one, and what is known and not written. */
export const actions: Feature = {
  capabilities: () => ({
    codeActionProvider: {
      codeActionKinds: [...FIX_KINDS, CodeActionKind.RefactorRewrite],
      resolveProvider: true,
    },
  }),
  register(connection, context) {
    const tried = new TriedFixes();
    answerWaivers(connection, context, tried);
    connection.onCodeAction(
      answering<CodeActionParams, CodeAction[]>(
        context,
        [],
        async ({ textDocument, range, context: parameters }, token) => {
          const document = await context.document(textDocument.uri);
          if (document === null) return [];
          const { version } = context.texts.open.get(document.uri) ?? {};
          const { only } = parameters;
          const wants = (kind: string) =>
            only === undefined || only.some((one) => kind === one || kind.startsWith(`${one}.`));
          const { lines } = document;
          const span = { start: lines.offsetAt(range.start), end: lines.offsetAt(range.end) };
          const asked: Asked = { document, span, parameters, token, wants };
          const found: CodeAction[] = await slipActions(context, tried, asked);
          const guide = await context.guides.open(document.uri);
          if (guide === null) {
            if (wants(CodeActionKind.RefactorRewrite))
              for (const { title, edits } of spannersAt(document, span))
                found.push(await rewrite(context, title, edits));
            return wants(CodeActionKind.QuickFix)
              ? [...found, ...(await carried(context, document, parameters.diagnostics))]
              : found;
          }
          if (wants(CodeActionKind.QuickFix)) found.push(...(await fixesAt(context, tried, guide, asked)));
          if (wants(CodeActionKind.RefactorRewrite)) found.push(...(await rewrites(context, guide, span)));
          found.push(...(await wholeActions(context, tried, guide, asked)));
          // Places of a text that has changed meanwhile mean nothing in the new one.
          return context.texts.open.get(document.uri)?.version === version ? found : [];
        },
      ),
    );
    connection.onCodeActionResolve(async (action, token) =>
      answering<CodeAction, CodeAction>(context, action, () => worked(context, tried, action, token))(
        action,
        token,
      ),
    );
  },
};

/** What a guide lacks beside findings: declarations, a vehicle file, what is known elsewhere, times. */
async function rewrites(context: Context, guide: OpenGuide, span: Span): Promise<CodeAction[]> {
  const found: CodeAction[] = [];
  for (const thing of undeclaredAt(guide, span)) {
    const vehicle = [...guide.closure.documents.values()].find(({ kind }) => kind === 'vehicle');
    const edits = vehicle === undefined ? null : declarationEdits(vehicle, thing);
    if (vehicle === undefined || edits === null) continue;
    found.push(await rewrite(context, `Declare ${thing.name} in ${baseName(vehicle.uri)}`, edits));
  }
  const vehicle = await newVehicleAction(context, guide, span);
  if (vehicle !== null) found.push(vehicle);
  for (const { title, edits } of knownInGuide(guide, span)) found.push(await rewrite(context, title, edits));
  for (const step of untimedStepsIn(guide, span)) {
    const { edits, minutes } = timeEdits(guide, step);
    const title = `Give this step a time (${minutes} min to begin with; put yours)`;
    if (edits !== null) found.push(await rewrite(context, title, edits));
  }
  return found;
}

async function rewrite(context: Context, title: string, edits: readonly Edit[]): Promise<CodeAction> {
  const edit = changesOf(context, await placed(context, edits));
  return { title, kind: CodeActionKind.RefactorRewrite, edit };
}
