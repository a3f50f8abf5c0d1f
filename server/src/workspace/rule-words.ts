import { SPATIAL, SYSTEMS } from '../model/builtins';
import { BUILTINS } from '../rules/builtin/registry';
import { factsIn, factsOf } from '../rules/check-says';
import { FAMILIES } from '../rules/rule';
import { RELATIONS, SORT_WORDS, type Sort, STATES, sortsOfVerb } from '../rules/vocabulary';
import { PROPERTIES } from '../rules/watching';
import { propertiesOfVerb, propertyOfJoint, verbDescriptions } from '../schema/describe';
import type { Schema } from '../schema/spots';
import { find, items } from '../text/access';
import type { Node } from '../text/tree';
import { nodeAt } from './asked';
import { type Candidate, candidate, keysOf } from './candidates';
import type { Document } from './document';
import type { RulesInForce } from './project';

/** A place in a rule pack: the keys that lead to it. */
export interface RulePlace {
  readonly document: Document;
  readonly keys: readonly (string | number)[];
}

/** The words of the rule language that may stand for a role, in the order in which they are told; null for other roles. */
export function ruleWords(
  role: string,
  place: RulePlace,
  inForce: Pick<RulesInForce, 'packs' | 'rulebook'>,
): Candidate[] | null {
  switch (role) {
    case 'verb':
      return verbDescriptions().map(({ verb, description }) => candidate(verb, 'verb', description));
    case 'relation':
      return Object.entries(RELATIONS).map(([word, about]) => candidate(word, 'of', about));
    case 'sort':
      return Object.entries(SORT_WORDS).map(([word, about]) => candidate(word, 'what', about));
    case 'state':
      return statesFor(place);
    case 'qualifier':
      return qualifiersFor(place).map(([name, { description = '' }]) =>
        candidate(name, 'qualifier', description),
      );
    case 'qualifier-value':
      return qualifierValues(place, inForce);
    case 'joint-property':
      return Object.keys(PROPERTIES).map((name) =>
        candidate(name, 'of a joint', propertyOfJoint(name)?.description ?? ''),
      );
    case 'joint-value': {
      const schema = propertyOfJoint(lastText(place.keys));
      const words = schema?.enum ?? (schema?.type === 'boolean' ? ['true', 'false'] : []);
      return words.map((word) => candidate(word, '', schema?.description ?? ''));
    }
    case 'built-in':
      return BUILTINS.map(({ name }) =>
        candidate(name, 'built in', inForce.rulebook.rules.get(name)?.reason ?? ''),
      );
    case 'setting': {
      const name = textsBeside(place, 1, 'built-in')[0];
      const settings = BUILTINS.find((one) => one.name === name)?.settings ?? {};
      return Object.entries(settings).map(([key, what]) =>
        candidate(key, what === 'words' ? 'a list of words' : 'a number'),
      );
    }
    default:
      return null;
  }
}

/** What a word of the rule language means where it stands; null where it is none. */
export function ruleWordAbout(
  role: string,
  word: string,
  place: RulePlace,
  inForce: Pick<RulesInForce, 'packs' | 'rulebook'>,
): string | null {
  if (role === 'state' && Object.hasOwn(STATES, word)) return STATES[word]!.about;
  return ruleWords(role, place, inForce)?.find((one) => one.word === word)?.about || null;
}

/** What always exists, for `item`. */
export const alwaysThere = (): Candidate[] =>
  [...SYSTEMS]
    .map((word) => candidate(word, 'system'))
    .concat([...SPATIAL].map((word) => candidate(word, 'always there')));

/** The names that may stand in braces in the sentence of the rule at a place. */
export function factsAt(place: RulePlace, inForce: Pick<RulesInForce, 'rulebook'>): readonly string[] {
  const rule = mapAt(place, 1);
  const family =
    rule === null ? undefined : FAMILIES.find((one) => find(rule, one, place.document.reading) !== undefined);
  if (family !== 'built-in')
    return family === undefined ? ['item', 'part', 'verb', 'related'] : factsOf(family);
  const name = textsBeside(place, 1, 'built-in')[0] ?? '';
  return [...new Set([...factsOf(family), ...factsIn(inForce.rulebook.rules.get(name)?.says ?? '')])];
}

/** States of what is asked come first, where that is known from `of` or from the verbs that are watched. */
function statesFor(place: RulePlace): Candidate[] {
  const depth = typeof place.keys.at(-1) === 'number' ? 2 : 1;
  const related = nodeAt(place.document.reading, [...place.keys.slice(0, place.keys.length - depth), 'of']);
  const of = related === null ? 'same' : related.kind === 'scalar' ? String(related.value) : null;
  const rule = place.keys.indexOf('rules') + 2;
  const verbs = textsUnder(place, [...place.keys.slice(0, rule), 'watch', 'verb']);
  const sorts = new Set<Sort>(
    of === 'part' || of === 'axle'
      ? ['part']
      : of === 'joints'
        ? ['joint']
        : of === 'vehicle'
          ? ['built-in']
          : of === 'same'
            ? verbs.flatMap((verb) => [...sortsOfVerb(verb)])
            : [],
  );
  return Object.entries(STATES).map(([word, { of: said, about }]) =>
    candidate(word, 'state', about, sorts.size > 0 && !said.some((sort) => sorts.has(sort)) ? 2 : 1),
  );
}

/** The qualifiers of the verbs that stand beside a `qualifier` map. */
function qualifiersFor(place: RulePlace): readonly (readonly [string, Schema])[] {
  const at = place.keys.lastIndexOf('qualifier');
  const verbs = textsUnder(place, [...place.keys.slice(0, at), 'verb']);
  return [...new Map(verbs.flatMap(propertiesOfVerb))].filter(([name]) => !NOT_ASKED.has(name));
}

const NOT_ASKED: ReadonlySet<string> = new Set(['side', 'when', 'waive']);

function qualifierValues(place: RulePlace, { packs }: Pick<RulesInForce, 'packs'>): Candidate[] {
  const name = lastText(place.keys);
  const schema = qualifiersFor(place).find(([one]) => one === name)?.[1];
  const words = [...(schema?.enum ?? []), ...(schema?.['x-values'] ?? []), ...(schema?.['x-words'] ?? [])];
  return [
    ...words.map((word) => candidate(word, name, schema?.description ?? '')),
    ...(name === 'with' ? keysOf(packs, 'aids').map((word) => candidate(word, 'aid')) : []),
    candidate('any', 'said at all'),
    candidate('none', 'not said'),
  ];
}

const lastText = (keys: readonly (string | number)[]): string =>
  String([...keys].reverse().find((key) => typeof key === 'string') ?? '');

/** The texts under a key of the map that stands so many keys above a place. */
const textsBeside = (place: RulePlace, up: number, key: string): string[] =>
  textsUnder(place, [...place.keys.slice(0, place.keys.length - up), key]);

function textsUnder({ document }: RulePlace, keys: readonly (string | number)[]): string[] {
  const node = nodeAt(document.reading, keys);
  if (node === null) return [];
  const all = node.kind === 'seq' ? items(node, document.reading).map(({ value }) => value) : [node];
  return all.flatMap(({ value }) => (typeof value === 'string' ? [value] : []));
}

const mapAt = ({ document, keys }: RulePlace, up: number): Node | null => {
  const node = nodeAt(document.reading, keys.slice(0, keys.length - up));
  return node?.kind === 'map' ? node : null;
};
