/** One guide with all that is found in it: as it stands, or as a change would make it. */

import type { Coverage } from '../check/check';
import { Fault } from '../check/repairs/repair';
import { differences } from '../edit/difference';
import type { Edit, Finding } from '../findings/finding';
import { checkDeclarations } from '../model/declarations';
import { checkGuideOf } from './engine';
import type { GuardedCheck } from './guard';
import type { Closure } from './project';

/** A guide as it stands, or as a change would make it, with all that is found in it. */
export interface Checked {
  readonly closure: Closure;
  readonly check: GuardedCheck;
  /** Of the check, and of reading and structure of the documents that may be changed. */
  readonly findings: readonly Finding[];
  /** Texts that differ from the ones it all began with. */
  readonly texts: ReadonlyMap<string, string>;
}

/** Checks a guide and takes together what is found in it and in the documents that it leads to. */
export function* checkedGuide(
  closure: Closure,
  today: string,
  texts: ReadonlyMap<string, string> = new Map(),
): Generator<unknown, Checked, void> {
  const check = yield* checkGuideOf(closure, today);
  const found = [...check.findings];
  for (const document of closure.documents.values()) {
    // Another guide is judged with its own vehicle and kit.
    if (document.kind === 'install' && document !== closure.document) continue;
    const opened = closure.opened(document);
    found.push(...opened.findings, ...checkDeclarations(opened, closure.library));
  }
  return { closure, check, findings: found, texts };
}

/** What a planner is told of a finding; null where it is none of the check itself. */
export function faultOf({ check, closure }: Checked, finding: Finding): Fault | null {
  return check.findings.includes(finding)
    ? new Fault(finding, check, closure.document, closure.rulebook)
    : null;
}

/** Whether a change only took away what a rule decides by, or brought names that nobody declares: that is no fix. */
export function blinder(before: Checked, after: Checked, rule: string): boolean {
  return (
    hasMore(before, after, ({ undecided }) =>
      undecided.flatMap((one) => (one.rule === rule ? [`${one.item} ${one.property}`] : [])),
    ) || hasMore(before, after, ({ unchecked }) => unchecked.flatMap(({ undeclared }) => undeclared))
  );
}

function hasMore(before: Checked, after: Checked, of: (coverage: Coverage) => readonly string[]): boolean {
  const known = new Set(of(before.check.coverage));
  return of(after.check.coverage).some((one) => !known.has(one));
}

/** All that is told, with the texts it stands in. */
export const told = (checked: Checked) => ({
  findings: checked.findings,
  textOf: (uri: string) => textOf(checked, uri) ?? '',
});

/** The text of a document, as it would be. */
export function textOf({ closure, texts }: Checked, uri: string): string | null {
  return texts.get(uri) ?? closure.documents.get(uri)?.text ?? null;
}

/** The edits that make the texts of one state into those of another. */
export function editsBetween(before: Checked, after: Checked): Edit[] {
  return [...after.texts].flatMap(([uri, text]) =>
    differences(textOf(before, uri) ?? '', text).map(({ start, end, text: put }) => ({
      place: { uri, span: { start, end } },
      text: put,
    })),
  );
}
