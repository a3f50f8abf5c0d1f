/** What an operation says otherwise beside its verb and its thing, in words. */

import type { Said } from './account';
import { type Change, capital } from './change';

export interface QualifierChange extends Pick<Change, 'kind' | 'level' | 'rank' | 'from' | 'to'> {
  /** The sentence for one or several things. */
  readonly sentence: (items: string) => string;
}

/** How much there is to a qualifier, and the words before it. */
export function qualifierChange(
  key: string,
  was: Said | undefined,
  is: Said | undefined,
  verb: string,
  where: string,
  dangerous: boolean,
): QualifierChange {
  const [from, to] = [was?.shown ?? null, is?.shown ?? null];
  const sides = { from, to };
  const kind = key === 'then' || key === 'pattern' || key === 'stages' ? 'torque' : 'operation-changed';
  if (key === 'note') {
    return {
      kind: 'words',
      level: 'words',
      rank: 40,
      ...sides,
      sentence: (items) => `${capital(where)}: the remark at ${verb} ${items} ${becameInWords(from, to)}.`,
    };
  }
  const serious =
    dangerous ||
    ['then', 'stages', 'new', 'stays', 'at', 'onto', 'expect', 'else'].includes(key) ||
    (key === 'to' && ['inflate', 'adjust', 'set', 'switch'].includes(verb));
  const said = (value: string | null) =>
    value === null
      ? ''
      : value === 'true'
        ? key.replaceAll('-', ' ')
        : `${BEFORE.get(key) ?? `${key} `}${value}`;
  return {
    kind,
    level: serious && verb !== 'record' ? 'first' : 'work',
    rank: kind === 'torque' ? 26 : serious ? 32 : 42,
    ...sides,
    sentence: (items) => insteadOf(where, `${verb} ${items}`, said(to), said(from)),
  };
}

const BEFORE: ReadonlyMap<string, string> = new Map([
  ['then', 'then turned '],
  ['pattern', 'in the pattern '],
  ['stages', 'in the stages '],
  ['new', 'with new '],
  ['stays', 'leaving behind '],
  ['path', 'by '],
  ['expect', 'expecting '],
  ['else', 'else taken for '],
]);

/** That an operation says something else, something more, or no longer something. */
export function insteadOf(where: string, what: string, to: string, from: string): string {
  if (from === '') return `${capital(where)} now says to ${what} ${to}; before, it did not say that.`;
  if (to === '') return `${capital(where)} still says to ${what}, but no longer ${from}.`;
  return `${capital(where)} now says to ${what} ${to} instead of ${from}.`;
}

export function becameInWords(from: string | null, to: string | null): string {
  if (from === null) return 'is new';
  return to === null ? 'is gone' : 'reads otherwise';
}

export function sidesInWords(sides: string): string {
  if (sides === 'left' || sides === 'right') return `on the ${sides} alone`;
  if (sides === 'left, right' || sides === 'left+right') return 'on both sides, left, then right';
  return sides === '' ? 'on no side' : `on ${sides}`;
}
