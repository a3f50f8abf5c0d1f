/** What a rule looks at and asks: words that nobody knows, and questions that can have one answer only. */

import type { AidTable } from '../model/aids';
import { isBuiltIn } from '../model/builtins';
import type { KindTable } from '../model/kinds';
import { listed, type Report } from '../model/report';
import { type Cursor, itemsAt, textsAt } from '../model/source';
import { propertiesOfDuty } from '../schema/describe';
import { nearBuiltIn, type Properties, type Sorts, Words } from './check-words';
import { SORTS, type Sort, STATES, sortsOfVerb } from './vocabulary';

/** Checks `watch`, what the family asks, and `unless`. */
export function checkAsked(rule: Cursor, kinds: KindTable, aids: AidTable, report: Report): void {
  const asked = new Asked(kinds, aids, report);
  const watch = rule.get('watch');
  const watched = watch === null ? new Set(SORTS) : asked.watch(watch);
  for (const family of ['needs', 'never-while']) {
    const need = rule.get(family);
    if (need !== null) asked.need(need, watched);
  }
  for (const family of ['first', 'later', 'next']) {
    const event = rule.get(family);
    if (event === null) continue;
    // What is wanted later may be handed over as a duty too.
    asked.event(event, watched, family === 'later' ? propertiesOfDuty() : []);
    const before = event.get('before');
    if (before !== null) asked.event(before, watched);
  }
  for (const excuse of itemsAt(rule, 'unless')) asked.excuse(excuse, watched);
}

class Asked {
  private readonly words: Words;

  constructor(
    private readonly kinds: KindTable,
    aids: AidTable,
    private readonly report: Report,
  ) {
    this.words = new Words(kinds, aids, report);
  }

  /** What the watched operations may act on; everything, where they can be nothing (that was told). */
  watch(watch: Cursor): Sorts {
    this.words.kindsAt(watch);
    const verbs = textsAt(watch, 'verb');
    this.words.qualifiers(watch, verbs);
    this.words.properties(watch);
    const after = watch.get('after');
    let sorts: Sorts =
      verbs.length === 0 ? new Set(SORTS) : new Set(verbs.flatMap((verb) => [...sortsOfVerb(verb)]));
    const narrow = (key: string, to: Iterable<Sort>, words: string): void => {
      const cursor = watch.get(key);
      const left = new Set([...to].filter((sort) => sorts.has(sort)));
      if (cursor === null) return;
      if (left.size > 0) sorts = left;
      else
        this.report.add(
          'never-asked',
          cursor.keyPlace,
          `No operation that this rule looks at acts on ${words}, so it never speaks.`,
        );
    };
    const what = textsAt(watch, 'what');
    if (what.length > 0) narrow('what', what as Sort[], `a ${listed(what).replace(' and ', ' or a ')}`);
    const kinds = textsAt(watch, 'kind').filter((kind) => this.kinds.get(kind) !== null);
    if (kinds.length > 0)
      narrow(
        'kind',
        kinds.flatMap((kind) => sortsOfKind(this.kinds, kind)),
        `a ${kinds.join(' or a ')}`,
      );
    const items = textsAt(watch, 'item');
    for (const item of itemsAt(watch, 'item')) this.words.item(item);
    if (items.length > 0 && items.every(isBuiltIn)) narrow('item', itemSorts(items), items.join(' or '));
    if (watch.get('joint') !== null) narrow('joint', ['joint'], 'a joint');
    if (after !== null) this.event(after, sorts);
    return sorts;
  }

  need(need: Cursor, watched: Sorts): void {
    const sorts = this.related(need, watched, true);
    for (const state of itemsAt(need, 'state')) this.words.state(state, sorts);
    const words = textsAt(need, 'state');
    if (sorts === null || words.length === 0 || words.some((word) => canBe(word, sorts))) return;
    const cursor = need.get('state')!;
    if (words.every((word) => Object.hasOwn(STATES, word)))
      this.report.add(
        'never-asked',
        cursor.place,
        `${inSorts(sorts)} is never "${words.join('" or "')}", so this is never so.`,
      );
  }

  event(event: Cursor, watched: Sorts, more: Properties = []): void {
    this.words.qualifiers(event, textsAt(event, 'verb'), more);
    const sorts = this.related(event, watched, false);
    const since = event.get('since');
    const of = since?.get('of') ?? null;
    if (of !== null) this.undoing(of);
    else if (since !== null && sorts !== null) this.undone(since, new Set([...sorts, ...watched]));
  }

  /** A `since` without `of` is done to what is remembered or watched; some verbs never are. */
  private undone(since: Cursor, sorts: Sorts): void {
    const verbs = textsAt(since, 'verb');
    if (verbs.length === 0 || verbs.some((verb) => [...sortsOfVerb(verb)].some((sort) => sorts.has(sort))))
      return;
    const message = `No ${listed(verbs).replace(' and ', ' or ')} is done to what this rule looks at or remembers, so nothing is undone; of: any means one of anything.`;
    this.report.add('never-asked', since.get('verb')!.place, message);
  }

