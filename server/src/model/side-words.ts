/** Sides in the words of a step, against the sides that its operations are done on. */

import type { BoundOperation, BoundStep, Side, Target } from './model';
import type { Report } from './report';
import type { Cursor } from './source';
import { textReferences } from './texts';

const RULE = 'side-against-words';

/** Both sides, whatever of. */
const BOTH = ['both sides', 'each side', 'either side', 'left and right', 'right and left', 'both left and'];
const ONE: Readonly<Record<'left' | 'right', readonly string[]>> = {
  left: ['the left', 'left side', 'left hand side'],
  right: ['the right', 'right side', 'right hand side'],
};
const OTHER: Readonly<Record<'left' | 'right', 'left' | 'right'>> = { left: 'right', right: 'left' };

/**
 * Reports operations that are done on one side by their `side:`, where the words of the step say both (`both sides`, `both
 * bellows`), or the other side alone.
 * @returns their paths.
 */
export function checkSideWords(words: Cursor, { operations }: BoundStep, report: Report): string[] {
  const told: string[] = [];
  const alone = operations.filter((one) => one.sideSaid && one.sides.length === 1 && one.sides[0] !== '');
  if (alone.length === 0) return told;
  const text = plain(words.text!);
  const tell = (operation: BoundOperation, said: string) => {
    const [side] = operation.sides;
    told.push(operation.path);
    const { place, path } = operation;
    const message = `The words say ${said}, and this is done on the ${side} alone.`;
    report.add(
      RULE,
      place,
      message,
      { severity: 'info', operation: path, related: [{ place: words.place, message: 'The words' }] },
      path,
    );
  };
  for (const operation of alone) {
    if (operations.some((one) => isCounterpart(one, operation))) continue;
    if (BOTH.some((phrase) => has(text, phrase)) || operation.targets.some((one) => saysBoth(text, one)))
      tell(operation, 'both sides');
    else if (saysOther(text, operation.sides[0]!)) tell(operation, `the ${OTHER[side(operation)]} one`);
  }
  return told;
}

const side = ({ sides }: BoundOperation): 'left' | 'right' => sides[0] as 'left' | 'right';

/** The same on the other side, so that both are done. */
const isCounterpart = (one: BoundOperation, { verb, targets, sides }: BoundOperation): boolean =>
  one.verb === verb &&
  !(one.sides.length === 1 && one.sides[0] === sides[0]) &&
  one.targets.some((target) => targets.some((other) => other.written === target.written));

/** `both bellows`, of `rear-bellows`. */
function saysBoth(text: string, { written }: Target): boolean {
  const names = written.split('.')[0]!.split('-');
  return names.some((word) => [word, `${word}s`, `${word}es`].some((form) => has(text, `both ${form}`)));
}

/** Whether the words are of one side alone, and of the other one. */
function saysOther(text: string, is: Side): boolean {
  if (is === '') return false;
  const other = OTHER[is];
  return ONE[other].some((phrase) => has(text, phrase)) && !has(text, is);
}

/** The words of a text that say a side, each with its neighbours. */
export function sideWords(text: string): string[] {
  const words = plain(text).split(' ');
  return words.flatMap((word, at) =>
    SIDES.has(word) ? [words.slice(Math.max(0, at - 2), at + 3).join(' ')] : [],
  );
}

const SIDES: ReadonlySet<string> = new Set(['both', 'each', 'either', 'left', 'right', 'side', 'sides']);

const has = (text: string, phrase: string): boolean => text.includes(` ${phrase} `);

/** Words in lower case with one blank between and around them; what a text prints from the model is left out. */
function plain(text: string): string {
  let rest = '';
  let at = 0;
  for (const { start, end } of textReferences(text)) {
    rest += `${text.slice(at, start)} . `;
    at = end;
  }
  const words = `${rest}${text.slice(at)}`.toLowerCase().split(/[^\p{L}\p{N}.]+/u);
  return ` ${words.map((word) => (word.endsWith('.') ? `${word.slice(0, -1)} .` : word)).join(' ')} `;
}
