import { type CodeAction, CodeActionKind } from 'vscode-languageserver/lib/common/api.js';
import { differences } from '../edit/difference';
import type { Edit } from '../findings/finding';
import type { Document } from '../workspace/document';
import type { Wanted } from '../workspace/drive';
import { mendSlips } from '../workspace/mend';
import type { Context } from './context';

/** The kind of action that an editor may make whenever a document is saved: nothing that a person ought to see first. */
export const FIX_ALL = `${CodeActionKind.SourceFixAll}.kitproof`;

/** The action that does to one document what `check --fix` does; null where it has nothing to put right. */
export async function fixAllAction(
  context: Context,
  { uri }: Document,
): Promise<Pick<CodeAction, 'title' | 'kind'> | null> {
  await context.checker.whenNear(uri);
  const safe = context.checker
    .findingsOf(uri)
    .some(({ fixes }) => fixes.some((fix) => fix.safe && fix.edits.every(({ place }) => place.uri === uri)));
  return safe ? { title: 'Put every slip of the pen right', kind: FIX_ALL } : null;
}

/** Its edits, all of that document; null where they are no longer wanted, or nothing can be put right after all. */
export async function fixAllEdits(
  context: Context,
  { uri, text }: Document,
  wanted: Wanted,
): Promise<Edit[] | null> {
  const mended = await mendSlips(context.texts, [uri], { today: context.today(), wanted });
  const made = mended?.texts.get(uri);
  if (made === undefined) return null;
  return differences(text, made).map(({ start, end, text: put }) => ({
    place: { uri, span: { start, end } },
    text: put,
  }));
}
