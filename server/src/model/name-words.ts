/** Names of parts and aids in the words of a step, against those of its operations. */

import { jointsOfStep } from './joints-of-step';
import type { Aid, BoundOperation, BoundStep, Target } from './model';
import { type PlainWord, plainWords } from './plain-words';
import type { Report } from './report';
import type { Cursor } from './source';
import { thingOfTarget } from './target';

const RULE = 'name-against-words';

/** Words that tell one part from its fellow. */
const FELLOWS: readonly (readonly [readonly string[], readonly string[]])[] = [
  [['front'], ['rear', 'back']],
  [
    ['upper', 'top'],
    ['lower', 'bottom'],
  ],
  [
    ['inner', 'inboard'],
    ['outer', 'outboard'],
  ],
];
const POSITIONS: ReadonlySet<string> = new Set(FELLOWS.flat(2));

/** The last words of aids that a text is looked through for. */
const AIDS: ReadonlySet<string> = new Set('jack stand lift hoist ramp block dolly sling'.split(' '));
/** What stands before an aid that is used, and not merely near by. */
const USES: ReadonlySet<string> = new Set('with on onto by using two both a an the pair of'.split(' '));

/**
 * Reports words that name the fellow of what is worked on (`the rear shock`, and the operation is on `front-shock`), and another aid than
 * the operation's. Only where the words never say what the operation does.
 */
export function checkNameWords(
  words: Cursor,
  bound: BoundStep,
  aids: ReadonlyMap<string, Aid>,
  report: Report,
): void {
  const said = plainWords(words.text!);
  checkParts(words, said, bound, report);
  checkAids(words, said, bound, aids, report);
}

function checkParts(words: Cursor, said: readonly PlainWord[], bound: BoundStep, report: Report): void {
  const { operations } = bound;
  const spoken = new Set(said.map(({ word }) => word));
  // A part stands for all its joints.
  const joints = new Set(jointsOfStep(bound).flatMap(({ joint }) => joint.full.toLowerCase().split(/[-.]/)));
  const named = operations.flatMap((operation) =>
    operation.targets.map((target) => ({ operation, target, names: namesOf(target) })),
  );
  for (const [at, one] of said.entries()) {
    const pair = FELLOWS.flatMap(([a, b]) => [
      { own: a, other: b },
      { own: b, other: a },
    ]).find(({ own }) => own.includes(one.word));
    const noun = said[at + 1];
    if (pair === undefined || noun === undefined || one.ends || POSITIONS.has(noun.word)) continue;
    // What the operation is called stands in the words too: then both are spoken of.
    if (pair.other.some((word) => spoken.has(word))) continue;
    const forms = [noun.word, noun.word.replace(/s$/, ''), noun.word.replace(/es$/, '')];
    // `The rear bolt` says nothing against `front-caliper.bolt`: a word of the part is no word of its joint.
    const of = named.flatMap(({ operation, target, names }) =>
      names.flatMap((own) =>
        forms.some((form) => own.has(form)) ? [{ operation, target, names: own }] : [],
      ),
    );
    if (
      of.length === 0 ||
      named.some(({ names }) => pair.own.some((word) => names.some((own) => own.has(word))))
    )
      continue;
    if (pair.own.some((word) => joints.has(word))) continue;
    const wrong = of.find(({ names }) => pair.other.some((word) => names.has(word)));
    if (wrong === undefined || of.some((other) => !pair.other.some((word) => other.names.has(word))))
      continue;
    const { operation, target } = wrong;
    tell(words, one, noun, `this is done on ${target.written}`, operation, report);
  }
}

/** The words of a name: of the thing with its kind, and apart from them those of its joint or end. */
function namesOf(target: Target): readonly ReadonlySet<string>[] {
  const thing = thingOfTarget(target);
  const [part = '', ...more] = target.written.toLowerCase().split('.');
  const own = `${part}-${thing?.name ?? ''}-${thing?.kind ?? ''}`;
  return [own, ...more].map((words) => new Set(words.split(/[- ]+/)));
}

function checkAids(
  words: Cursor,
  said: readonly PlainWord[],
  { operations }: BoundStep,
  aids: ReadonlyMap<string, Aid>,
  report: Report,
): void {
  const used = operations.flatMap((operation) =>
    [...operation.aids, ...operation.onto.aids].map((aid) => ({ aid, operation })),
  );
  if (used.length === 0 || used.some(({ aid }) => !aid.known)) return;
  const spoken = said.flatMap((last, at) => {
    const before = said[at - 1];
    if (before === undefined || before.ends || !AIDS.has(singular(last.word))) return [];
    const two = said[at - 2];
    const names = [
      ...(two !== undefined && !two.ends
        ? [{ first: two, name: `${two.word}-${before.word}-${singular(last.word)}` }]
        : []),
      { first: before, name: `${before.word}-${singular(last.word)}` },
    ];
    const found = names.find(({ name }) => aids.has(name) || aids.has(`${name}s`));
    if (found === undefined) return [];
    const lead = said[said.indexOf(found.first) - 1];
    if (lead === undefined || !USES.has(lead.word)) return [];
    return [{ aid: aids.get(found.name) ?? aids.get(`${found.name}s`)!, first: found.first, last }];
  });
  const [one, ...more] = spoken;
  // Of several that are spoken of one may be that of another step.
  if (one === undefined || more.some(({ aid }) => aid !== one.aid) || used.some(({ aid }) => aid === one.aid))
    return;
  const alike = used.filter(({ aid }) => sameJob(aid, one.aid));
  const [wrong] = alike;
  if (wrong === undefined || alike.length < used.length) return;
  tell(words, one.first, one.last, `the operation ${wrong.aid.name}`, wrong.operation, report);
}

const singular = (word: string): string => word.replace(/s$/, '');

/** Whether one could stand where the other does. */
const sameJob = (a: Aid, b: Aid): boolean => (a.raises && b.raises) || (a.carries && b.carries);

function tell(
  words: Cursor,
  first: PlainWord,
  last: PlainWord,
  other: string,
  operation: BoundOperation,
  report: Report,
): void {
  const from = words.offsetOf(first.start);
  const place =
    from === null
      ? words.place
      : { uri: words.place.uri, span: { start: from, end: from + last.end - first.start } };
  const text = words.text!.slice(first.start, last.end);
  report.add(RULE, place, `The words say ${text}, and ${other}.`, {
    severity: 'info',
    operation: operation.path,
    related: [{ place: operation.place, message: 'The operation' }],
  });
}

/** All of a text that it is judged by here: positions with the noun behind them, aids with what stands before. */
export function nameWords(text: string): string[] {
  const words = plainWords(text);
  const said = (from: number, to: number): string =>
    words
      .slice(Math.max(0, from), to)
      .map(({ word, ends }) => (ends ? `${word}.` : word))
      .join(' ');
  return words.flatMap(({ word }, at) => [
    ...(POSITIONS.has(word) ? [said(at, at + 2)] : []),
    ...(AIDS.has(singular(word)) ? [said(at - 3, at + 1)] : []),
  ]);
}
