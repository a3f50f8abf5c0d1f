/** Whether an event is one that a rule watches (schemas/semantics.md §7). */

import type { Joint } from '../model/model';
import { type Event, nameOf, thingOf } from '../simulate/event';
import type { Sort } from '../simulate/watcher';
import type { Pattern, Watch } from './rule';

/** The events that rules in the rule language see: operations as written, and what `unbolt` and `bolt-up` amount to. */
export function isSeen(event: Event): boolean {
  if (event.within === null) return true;
  if (event.within === 'unbolt') return event.subject.type === 'joint';
  return event.within === 'bolt-up' && event.verb === 'fit';
}

/** Whether a rule may watch events of a sort: `matches` is true of no others. */
export function mayMatch(watch: Watch, sort: Sort): boolean {
  return (watch.verb.length === 0 || watch.verb.includes(sort.verb)) && mayActOn(watch, sort);
}

/** Of items as much as their sort tells. */
function mayActOn({ what, kind }: Watch, { type, kinds }: Omit<Sort, 'verb'>): boolean {
  if (what.length > 0 && !what.includes(type)) return false;
  return kind.length === 0 || kind.some((one) => kinds.includes(one));
}

/** Whether an event is of the sort that a rule watches; what came before it and what excuses it is asked apart. */
export function matches(watch: Watch, event: Event): boolean {
  if (watch.verb.length > 0 && !watch.verb.includes(event.verb)) return false;
  return matchesItem(watch, event) && hasQualifiers(event, watch.qualifier);
}

/** Whether an event acts on an item that a rule watches, whatever is done to it. */
export function matchesItem(watch: Watch, event: Event): boolean {
  const { subject } = event;
  const thing = thingOf(subject);
  if (!mayActOn(watch, { type: subject.type, kinds: thing?.kinds ?? [] })) return false;
  if (watch.item.length > 0 && !watch.item.includes(nameOf(subject))) {
    if (thing === null || !watch.item.includes(thing.name)) return false;
  }
  if (watch.joint.size > 0) {
    if (subject.type !== 'joint') return false;
    for (const [property, wanted] of watch.joint)
      if (!wanted.includes(String(propertyOf(subject.joint, property)))) return false;
  }
  return true;
}

/** Whether an event has the verb and qualifiers of a pattern; what it acts on is asked apart. */
export function fits(pattern: Pattern, event: Event): boolean {
  return pattern.verb.includes(event.verb) && hasQualifiers(event, pattern.qualifier);
}

function hasQualifiers(event: Event, wanted: ReadonlyMap<string, readonly string[]>): boolean {
  const { verb, targets, qualifiers, aids } = event.operation;
  const all = new Map(qualifiers);
  // `apply: grease` acts on its `to`; what is applied is asked like a qualifier.
  if (wanted.has(verb))
    all.set(
      verb,
      targets.map((target) => target.written),
    );
  // An aid goes by the name the packs give it too, whatever it is called here.
  if (wanted.has('with') && aids.length > 0)
    all.set('with', [...listOf(qualifiers.get('with')), ...aids.map((aid) => aid.name)]);
  return qualify(wanted, all);
}

const listOf = (written: unknown): readonly unknown[] => (Array.isArray(written) ? written : [written]);
/** Of aids singular and plural are one. */
const singular = (word: string): string => word.replace(/s$/, '');

/** Whether what is written beside a verb is what is wanted: a value, one of several, `any` or `none`. */
export function qualify(
  wanted: ReadonlyMap<string, readonly string[]>,
  qualifiers: ReadonlyMap<string, unknown>,
): boolean {
  for (const [name, values] of wanted) {
    const written = qualifiers.get(name);
    const present = written !== undefined && written !== null;
    if (values.length === 1 && values[0] === 'any') {
      if (!present) return false;
    } else if (values.length === 1 && values[0] === 'none') {
      if (present) return false;
    } else {
      const form = name === 'with' ? singular : String;
      const here = new Set(listOf(written).map((value) => form(String(value))));
      if (!values.some((value) => here.has(form(value)))) return false;
    }
  }
  return true;
}

/** What a rule may ask of a joint. */
export const PROPERTIES: Readonly<Record<string, (joint: Joint) => unknown>> = {
  nut: (joint) => joint.nut ?? 'none',
  bushed: (joint) => joint.bushed,
  stretch: (joint) => joint.stretch,
  structural: (joint) => joint.structural,
  lubricated: (joint) => joint.lubricated ?? false,
  'holds-spring': (joint) => joint.holdsSpring,
  'loosen-first': (joint) => joint.loosenFirst ?? 'none',
  class: (joint) => joint.class ?? 'none',
  thread: (joint) => joint.thread ?? 'none',
  bolts: (joint) => joint.bolts,
  'hand-tight': (joint) => joint.handTight,
};

const propertyOf = (joint: Joint, property: string): unknown => PROPERTIES[property]?.(joint);
