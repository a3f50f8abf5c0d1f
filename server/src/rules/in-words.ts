/** What a rule looks at and asks, in plain words made from its data. */

import { TOLD_WHILE_BINDING } from '../model/told-while-binding';
import type { Earlier, Excuse, Need, Pattern, RelatedTo, Rule, Watch } from './rule';

export interface RuleWords {
  /** `every disconnect of an airbag-plug`; null for a built-in rule, which looks at what it needs. */
  readonly looksAt: string | null;
  /** Goes on from "Found": `unless airbags is safe at that moment`. */
  readonly found: string;
  /** Goes on from "Excused": `where the step carries a caution`; null where nothing excuses it. */
  readonly excused: string | null;
}

/** What a rule looks at and asks, made from its data. */
export function spelledOut(rule: Rule): RuleWords {
  const { unless } = rule;
  return {
    looksAt: rule.family === 'built-in' ? null : `every ${watchInWords(rule.watch)}`,
    found: asksInWords(rule),
    excused: unless.length === 0 ? null : `where ${or(unless.map(excuseInWords))}`,
  };
}

function asksInWords(rule: Rule): string {
  switch (rule.family) {
    case 'never':
      return 'wherever it stands';
    case 'needs':
      return `unless ${needInWords(rule.need!)} at that moment`;
    case 'never-while':
      return `while ${needInWords(rule.need!)}`;
    case 'first':
      return `unless ${earlierInWords(rule.first!)}`;
    case 'later': {
      const { before } = rule.later!;
      const comes = rule.later!.earlier ? 'comes somewhere, earlier or later' : 'follows by the end';
      const limit = before === null ? '' : `, and before any ${deedInWords(before)}`;
      return `unless ${patternInWords(rule.later!)} ${comes}${limit}`;
    }
    case 'next':
      return `unless the next operation on the same part is ${patternInWords(rule.next!)}`;
    case 'at-most-once':
      return 'the second time it is done to the same thing';
    default:
      return `by the program itself, from ${TOLD_WHILE_BINDING.includes(rule.id) ? 'what is written, before any step is run' : 'the state that every step leaves'}; schemas/semantics.md says how, under \`${rule.id}\``;
  }
}

function watchInWords(watch: Watch): string {
  const verbs = watch.verb.length === 0 ? 'operation on' : `${or(watch.verb)} of`;
  const properties = [...watch.joint].map(([name, values]) =>
    values.includes('true')
      ? ` that is ${name}`
      : values.includes('false')
        ? ` that is not ${name}`
        : ` whose ${name} is ${or(values)}`,
  );
  const after = watch.after === null ? '' : `, where ${earlierInWords(watch.after)}`;
  return `${verbs} ${subjectInWords(watch)}${properties.join(' and')}${qualifiersInWords(watch.qualifier)}${after}`;
}

/** `a check of gloves came earlier, with no raise since`. */
function earlierInWords(earlier: Earlier): string {
  const { verb, of } = earlier.since;
  const what = of === null ? '' : ` of ${relatedInWords(of, false)}`;
  const since = verb.length === 0 ? '' : `, with no ${or(verb)}${what} since`;
  return `${patternInWords(earlier)} came earlier${since}`;
}

const WHAT: Readonly<Record<string, string>> = {
  joint: 'joint',
  part: 'part',
  line: 'line',
  end: 'end',
  hole: 'hole',
  face: 'face',
  piece: 'small piece',
  'built-in': 'system or place of the vehicle',
  words: 'thing in free words',
};

function subjectInWords({ item, kind, what }: Watch): string {
  const whole = what.every((one) => one === 'part' || one === 'line');
  const owner = item.length > 0 ? or(item) : kind.length > 0 ? a(or(kind)) : null;
  if (owner !== null && whole) return owner;
  const sort = what.length === 0 ? 'anything' : a(or(what.map((one) => WHAT[one] ?? one)));
  return owner === null ? sort : `${sort} of ${owner}`;
}

function qualifiersInWords(qualifiers: ReadonlyMap<string, readonly string[]>): string {
  return [...qualifiers]
    .map(([name, values]) => {
      if (values.length === 1 && values[0] === 'any') return `, with \`${name}\` said`;
      if (values.length === 1 && values[0] === 'none') return `, without \`${name}\``;
      return `, with \`${name}\`: ${or(values)}`;
    })
    .join('');
}

/** `a check of alignment or toe`. */
const patternInWords = (pattern: Pattern): string => a(deedInWords(pattern));

const deedInWords = ({ verb, of, qualifier }: Pattern): string =>
  `${or(verb)} of ${relatedInWords(of, false)}${qualifiersInWords(qualifier)}`;

function needInWords({ of, state, every }: Need): string {
  return `${relatedInWords(of, every)} is ${or(state)}`;
}

function excuseInWords(excuse: Excuse): string {
  if ('people' in excuse) return `${excuse.people} people or more do the step`;
  if ('caution' in excuse) return 'the step carries a caution';
  return needInWords(excuse);
}

/** The items that `of` means: one of them is enough, or every one. */
function relatedInWords(of: RelatedTo, every: boolean): string {
  const one = (words: string) => (every ? `every ${words}` : a(words));
  if (typeof of === 'object') {
    if ('words' in of) return or(of.words.map((word) => `"${word}"`));
    if ('item' in of) return every && of.item.length > 1 ? `each of ${or(of.item, 'and')}` : or(of.item);
    return `${one(or(of.kind))} ${WHERE[of.on]}`;
  }
  switch (of) {
    case 'same':
      return 'it';
    case 'part':
      return 'its part';
    case 'joints':
      return `${one('joint')} of the same part`;
    case 'axle':
      return 'its axle';
    case 'vehicle':
      return 'the vehicle';
    case 'any':
      return 'anything';
  }
}

const WHERE = {
  axle: 'at the same axle',
  side: 'on the same side of the same axle',
  vehicle: 'anywhere on the vehicle',
} as const;

const a = (words: string): string => `${/^[aeiou]/.test(words) ? 'an' : 'a'} ${words}`;

const or = (words: readonly string[], last = 'or'): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
