/** A finding accepted where it stands, tried before it is written. */

import { outcomeOf } from '../check/repairs/outcome';
import { applyEdits } from '../edit/apply';
import { differences } from '../edit/difference';
import { GuideText } from '../edit/steps';
import type { Edit, Finding } from '../findings/finding';
import { type Checked, checkedGuide, told } from './checked-guide';
import { withTexts } from './rebound';

/** Why a finding is accepted, by whom, and the last day that it is, `2031-04-30`. */
export interface Acceptance {
  readonly because: string;
  readonly by: string;
  readonly until: string;
}

/**
 * The edits that accept a finding of a guide. Null where the text does not allow it, or where it would not do: the finding
 * would still stand, or something else would be found, such as a waiver that ran out.
 */
export function* waiving(
  checked: Checked,
  finding: Finding,
  { because, by, until }: Acceptance,
  today: string,
): Generator<unknown, Edit[] | null, void> {
  const { document } = checked.closure;
  if (finding.operation === undefined || finding.place.uri !== document.uri) return null;
  // What goes wrong in a section from elsewhere is accepted at the `use` of it.
  const path = finding.operation.split('/', 1)[0]!;
  const edits = new GuideText(document).addWaiver(path, { rule: finding.rule, because, by, until });
  const text = edits === null ? null : applyEdits(document.text, edits);
  if (edits === null || text === null) return null;
  const texts = new Map([[document.uri, text]]);
  const closure = withTexts(checked.closure, texts);
  if (closure === null) return null;
  const after = yield* checkedGuide(closure, today, texts);
  const changes = new Map([[document.uri, differences(document.text, text)]]);
  const { gone, fresh } = outcomeOf(told(checked), told(after), finding, changes);
  return gone && fresh.length === 0 ? edits : null;
}
