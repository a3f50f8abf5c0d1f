import type { BoundStep } from '../model/model';
import { lookAt } from '../workspace/at';
import { type Candidate, candidate, targetsFor } from '../workspace/candidates';
import type { Document } from '../workspace/document';
import type { OpenGuide } from '../workspace/guides';

/** What may stand in the braces of a text, and the stretch that it takes the place of. */
export interface InBraces {
  readonly words: readonly Candidate[];
  readonly start: number;
  readonly end: number;
}

/** The keys whose texts print what stands in braces. */
const PRINTED: ReadonlySet<unknown> = new Set(['text', 'note']);

const WORDS: readonly Candidate[] = [
  candidate('part:', 'a part, as the guide calls it', 'Prints the name of a part or a joint.', 0),
  candidate('torque:', 'a figure', 'Prints the figure that this step tightens a joint to.', 0),
  candidate('step:', 'another step', 'Prints the number of a step, whatever it comes to be.', 0),
];

/** Within `{part:…}`, `{torque:…}` or `{step:…}` of a text: the words, then the names; what this step works on first. */
export function wordsInBraces(guide: OpenGuide, document: Document, offset: number): InBraces | null {
  const { text } = document;
  const open = text.lastIndexOf('{', offset - 1);
  if (open < 0 || offset - open > 120) return null;
  const stretch = text.slice(open + 1, offset);
  if (/[}\n\r ]/.test(stretch)) return null;
  const at = lookAt(document, offset);
  const colon = stretch.indexOf(':');
  if (colon < 0) {
    if (!/^[a-z]*$/.test(stretch) || at === null || at.onKey || !PRINTED.has(at.keys.at(-1))) return null;
    return { words: WORDS, start: open + 1, end: endOfWord(text, offset) };
  }
  const words = namesFor(stretch.slice(0, colon), guide, at?.step ?? null);
  return words === null ? null : { words, start: open + colon + 2, end: endOfName(text, offset) };
}

function endOfWord(text: string, offset: number): number {
  let end = offset;
  while (/[a-z]/.test(text[end] ?? '')) end++;
  return text[end] === ':' ? end + 1 : end;
}

function endOfName(text: string, offset: number): number {
  let end = offset;
  while (end < text.length && !'}\n\r "'.includes(text[end]!)) end++;
  return end;
}

function namesFor(word: string, { model }: OpenGuide, path: string | null): Candidate[] | null {
  const step = model.steps.find((one) => one.path === path);
  if (word === 'step')
    return model.steps.flatMap(({ id, title }) => (id === null ? [] : [candidate(id, title)]));
  if (word === 'part') return nearFirst(targetsFor(model, 'check', null), step, null);
  if (word !== 'torque') return null;
  const joints = targetsFor(model, 'torque', null).filter(({ word: name }) => name.includes('.'));
  return nearFirst(joints, step, 'torque');
}

/** What a step works on, by a verb or by any, before what else there is. */
function nearFirst(
  names: readonly Candidate[],
  step: BoundStep | undefined,
  verb: string | null,
): Candidate[] {
  const near = new Set(
    (step?.operations ?? []).flatMap((operation) =>
      verb === null || operation.verb === verb
        ? operation.targets.flatMap((target) =>
            target.type === 'part'
              ? [target.part.name, ...[...target.part.joints.values()].map(({ full }) => full)]
              : [target.written],
          )
        : [],
    ),
  );
  return names.map((one) => ({ ...one, rank: near.has(one.word) ? 0 : 1 }));
}
