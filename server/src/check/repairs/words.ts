/** Operations that a fix writes, as a fitter would be told them. */

import type { Entry } from '../../edit/steps';
import type { Value } from '../../edit/write';
import type { Model } from '../../model/model';

/** `the lower bolt of the front shock` for `front-shock.lower-bolt`. */
export function nameInWords(name: string): string {
  const parts = name.split('.').map((word) => word.replaceAll('-', ' '));
  return parts
    .reverse()
    .map((word) => (PLAIN.has(word) ? word : `the ${word}`))
    .join(' of ');
}

/** Words that stand without an article. */
const PLAIN: ReadonlySet<string> = new Set(['coolant', 'oil', 'airbags', 'high voltage', 'fuel pressure']);

const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;

const namesOf = (value: Value | undefined): string[] =>
  value === undefined || value === null ? [] : (Array.isArray(value) ? value : [value]).map(String);

/** `with pole jacks`, `with a sling`: an aid needs an article where its word is of one thing. */
function aidInWords(value: Value | undefined): string {
  const aids = namesOf(value).map((name) => {
    const words = name.replaceAll('-', ' ');
    return words.endsWith('s') || NO_ARTICLE.has(words)
      ? words
      : `${/^[aeiou]/.test(words) ? 'an' : 'a'} ${words}`;
  });
  return listed(aids);
}

const NO_ARTICLE: ReadonlySet<string> = new Set(['wire', 'rope', 'masking tape']);

/** What an operation says in words, begun with a small letter: `support the front axle with pole jacks`. */
export function clauseOf(entry: Entry, model: Model): string {
  const [verb = '', target] = Object.entries(entry)[0] ?? [];
  const names = namesOf(target);
  const it = listed(names.map(nameInWords));
  const aid = aidInWords(entry.with);
  const by = aid === '' ? '' : ` with ${aid}`;
  const side = typeof entry.side === 'string' ? ` on the ${entry.side}` : '';
  const words =
    WORDS[verb]?.({ it, by, aid, names, entry, model }) ?? `${verb.replaceAll('-', ' ')} ${it}${by}`;
  return words + side;
}

interface Said {
  readonly it: string;
  readonly by: string;
  readonly aid: string;
  readonly names: readonly string[];
  readonly entry: Entry;
  readonly model: Model;
}

const WORDS: Readonly<Record<string, (said: Said) => string>> = {
  lower: ({ it, names, entry }) =>
    names.includes('vehicle') && entry.onto === undefined ? 'lower the vehicle to the ground' : `lower ${it}`,
  unsupport: ({ it, aid }) => `take ${aid === '' ? 'the support' : `the ${bare(aid)}`} away from under ${it}`,
  chock: ({ it, names }) => `chock the ${names.some(isEnd) ? `${bare(it)} wheels` : bare(it)}`,
  remove: ({ it, names }) =>
    names.every((name) => name.includes('.')) ? `take out ${it}` : `take ${it} off`,
  start: ({ it }) => `start ${it} by hand`,
  torque: ({ it, entry, names, model }) => `tighten ${it}${figure(entry, names, model)}${freshly(entry)}`,
  snug: ({ it, entry }) => `snug ${it}${freshly(entry)}`,
  'bolt-up': ({ it }) => `put ${it} on with its bolts`,
  fit: ({ it }) => `fit ${it}`,
  discard: ({ it }) => `scrap ${it}`,
  release: ({ it }) => `let go of ${it} and take the aid off`,
  inflate: ({ it, entry }) => `inflate ${it}${typeof entry.to === 'string' ? ` to ${entry.to}` : ''}`,
  isolate: ({ it, names }) => DEAD[names[0] ?? ''] ?? `make ${it} dead`,
  restore: ({ it, names }) => LIVE[names[0] ?? ''] ?? `bring ${it} back`,
  switch: ({ it, entry }) => `switch ${it} to ${String(entry.to)}`,
  drill: ({ it }) => `drill ${it} to its size`,
  coat: ({ it }) => `protect the bare metal of ${it}`,
  adjust: ({ it }) => `set ${it} as it was`,
};

const DEAD: Readonly<Record<string, string>> = {
  battery: 'disconnect the battery',
  airbags: 'make the airbags dead',
  'high-voltage': 'make the high voltage dead',
  'fuel-pressure': 'relieve the fuel pressure',
  'air-tank': 'vent the air tank',
};

const LIVE: Readonly<Record<string, string>> = {
  battery: 'connect the battery again',
  airbags: 'bring the airbags back into service',
  'high-voltage': 'bring the high voltage back into service',
  'fuel-pressure': 'let the fuel pressure build up again',
  'air-tank': 'fill the air tank again',
};

const bare = (words: string): string => words.replace(/^(?:the|an?) /, '');
const isEnd = (name: string): boolean => name === 'front' || name === 'rear';

/** The figure by its place in the data, so that the guide prints the one in force. */
function figure(entry: Entry, names: readonly string[], model: Model): string {
  if (entry.to === 'maker') return " to the vehicle maker's figure";
  const [name = '', more] = names;
  const [part = '', joint = ''] = name.split('.');
  const thing = model.things.get(part);
  const known = thing?.type === 'part' ? thing.joints.get(joint)?.torque : null;
  return more === undefined && known ? ` to {torque:${name}}` : '';
}

const freshly = (entry: Entry): string => {
  const pieces = namesOf(entry.new).map((piece) => `a new ${piece.replaceAll('-', ' ')}`);
  return pieces.length === 0 ? '' : ` with ${listed(pieces)}`;
};

/** A plain sentence for a step of these operations. */
export function sentenceOf(entries: readonly Entry[], model: Model): string {
  return `${capital(clausesOf(entries, model))}.`;
}

/** The same for a title, begun with a small letter: a figure from the data is not spelt out. */
export function titleOf(entries: readonly Entry[], model: Model): string {
  return clausesOf(entries, model).replaceAll(/ to \{torque:[^}]*\}/g, '');
}

/** Operations in a row; a side that they share is said once. */
function clausesOf(entries: readonly Entry[], model: Model): string {
  const [first] = entries;
  const side = entries.every((one) => one.side === first?.side) ? first?.side : undefined;
  const clauses = entries.map((one) => clauseOf(side === undefined ? one : { ...one, side: null }, model));
  return listed(clauses) + (typeof side === 'string' ? ` on the ${side}` : '');
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
export const small = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
