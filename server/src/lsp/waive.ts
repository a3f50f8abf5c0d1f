import {
  type ClientCapabilities,
  type CodeAction,
  CodeActionKind,
  type Connection,
  type WorkspaceEdit,
} from 'vscode-languageserver/lib/common/api.js';
import { mayBeWaived } from '../check/check';
import type { Finding } from '../findings/finding';
import type { Rulebook } from '../rules/rulebook';
import type { Document } from '../workspace/document';
import { drive } from '../workspace/drive';
import type { TriedFixes } from '../workspace/tried';
import { waiving } from '../workspace/waive';
import { answering, type Context } from './context';
import { changesOf, placed, versionOf, wantedFor } from './edits';
import { WAIVE_COMMAND, WAIVE_REQUEST, type WaiveParams, type WaiveTarget } from './waive-types';

/** Whether a client says that it can ask for a reason: a waiver without one waives nothing, so no edit could offer it. */
export function canWaive({ experimental }: ClientCapabilities): boolean {
  return (experimental as { kitproof?: { waive?: unknown } } | undefined)?.kitproof?.waive === true;
}

/** The action that accepts a finding where it stands, by the client's own command; null where it cannot be accepted. */
export function waiveAction(
  context: Context,
  document: Document,
  rulebook: Rulebook,
  finding: Finding,
): Pick<CodeAction, 'title' | 'kind' | 'command'> | null {
  if (!canWaive(context.client) || !mayBeWaived(finding, rulebook)) return null;
  const title = `Waive ${finding.rule} here, with a reason`;
  const target: WaiveTarget = {
    uri: context.uriOf(document.uri),
    version: versionOf(context, document.uri),
    rule: finding.rule,
    message: finding.message,
    ...document.lines.positionAt(finding.place.span.start),
  };
  return {
    title,
    kind: CodeActionKind.QuickFix,
    command: { title, command: WAIVE_COMMAND, arguments: [target] },
  };
}

/** Answers the command when it has the reason and the name. */
export function answerWaivers(connection: Connection, context: Context, tried: TriedFixes): void {
  connection.onRequest(
    WAIVE_REQUEST,
    answering<WaiveParams, WorkspaceEdit | null>(context, null, async (asked, token) => {
      const document = await context.document(asked.uri);
      const guide = document === null ? null : await context.guides.open(document.uri);
      if (document === null || guide === null || asked.version !== versionOf(context, document.uri))
        return null;
      const wanted = wantedFor(context, document, token);
      const today = context.today();
      const checked = await tried.checked(guide, today, wanted);
      const start = document.lines.offsetAt(asked);
      const finding = checked?.findings.find(
        ({ rule, place }) => rule === asked.rule && place.uri === document.uri && place.span.start === start,
      );
      if (checked === null || finding === undefined) return null;
      const acceptance = { because: asked.because.trim(), by: asked.by.trim(), until: asked.until.trim() };
      const edits = await drive(waiving(checked, finding, acceptance, today), wanted);
      return edits === null ? null : changesOf(context, await placed(context, edits));
    }),
  );
}
