/** Sides in the words of a step, against the sides that its operations are done on. */

import type { BoundOperation, BoundStep, Target } from './model';
import type { StepOutline } from './outline';
import type { Report } from './report';
import type { Cursor } from './source';
import { thingOfTarget } from './target';
import { textReferences } from './texts';

const RULE = 'side-against-words';

/** Both sides, whatever of. */
const BOTH = ['both sides', 'left and right', 'right and left'];
const OTHER: Readonly<Record<'left' | 'right', 'left' | 'right'>> = { left: 'right', right: 'left' };

/**
 * Reports operations that are done on one side by their own or their step's `side:`, where the words of the step say both (`both
 * sides`, `both bellows`), or the other one alone (`the left bellows`). Words that say a side of anything else say nothing here.
 * @returns their paths.
 */
export function checkSideWords(
  words: Cursor,
  step: StepOutline,
  { operations }: BoundStep,
  report: Report,
): string[] {
  const said = new Set(
    step.operations.filter((one) => (one.side ?? step.side) !== null).map(({ path }) => path),
  );
  const alone = operations.filter(
    ({ path, sides, sideSaid }) => said.has(path) && sideSaid && sides.length === 1 && sides[0] !== '',
  );
  if (alone.length === 0) return [];
  const text = plain(words.text!);
  return alone.flatMap((operation) => {
    if (operations.some((one) => isCounterpart(one, operation))) return [];
    const other = OTHER[side(operation)];
    const both =
      BOTH.some((phrase) => has(text, phrase)) || operation.targets.some((one) => says(text, 'both', one));
    const wrong = !has(text, side(operation)) && operation.targets.some((one) => says(text, other, one));
    if (!both && !wrong) return [];
    const message = `The words say ${both ? 'both sides' : `the ${other} one`}, and this is done on the ${side(operation)} alone.`;
    const related = [{ place: words.place, message: 'The words' }];
    const { path, place } = operation;
    report.add(RULE, place, message, { severity: 'info', operation: path, related }, path);
    return [path];
  });
}

const side = ({ sides }: BoundOperation): 'left' | 'right' => sides[0] as 'left' | 'right';

/** The same on the other side, so that both are done. */
const isCounterpart = (one: BoundOperation, { verb, targets, sides }: BoundOperation): boolean =>
  one.verb === verb &&
  !(one.sides.length === 1 && one.sides[0] === sides[0]) &&
  one.targets.some((target) => targets.some((other) => other.written === target.written));

/** `both bellows`, `the left bellows`, `left-hand rear bellows`, of `rear-bellows`; `the left drop link` of one of that kind. */
function says(text: string, which: string, target: Target): boolean {
  const thing = thingOfTarget(target);
  const names = `${thing?.name ?? ''}-${thing?.kind ?? ''}`.split('-').filter((word) => word !== '');
  const forms = new Set(names.flatMap((word) => [word, `${word}s`, `${word}es`]));
  const words = text.split(' ');
  return words.some(
    (word, at) =>
      word === which &&
      words
        .slice(at + 1, at + 4)
        .filter((next) => next !== 'hand' && next !== 'side')
        .slice(0, 1)
        .some((next) => forms.has(next)),
  );
}

/** The words of a text that say a side, each with its neighbours. */
export function sideWords(text: string): string[] {
  const words = plain(text).split(' ');
  return words.flatMap((word, at) => (SIDES.has(word) ? [words.slice(at, at + 4).join(' ')] : []));
}

const SIDES: ReadonlySet<string> = new Set(['both', 'left', 'right']);

const has = (text: string, phrase: string): boolean => text.includes(` ${phrase} `);

/** Words in lower case with one blank between and around them; of what a text prints from the model the names of parts alone. */
function plain(text: string): string {
  let rest = '';
  let at = 0;
  for (const { kind, name, start, end } of textReferences(text)) {
    // A part is named by its reference; a figure that stands there is nothing to read.
    rest += `${text.slice(at, start)} ${kind === 'part' ? name.replaceAll('-', ' ') : '.'} `;
    at = end;
  }
  const words = `${rest}${text.slice(at)}`.toLowerCase().split(/[^\p{L}\p{N}.]+/u);
  return ` ${words.map((word) => (word.endsWith('.') ? `${word.slice(0, -1)} .` : word)).join(' ')} `;
}
