/** Which known name a writer most likely meant. */

import { distance } from 'fastest-levenshtein';

/** Distances measured for one document before guesses are given up: unknown names times known ones may be many. */
const GUESSES = 200_000;
/** Names longer than this are not names. */
const LONGEST = 80;

interface Known {
  readonly name: string;
  readonly letters: number;
  readonly sorted: string;
}

/** Known names to guess from. Answers do not depend on the order of questions until the bound is reached. */
export class NameGuesser {
  private readonly names: ReadonlySet<string>;
  /** Made when something is asked: most guides have no slip. */
  private known: readonly Known[] | null = null;
  private readonly answers = new Map<string, string | null>();
  private left = GUESSES;

  /** Whether a name is near one known name alone (`isOnlyNear`). */
  isOnly(written: string, near: string): boolean {
    return isOnlyNear(written, near, this.names);
  }

  constructor(names: Iterable<string>) {
    this.names = new Set(names);
  }

  /** The nearest known name that is near enough to be a slip of the pen, null where there is none. */
  nearest(written: string): string | null {
    const answered = this.answers.get(written);
    if (answered !== undefined) return answered;
    const answer = this.search(written);
    this.answers.set(written, answer);
    return answer;
  }

  private search(written: string): string | null {
    if (written.length > LONGEST) return null;
    const letters = lettersOf(written);
    const sorted = wordsSorted(written);
    const allowed = allowedDistance(written);
    let best: string | null = null;
    let bestAway = Number.POSITIVE_INFINITY;
    this.known ??= [...this.names].map(knownOf);
    for (const known of this.known) {
      if (known.name === written) return written;
      const { length } = known.name;
      const turned = known.sorted === sorted;
      if (
        !turned &&
        (Math.abs(length - written.length) > allowed || bits(known.letters ^ letters) > 2 * allowed)
      )
        continue;
      if (this.left-- <= 0) return best;
      const away = turned ? 0.5 : apart(written.toLowerCase(), known.name.toLowerCase());
      if (away >= bestAway || away > allowed || !isSlip(written, known.name)) continue;
      best = known.name;
      bestAway = away;
    }
    return best;
  }
}

const knownOf = (name: string): Known => ({
  name,
  letters: lettersOf(name),
  sorted: wordsSorted(name),
});

/** True where a name is one slip away from one name, and far from all others: nobody need be asked which was meant. */
export function isOnlyNear(written: string, near: string, names: Iterable<string>): boolean {
  const away = (name: string) =>
    wordsSorted(name) === wordsSorted(written) ? 0.5 : apart(written.toLowerCase(), name.toLowerCase());
  if (away(near) > 1) return false;
  for (const name of names) {
    if (name === near || Math.abs(name.length - written.length) > 2) continue;
    if (away(name) <= 2) return false;
  }
  return true;
}

/** The nearest of a few names. */
export function nearestName(written: string, names: Iterable<string>): string | null {
  return new NameGuesser(names).nearest(written);
}

/** Letters apart; two neighbours that changed places (`gaurd`) are one slip. */
function apart(written: string, known: string): number {
  if (written.length === known.length) {
    let at = 0;
    while (at < written.length && written[at] === known[at]) at++;
    const swapped =
      written[at] !== undefined &&
      written[at] === known[at + 1] &&
      written[at + 1] === known[at] &&
      written.slice(at + 2) === known.slice(at + 2);
    if (swapped) return 1;
  }
  return distance(written, known);
}

function allowedDistance(written: string): number {
  return written.length < 4 ? 0 : written.length < 7 ? 1 : 2;
}

/**
 * `front-arm-1` is no slip for `front-arm-2`, nor `left-arm` for `right-arm`: a differing word with a figure in it, or a
 * short one that differs by more than one letter, was written on purpose.
 */
function isSlip(written: string, known: string): boolean {
  const ours = written.split(/[-._ ]/);
  const theirs = known.split(/[-._ ]/);
  if (ours.length !== theirs.length) return !hasDigit(written) || digitsOf(written) === digitsOf(known);
  return (
    ours.every((word, index) => {
      const other = theirs[index]!;
      if (word === other) return true;
      if (digitsOf(word) !== digitsOf(other)) return false;
      return (
        Math.max(word.length, other.length) > 4 ||
        distance(word, other) <= 1 ||
        sortedLetters(word) === sortedLetters(other)
      );
    }) || wordsSorted(written) === wordsSorted(known)
  );
}

const hasDigit = (text: string): boolean => digitsOf(text) !== '';
const digitsOf = (text: string): string => [...text].filter((char) => char >= '0' && char <= '9').join('');
const wordsSorted = (name: string): string =>
  name
    .toLowerCase()
    .split(/[-._ ]/)
    .sort()
    .join('-');
const sortedLetters = (word: string): string => [...word].sort().join('');

/** One bit for each letter that occurs: names that differ in many letters are never near. */
function lettersOf(name: string): number {
  let letters = 0;
  for (let index = 0; index < name.length; index++) letters |= 1 << (name.charCodeAt(index) & 31);
  return letters;
}

function bits(set: number): number {
  let count = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) count++;
  return count;
}
