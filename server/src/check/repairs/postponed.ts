/** A final torque that comes too early: only snug there, and its torque as a step of its own later. */

import { applyEdits, together } from '../../edit/apply';
import type { Entry } from '../../edit/steps';
import { dataOf } from '../../edit/values';
import { torqueSpots } from './closing-places';
import type { Fault, Plan } from './repair';
import { clauseOf } from './words';
import { conditionOf, insertion } from './work';

/** What belongs to the final torque alone. */
const FINAL: ReadonlySet<string> = new Set(['torque', 'to', 'then', 'pattern', 'stages', 'at', 'with']);

/** `torque-off-ride-height` and `not-at-ride-height`. */
export function* snugThenTorque(fault: Fault): Generator<Plan | null> {
  const { path, guide, model } = fault;
  const map = path === null ? null : guide.operation(path);
  if (path === null || map === null) return;
  const said = dataOf(map, guide.source.reading) as Entry;
  const { torque: target } = said;
  if (target === undefined) return;
  const kept = Object.fromEntries(Object.entries(said).filter(([key]) => !FINAL.has(key)));
  const final = Object.fromEntries(Object.entries(said).filter(([key]) => key !== 'new' && key !== 'waive'));
  const snug: Entry = { snug: target, ...kept };
  const gone = Object.keys(said).filter((key) => key !== 'torque' && FINAL.has(key));
  // Word by word where that can be, so that comments between the words stay.
  const words = together(
    guide.renameKey(path, 'torque', 'snug'),
    ...gone.map((key) => guide.removeKey(path, key)),
  );
  const apart = words !== null && applyEdits(guide.source.text, words) !== null;
  const here = apart ? words : guide.replaceOperation(path, snug);
  for (const spot of torqueSpots(fault, { entries: [final] })) {
    const later = insertion(fault, { entries: [final] }, spot, 'later', conditionOf(fault));
    const edits = together(here, later?.edits ?? null);
    if (edits === null) continue;
    const title = `Only ${clauseOf({ snug: target }, model)} here, and tighten it later`;
    yield { kind: 'insert', title, edits, drafts: 1 };
  }
}
