import {
  type CancellationToken,
  type CodeAction,
  CodeActionKind,
  type CodeActionParams,
  CodeActionTriggerKind,
  type Diagnostic,
} from 'vscode-languageserver/lib/common/api.js';
import { DEBTS } from '../check/repairs/debts';
import type { Edit, Finding, Span } from '../findings/finding';
import type { Checked } from '../workspace/checked-guide';
import type { Document } from '../workspace/document';
import type { Wanted } from '../workspace/drive';
import { type Many, ofRule, openList, order } from '../workspace/fix-all';
import type { OpenGuide } from '../workspace/guides';
import { findingsAt, type TriedFixes } from '../workspace/tried';
import type { Context } from './context';
import type { CarriedFix, DiagnosticData } from './diagnostic';
import { changesOf, placed, versionOf, wantedFor } from './edits';
import { FIX_ALL, fixAllAction, fixAllEdits } from './fix-all';
import { nameOfUri } from './uris';
import { waiveAction } from './waive';

/** Actions on a whole guide, by their kind: what they do, and which findings call for them. */
const WHOLE: readonly { readonly kind: string; readonly title: string; readonly many: Many }[] = [
  { kind: 'source.kitproof.closeOpenList', title: 'Close the open list', many: openList },
  { kind: 'source.kitproof.order', title: 'Move steps into order', many: order },
];

export const FIX_KINDS: readonly string[] = [
  CodeActionKind.QuickFix,
  FIX_ALL,
  ...WHOLE.map(({ kind }) => kind),
];

/** What an action that is worked out when it is chosen carries with it. */
interface Chosen {
  readonly name: string;
  readonly version: number | null;
  /** A rule, or the kind of an action on the whole guide. */
  readonly many: string;
}

/** Where an action is asked for. */
export interface Asked {
  readonly document: Document;
  readonly span: Span;
  readonly parameters: CodeActionParams['context'];
  readonly token: CancellationToken;
  wants(kind: string): boolean;
}

/**
 * Fixes of what is found at a place of a guide, each tried before it is offered; with several findings of one rule, all of
 * them in one go. What is no longer wanted, or of a text that has changed meanwhile, is given up.
 */
export async function fixesAt(
  context: Context,
  tried: TriedFixes,
  guide: OpenGuide,
  asked: Asked,
): Promise<CodeAction[]> {
  const { document, span, parameters } = asked;
  const wanted = wantedFor(context, document, asked.token);
  const today = context.today();
  const checked = await tried.checked(guide, today, wanted);
  if (checked === null) return [];
  const found: CodeAction[] = [];
  const waivers: CodeAction[] = [];
  const here = findingsAt(checked, document.uri, span);
  for (const finding of here) {
    const fixes = await tried.fixes(guide, finding, today, wanted);
    if (fixes === null) return [];
    const diagnostics = parameters.diagnostics.filter((one) => isOf(one, finding, document));
    const waive = waiveAction(context, document, guide.closure.rulebook, finding);
    if (waive !== null) waivers.push({ ...waive, diagnostics });
    for (const fix of fixes)
      found.push({
        title: fix.title,
        kind: CodeActionKind.QuickFix,
        diagnostics,
        isPreferred: fix.safe || fixes.length === 1,
        edit: changesOf(context, await placed(context, fix.edits)),
      });
    if (fixes.length === 0) {
      // No one thing closes it; all of them together may.
      if (DEBTS.has(finding.rule) && parameters.triggerKind !== CodeActionTriggerKind.Automatic)
        found.push(...(await closed(context, tried, guide, asked, checked, diagnostics)));
      continue;
    }
    const alike = checked.findings.filter(
      ({ rule, place }) => rule === finding.rule && place.uri === document.uri,
    );
    // That a person has read a step is said step by step.
    if (alike.length > 1 && finding.rule !== 'draft-step')
      found.push(
        ...(await later(context, tried, asked, {
          title: `Fix all ${alike.length} findings of ${finding.rule} in this file`,
          kind: CodeActionKind.QuickFix,
          diagnostics,
          many: finding.rule,
        })),
      );
    const debts = checked.findings.filter(({ rule }) => DEBTS.has(rule));
    if (DEBTS.has(finding.rule) && debts.length > alike.length)
      found.push(
        ...(await later(context, tried, asked, {
          title: `Close the open list (${debts.length} debts)`,
          kind: CodeActionKind.QuickFix,
          diagnostics,
          many: 'source.kitproof.closeOpenList',
        })),
      );
  }
  found.push(...(await carried(context, document, parameters.diagnostics, here)));
  // To accept what is wrong comes last.
  return wanted.cancelled ? [] : once([...found, ...waivers]);
}

/** The action that closes the whole open list, worked out at once: offered only where it does. */
async function closed(
  context: Context,
  tried: TriedFixes,
  guide: OpenGuide,
  { document, token }: Asked,
  checked: Checked,
  diagnostics: Diagnostic[],
): Promise<CodeAction[]> {
  const debts = checked.findings.filter(({ rule }) => DEBTS.has(rule));
  if (debts.length < 2) return [];
  const mended = await tried.many(guide, openList, context.today(), wantedFor(context, document, token));
  if (mended === null || mended.left > 0) return [];
  const edit = changesOf(context, await placed(context, mended.edits));
  return [
    {
      title: `Close the open list (${debts.length} debts)`,
      kind: CodeActionKind.QuickFix,
      diagnostics,
      edit,
    },
  ];
}

