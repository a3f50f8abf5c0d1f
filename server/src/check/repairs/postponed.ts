/** A final torque that comes too early: only snug there, and its torque as a step of its own later. */

import { applyEdits, together } from '../../edit/apply';
import { type Entry, numbersOf } from '../../edit/steps';
import { dataOf } from '../../edit/values';
import type { Edit } from '../../findings/finding';
import { torqueSpots } from './closing-places';
import { type Fault, outerStep, type Plan } from './repair';
import { clauseOf, sentenceOf } from './words';
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
  const sentence = newSentence(fault, path, snug);
  for (const spot of torqueSpots(fault, { entries: [final] })) {
    const later = insertion(fault, { entries: [final] }, spot, 'later', conditionOf(fault));
    const edits = together(here, sentence, later?.edits ?? null);
    if (edits === null) continue;
    const title = `Only ${clauseOf({ snug: target }, model)} here, and tighten it later`;
    yield { kind: 'insert', title, edits, drafts: 1 };
  }
}

/** The sentence of a draft that a fix wrote, when an operation of it becomes another: none where a person wrote it. */
function newSentence({ guide, model }: Fault, path: string, becomes: Entry): Edit[] {
  const step = outerStep(path);
  const map = step === null ? null : guide.step(step);
  if (step === null || map === null) return [];
  const { text, draft, do: list } = dataOf(map, guide.source.reading) as Entry;
  if (draft !== true || !Array.isArray(list)) return [];
  const entries = list as readonly Entry[];
  const { operation } = numbersOf(path);
  if (text !== sentenceOf(entries, model)) return [];
  const next = entries.map((one, index) => (index === operation - 1 ? becomes : one));
  return guide.setKey(step, 'text', sentenceOf(next, model)) ?? [];
}
