/** Counts of bolts and nuts in the words of a step, against those that its joints have. */

import { jointsOfStep } from './joints-of-step';
import type { BoundOperation, BoundStep, Joint } from './model';
import { type PlainWord, plainWords } from './plain-words';
import type { Report } from './report';
import type { Cursor } from './source';

const RULE = 'words-against-data';

const NUMBERS: readonly string[] = 'one two three four five six seven eight nine ten eleven twelve'.split(
  ' ',
);
const PIECES: ReadonlySet<string> = new Set('bolt bolts nut nuts screw screws stud studs'.split(' '));
/** What may stand between a count and its piece. */
const BETWEEN: ReadonlySet<string> = new Set(
  'of the its these those new old old wheel mounting flange frame clamp lower upper long short its'.split(
    ' ',
  ),
);
/** With one of these between, they are some of the joint's bolts: `both upper bolts`. */
const SOME: ReadonlySet<string> = new Set(
  'upper lower top bottom front rear inner outer long short left right other'.split(' '),
);
/** Joints beyond these nobody adds up. */
const MOST_JOINTS = 8;

interface Counted {
  readonly count: number;
  /** `all four`, `both`: not some of them. */
  readonly all: boolean;
  readonly words: string;
  readonly start: number;
  readonly end: number;
}

/**
 * Reports `all four bolts` where there are two, or five; and `six bolts` where the step turns four in all. Only where the data
 * say of every joint that the step turns how many it has.
 */
export function checkCountWords(words: Cursor, bound: BoundStep, report: Report): void {
  const turned = jointsOfStep(bound);
  const named = new Set(turned.flatMap(({ joint }) => joint.full.toLowerCase().split(/[-.]/)));
  const said = countsIn(words.text!, (word) => named.has(word));
  if (said.length === 0) return;
  // One bolt is what a joint has whose file says nothing of it.
  if (turned.length === 0 || turned.length > MOST_JOINTS || turned.some(({ joint }) => joint.bolts < 2))
    return;
  const { sums, most } = sumsOf(turned);
  for (const { count, all, words: text, start, end } of said) {
    if (count <= most && !(all && !sums.has(count))) continue;
    const [{ joint, operation }] = turned as [(typeof turned)[number]];
    const from = words.offsetOf(start);
    const place =
      from === null ? words.place : { uri: words.place.uri, span: { start: from, end: from + end - start } };
    const has = [...new Map(turned.map((one) => [one.joint, one.joint.bolts]))]
      .map(([one, bolts]) => `${one.full} has ${bolts}`)
      .join(', ');
    report.add(RULE, place, `The words say ${text}, and ${has}.`, {
      severity: 'info',
      operation: operation.path,
      item: joint.full,
      related:
        joint.declared === null ? [] : [{ place: joint.declared, message: `${joint.full} is declared here` }],
    });
  }
}

/** Every number that some of the joints come to, on one side or on all; and the greatest. */
function sumsOf(turned: readonly { readonly joint: Joint; readonly operation: BoundOperation }[]): {
  readonly sums: ReadonlySet<number>;
  readonly most: number;
} {
  let sums = new Set([0]);
  for (const { joint, operation } of turned) {
    const instances = joint.part.instances.filter(
      ({ side }) => side === '' || operation.sides.includes(side),
    );
    const more = new Set(sums);
    for (const sum of sums)
      for (let times = 1; times <= Math.max(1, instances.length); times++)
        more.add(sum + joint.bolts * times);
    sums = more;
  }
  return { sums, most: Math.max(...sums) };
}

/**
 * The counts that a text says of bolts, nuts, screws and studs.
 * @param isName whether a word between the two is of what the step turns.
 */
export function countsIn(text: string, isName: (word: string) => boolean = () => true): Counted[] {
  const words = plainWords(text);
  return words.flatMap((one, at): Counted[] => {
    const both = one.word === 'both';
    const count = both ? 2 : /^\d{1,2}$/.test(one.word) ? Number(one.word) : NUMBERS.indexOf(one.word) + 1;
    // `M10x1.5 bolt`: a figure that something stands before is no count.
    if (count < 2 || !/^[\s(]?$/.test(text[one.start - 1] ?? '')) return [];
    const piece = pieceAfter(words, at, isName);
    if (piece === null) return [];
    const before = words[at - 1];
    const some = words.slice(at + 1, words.indexOf(piece)).some(({ word }) => SOME.has(word));
    const all = !some && (both || (before !== undefined && !before.ends && before.word === 'all'));
    const first = all && !both && before !== undefined ? before : one;
    return [
      {
        count,
        all,
        words: text.slice(first.start, piece.end),
        start: first.start,
        end: piece.end,
      },
    ];
  });
}

function pieceAfter(
  words: readonly PlainWord[],
  at: number,
  isName: (word: string) => boolean,
): PlainWord | null {
  for (let next = at + 1; next < words.length && next <= at + 4; next++) {
    if (words[next - 1]!.ends) return null;
    const one = words[next]!;
    if (PIECES.has(one.word)) return one;
    if (!BETWEEN.has(one.word) && !isName(one.word)) return null;
  }
  return null;
}