/** Actions on the whole guide, for menus that ask for such. */
export async function wholeActions(
  context: Context,
  tried: TriedFixes,
  guide: OpenGuide,
  asked: Asked,
): Promise<CodeAction[]> {
  const kinds = WHOLE.filter(({ kind }) => asked.parameters.only !== undefined && asked.wants(kind));
  if (kinds.length === 0) return [];
  const checked = await tried.checked(
    guide,
    context.today(),
    wantedFor(context, asked.document, asked.token),
  );
  if (checked === null) return [];
  const found: CodeAction[] = [];
  for (const { kind, title, many } of kinds)
    if (checked.findings.some(many.wanted))
      found.push(...(await later(context, tried, asked, { title, kind, diagnostics: [], many: kind })));
  return found;
}

/** The action that puts slips of the pen right in one document, of whatever kind: where such is asked for, as on saving. */
export async function slipActions(context: Context, tried: TriedFixes, asked: Asked): Promise<CodeAction[]> {
  if (asked.parameters.only === undefined || !asked.wants(FIX_ALL)) return [];
  const action = await fixAllAction(context, asked.document);
  return action === null ? [] : later(context, tried, asked, { ...action, diagnostics: [], many: FIX_ALL });
}

/** Works out an action that was chosen; without edits where the text is another by now. */
export async function worked(
  context: Context,
  tried: TriedFixes,
  action: CodeAction,
  token: CancellationToken,
): Promise<CodeAction> {
  const chosen = action.data as Chosen | undefined;
  if (typeof chosen?.name !== 'string' || action.edit !== undefined) return action;
  const document = await context.project.open(chosen.name);
  if (document === null || chosen.version !== versionOf(context, chosen.name)) return action;
  const edits = await editsFor(context, tried, document, chosen.many, wantedFor(context, document, token));
  return edits === null ? action : { ...action, edit: changesOf(context, await placed(context, edits)) };
}

async function editsFor(
  context: Context,
  tried: TriedFixes,
  document: Document,
  many: string,
  wanted: Wanted,
): Promise<readonly Edit[] | null> {
  if (many === FIX_ALL) return fixAllEdits(context, document, wanted);
  const guide = await context.guides.open(document.uri);
  if (guide === null) return null;
  const whole = WHOLE.find(({ kind }) => kind === many);
  const which = whole?.many ?? ofRule(many, document.uri);
  const mended = await tried.many(guide, which, context.today(), wanted);
  return mended === null || wanted.cancelled ? null : mended.edits;
}

/**
 * An action that takes long to work out: when it is chosen, where the client can ask then; else at once, where a person
 * asked, or the editor for just this.
 */
async function later(
  context: Context,
  tried: TriedFixes,
  { document, parameters, token }: Asked,
  { many, ...action }: Pick<CodeAction, 'title' | 'kind' | 'diagnostics'> & { readonly many: string },
): Promise<CodeAction[]> {
  const data: Chosen = { name: document.uri, version: versionOf(context, document.uri), many };
  if (resolves(context)) return [{ ...action, data }];
  if (parameters.triggerKind === CodeActionTriggerKind.Automatic && many !== FIX_ALL) return [];
  const edits = await editsFor(context, tried, document, many, wantedFor(context, document, token));
  return edits === null ? [] : [{ ...action, edit: changesOf(context, await placed(context, edits)) }];
}

/** Whether the client asks for an action's edits when it is chosen. */
function resolves({ client }: Context): boolean {
  return client.textDocument?.codeAction?.resolveSupport?.properties.includes('edit') === true;
}

/** The fixes that findings carry which another guide tells of here, or of a document that is no guide. */
export async function carried(
  context: Context,
  document: Document,
  diagnostics: readonly Diagnostic[],
  known: readonly Finding[] = [],
): Promise<CodeAction[]> {
  const version = versionOf(context, document.uri);
  return diagnostics.flatMap((diagnostic) => {
    const data = diagnostic.data as DiagnosticData | undefined;
    if (diagnostic.source !== 'kitproof' || !Array.isArray(data?.fixes) || data.version !== version)
      return [];
    if (known.some((finding) => isOf(diagnostic, finding, document))) return [];
    return data.fixes.map(({ title, edits, safe }: CarriedFix): CodeAction => {
      const named = edits.map(({ uri, edit }) => ({ uri: nameOfUri(uri), edit }));
      return {
        title,
        kind: CodeActionKind.QuickFix,
        diagnostics: [diagnostic],
        isPreferred: safe || data.fixes.length === 1,
        edit: changesOf(context, named),
      };
    });
  });
}

function isOf({ code, range }: Diagnostic, { rule, place }: Finding, { lines }: Document): boolean {
  const start = lines.positionAt(place.span.start);
  return code === rule && range.start.line === start.line && range.start.character === start.character;
}

/** Actions of one title once: two findings at one place may be mended by the same. */
function once(actions: readonly CodeAction[]): CodeAction[] {
  return [...new Map([...actions].reverse().map((action) => [action.title, action])).values()].reverse();
}
