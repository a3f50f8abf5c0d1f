/** Steps and operations in words, for those that say no text. */

import { printQuantity } from '../units/format';
import type { BoundOperation } from './model';
import type { StepOutline } from './outline';
import { sideOf } from './runs';
import { type Cursor, textAt } from './source';

/** What is said after an operation's target, in that order, and the word before it. */
const SAID: readonly (readonly [string, string])[] = [
  ['onto', 'onto '],
  ['to', 'to '],
  ['path', 'by '],
  ['by', 'by '],
  ['then', 'then '],
  ['with', 'with '],
  ['new', 'with new '],
  ['at', 'at '],
  ['for', 'for '],
];

/** The text of a step, else what is done in it. */
export function titleOf(
  step: StepOutline,
  operations: readonly { readonly bound: BoundOperation; readonly side: Cursor | null }[],
): string {
  const text = textAt(step.cursor, 'text');
  if (text !== null && text.trim() !== '') return text.trim();
  if (operations.length === 0) return step.id ?? step.section.title;
  const around = oneSide(step.side);
  return (
    operations.map(({ bound, side }) => wordsOf(bound, around === null ? oneSide(side) : null)).join('; ') +
    (around === null ? '' : `, ${around}`)
  );
}

/** An operation as a fitter would be told it: `support front with axle-stands`, `torque front-wheel.nut to 130 N·m, left`. */
export function wordsOf(operation: BoundOperation, side: string | null): string {
  const words = [`${operation.verb} ${operation.targets.map((target) => target.written).join(', ')}`];
  if (operation.qualifiers.get('to') === undefined) {
    const figure = figureOf(operation);
    if (figure !== null) words.push(`to ${figure}`);
  }
  for (const [key, before] of SAID) {
    const value = operation.qualifiers.get(key);
    const said = (Array.isArray(value) ? value : [value]).filter(isWord);
    if (said.length > 0) words.push(`${before}${said.join(', ')}`);
  }
  return words.join(' ') + (side === null ? '' : `, ${side}`);
}

/** The torque that an operation does not say in one word: the last of its stages, else the one figure of the data. */
function figureOf({ verb, figure, targets }: BoundOperation): string | null {
  if (verb !== 'torque') return null;
  const [said] = figure;
  if (said !== undefined) return said.value === 'maker' ? null : printQuantity(said.value);
  const joints = targets.flatMap((target) =>
    target.type === 'joint' ? [target.joint] : target.type === 'part' ? [...target.part.joints.values()] : [],
  );
  const figures = new Set(joints.map(({ torque }) => (torque === null ? null : printQuantity(torque))));
  return figures.size === 1 ? [...figures][0]! : null;
}

function oneSide(cursor: Cursor | null): string | null {
  const side = sideOf(cursor);
  return side === 'left' || side === 'right' ? side : null;
}

const isWord = (value: unknown): value is string | number =>
  typeof value === 'string' || typeof value === 'number';
