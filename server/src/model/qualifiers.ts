/** What steps and operations say beside their targets: places, sides and words. */

import { type Sides, sidesAround } from './guards';
import type { Side } from './model';
import { nearestName } from './nearest';
import { listed, type Report, shown, suggestion } from './report';
import { type Frame, reportOf } from './runs';
import type { OperationScope } from './scope';
import type { Cursor } from './source';

const WORDS = [
  'to',
  'path',
  'via',
  'end',
  'at',
  'else',
  'pattern',
  'expect',
  'then',
  'for',
  'until',
  'into',
  'as',
  'amount',
  'under',
  'by',
] as const;

/** Place qualifiers of what stands around, and of the thing itself over them. */
export function withStations(
  around: ReadonlyMap<string, readonly string[]>,
  cursor: Cursor,
  scope: OperationScope,
  frame: Frame,
): ReadonlyMap<string, readonly string[]> {
  if (scope.placeKeys.size === 0) return around;
  const own = stationsIn(cursor, scope, frame);
  return own.length === 0 ? around : new Map([...around, ...own]);
}

/** Place qualifiers (`station: front`) of a step or an operation. */
function stationsIn(cursor: Cursor, scope: OperationScope, frame: Frame): [string, readonly string[]][] {
  return cursor.entries().flatMap(([key, value]): [string, readonly string[]][] => {
    const known = scope.placeKeys.get(key);
    if (known === undefined) return [];
    const places = value.items().flatMap((item) => {
      if (item.text === null) return [];
      if (known.includes(item.text)) return [item.text];
      const near = nearestName(item.text, known);
      const fixes = near === null ? [] : suggestion(item.place, near).fixes;
      const message = `${key} is never "${shown(item.text)}": it is ${listed(known)}.`;
      reportOf(frame, scope.report).add('unknown-place', item.place, message, { fixes });
      return [];
    });
    return [[key, places]];
  });
}

/**
 * A `side` that leaves nothing of what stands around it. What a section has for one side may well be left out by a guide
 * that uses it for the other.
 * @returns whether it is a mistake.
 */
export function reportEmptied({ emptied, by }: Sides, frame: Frame, report: Report): boolean {
  const around = sidesAround(frame);
  if (emptied === null || (frame.use !== null && around.emptied === null && around.left.length === 1))
    return false;
  const other = emptied.text === 'left' ? 'right' : 'left';
  // A `use` that leaves nothing is the guide's own.
  const at = around.emptied === null ? reportOf(frame, report) : report;
  const message = `This is for the ${emptied.text}, but the ${by || 'guide'} is for the ${other} alone, so it is never done.`;
  at.add('no-side-left', emptied.place, message);
  return true;
}

/** Qualifiers that are words, as text. */
export function wordsIn(cursor: Cursor, verb: string): Map<string, string> {
  const words = new Map<string, string>();
  for (const key of WORDS) {
    const value = cursor.get(key);
    if (value === null) continue;
    const text = value.isMap
      ? value
          .entries()
          .map(([word, figure]) => `${word} ${figure.text ?? ''}`)
          .join(', ')
      : value.texts.join(', ');
    if (text !== '') words.set(key, text);
  }
  // `route: x`, `to: p` says the path in another word.
  const path = words.get('path') ?? words.get('to');
  if (verb === 'route' && path !== undefined) words.set('path', path);
  return words;
}

/** The side of an article. */
export const sideText = (text: string | null): Side => (text === 'left' || text === 'right' ? text : '');