  /** What undoes all that was done is known without an item that is watched. */
  private undoing(of: Cursor): void {
    const on = of.isMap ? of.get('on') : null;
    if (of.isMap) this.relatedMap(of);
    else if (of.text !== 'any' && of.text !== 'vehicle') {
      const message = `Of a "since" there is any, vehicle, item, kind or words; left out it means the item itself, or one that the rule watches.`;
      this.report.add('bad-relation', of.place, message);
    }
    if (on !== null && on.text !== 'vehicle')
      this.report.add('no-effect', on.keyPlace, '"on" has no effect here: it is anywhere on the vehicle.');
  }

  excuse(excuse: Cursor, watched: Sorts): void {
    const sorts = ['people', 'caution', 'state'].filter((key) => excuse.get(key) !== null);
    const of = excuse.get('of') ?? excuse.get('every');
    if (
      sorts.length === 1 &&
      (sorts[0] === 'state' || of === null) &&
      excuse.get('caution')?.value !== false
    ) {
      if (sorts[0] === 'state') this.need(excuse, watched);
      return;
    }
    const message = `An excuse is one of state (with of), people or caution: true${sorts.length > 1 ? '; give each an entry of its own' : ''}.`;
    this.report.add('bad-excuse', excuse.header, message);
  }

  /** What `of` may mean, null where that is not known; tells of an `of` that can mean nothing. */
  private related(holder: Cursor, watched: Sorts, asksState: boolean): Sorts | null {
    const of = holder.get('of');
    if (of === null) return watched;
    if (of.isMap) return this.relatedMap(of);
    const has = (...sorts: Sort[]) => sorts.some((sort) => watched.has(sort));
    const never = (message: string): null => {
      this.report.add('never-asked', of.place, message);
      return null;
    };
    const ofPart = has('part', 'joint', 'end', 'hole', 'face', 'piece');
    switch (of.text) {
      case 'any':
        return asksState ? never('"any" stands where an operation is looked for; it has no state.') : null;
      case 'part':
        if (!ofPart && !has('line'))
          return never(`${inSorts(watched)} belongs to no part, so this asks nothing.`);
        return new Set<Sort>(has('line') ? (ofPart ? ['part', 'line'] : ['line']) : ['part']);
      case 'joints':
        return ofPart
          ? new Set(['joint'])
          : never(`${inSorts(watched)} has no joints, so this asks nothing.`);
      case 'axle':
        return ofPart
          ? new Set(['part'])
          : never(`${inSorts(watched)} belongs to no axle, so this asks nothing.`);
      case 'vehicle':
        return new Set(['built-in']);
      default:
        return watched;
    }
  }

  private relatedMap(of: Cursor): Sorts | null {
    const sorts = ['item', 'kind', 'words'].filter((key) => of.get(key) !== null);
    if (sorts.length !== 1) {
      const message =
        sorts.length === 0
          ? 'This means nothing; item, kind or words says what is meant.'
          : `"${sorts[0]}" and "${sorts[1]}" stand together, and only the first counts.`;
      this.report.add('bad-relation', sorts.length === 0 ? of.header : of.get(sorts[1]!)!.keyPlace, message);
      if (sorts.length === 0) return null;
    }
    const on = of.get('on');
    if (on !== null && sorts[0] !== 'kind')
      this.report.add('no-effect', on.keyPlace, '"on" goes with kind; here it has no effect.');
    this.words.kindsAt(of);
    for (const item of itemsAt(of, 'item')) this.words.item(item);
    if (sorts[0] === 'words') return new Set(['words']);
    if (sorts[0] === 'item') {
      const names = textsAt(of, 'item');
      // Of names of the vehicle's own nothing is known but that they are no systems.
      if (names.every(isBuiltIn)) return new Set(itemSorts(names));
      return names.some((name) => isBuiltIn(name) || nearBuiltIn(name) !== null) ? null : new Set(THINGS);
    }
    const kinds = textsAt(of, 'kind').filter((kind) => this.kinds.get(kind) !== null);
    return kinds.length === 0
      ? new Set(THINGS)
      : new Set(kinds.map((kind) => (this.kinds.get(kind)!.forLines ? 'line' : 'part')));
  }
}

/** What a vehicle or a kit declares. */
const THINGS: readonly Sort[] = SORTS.filter((sort) => sort !== 'built-in' && sort !== 'words');

/** What of a thing of a kind an operation may act on. */
const sortsOfKind = (kinds: KindTable, kind: string): readonly Sort[] =>
  kinds.get(kind)!.forLines ? ['line'] : ['part', 'joint', 'end', 'hole', 'face', 'piece'];

/** `frame` and `body` are metal as well. */
const itemSorts = (names: readonly string[]): Sort[] =>
  names.flatMap((name): Sort[] =>
    name === 'frame' || name === 'body' ? ['built-in', 'part', 'hole', 'face'] : ['built-in'],
  );

const canBe = (word: string, sorts: Sorts): boolean =>
  Object.hasOwn(STATES, word)
    ? STATES[word]!.of.some((sort) => sorts.has(sort)) || sorts.has('built-in')
    : sorts.has('built-in');

const inSorts = (sorts: Sorts): string => {
  const named = [...sorts].map((sort) =>
    sort === 'built-in' ? 'system' : sort === 'words' ? 'free word' : sort,
  );
  const [first = 'thing', ...rest] = named;
  return rest.length > 1 ? 'What is meant' : `A ${[first, ...rest].join(' or ')}`;
};
