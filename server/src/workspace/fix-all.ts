/** Many findings mended in one go, each after the other, with the guide checked anew between. */

import { DEBTS } from '../check/repairs/debts';
import type { PlanKind } from '../check/repairs/repair';
import { applyEdits, editsByDocument } from '../edit/apply';
import type { Edit, Finding } from '../findings/finding';
import { type Checked, checkedGuide, editsBetween } from './checked-guide';
import { fixesFor } from './fixes';
import { withTexts } from './rebound';

/** What mending many came to. */
export interface Mended {
  readonly edits: readonly Edit[];
  /** What was done, in order. */
  readonly titles: readonly string[];
  /** The findings that were mended. */
  readonly findings: readonly Finding[];
}

export interface Many {
  /** Which findings are to be mended. */
  readonly wanted: (finding: Finding) => boolean;
  /** Take the last that stands in the guide first: debts are closed in reverse order of opening. */
  readonly lastFirst?: boolean;
  readonly kinds?: readonly PlanKind[];
}

/** Findings that are mended in one go, at most, and runs of the check for each and for all. */
const MOST_FINDINGS = 60;
const RUNS_EACH = 24;
const MOST_ROUNDS = 80;

/** Mends the findings that are wanted, as far as that can be; null where none can. */
export function* mendMany(
  checked: Checked,
  today: string,
  { wanted, lastFirst = false, kinds }: Many,
): Generator<unknown, Mended | null, void> {
  let current = checked;
  const titles: string[] = [];
  const mended: Finding[] = [];
  const given = new Set<string>();
  let before = 0;
  for (let round = 0; round < MOST_ROUNDS && mended.length < MOST_FINDINGS; round++) {
    const target = next(current, (one) => wanted(one) && !given.has(keyOf(current, one)), lastFirst);
    if (target === null) {
      // What could not be mended by itself may be, now that others are.
      if (mended.length === before) break;
      before = mended.length;
      given.clear();
      continue;
    }
    given.add(keyOf(current, target));
    const own: Checked = { ...current, texts: new Map() };
    const bounds = { runs: RUNS_EACH, fixes: 1, ...(kinds === undefined ? {} : { kinds }) };
    const [fix] = yield* fixesFor(own, target, today, bounds);
    if (fix === undefined) continue;
    const texts = new Map(current.texts);
    for (const [uri, edits] of editsByDocument(fix.edits)) {
      const text = current.closure.documents.get(uri)?.text;
      const made = text === undefined ? null : applyEdits(text, edits);
      if (made !== null) texts.set(uri, made);
    }
    const closure = withTexts(current.closure, texts);
    if (closure === null) continue;
    current = yield* checkedGuide(closure, today, texts);
    titles.push(fix.title);
    mended.push(target);
  }
  return mended.length === 0 ? null : { edits: editsBetween(checked, current), titles, findings: mended };
}

/** All findings of a rule in one document. */
export const ofRule = (rule: string, uri: string): Many => ({
  wanted: (finding) => finding.rule === rule && finding.place.uri === uri,
});

/** The open list, closed in reverse order of opening. */
export const openList: Many = { wanted: ({ rule }) => DEBTS.has(rule), lastFirst: true };

/** Steps moved into an order in which less is found. */
export const order: Many = { wanted: ({ operation }) => operation !== undefined, kinds: ['move'] };

function next(
  { findings }: Checked,
  wanted: (finding: Finding) => boolean,
  lastFirst: boolean,
): Finding | null {
  const found = findings.filter(wanted).sort((a, b) => a.place.span.start - b.place.span.start);
  return (lastFirst ? found[found.length - 1] : found[0]) ?? null;
}

/** What a finding is known by while the text around it changes: the words where it stands are part of it. */
function keyOf({ closure }: Checked, { rule, item, place, sides }: Finding): string {
  const words = closure.documents.get(place.uri)?.text.slice(place.span.start, place.span.end) ?? '';
  return [rule, item ?? '', (sides ?? []).join(), words].join('\n');
}
