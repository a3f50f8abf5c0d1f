/** The items that a rule means by `of`, from the item an operation acts on (schemas/semantics.md §7). */

import { isBuiltIn } from '../model/builtins';
import { belongTogether, type Instance, matching } from '../model/instances';
import type { Thing } from '../model/model';
import { partOf } from '../model/target';
import { ALONE, type Event, nameOf, type Subject, thingOf } from '../simulate/event';
import type { Simulation } from '../simulate/simulation';
import type { RelatedTo } from './rule';

export interface Item {
  readonly subject: Subject;
  readonly at: Instance;
}

/** One key for an item, the same for every event on it. */
export const keyOf = ({ subject, at }: Item): string => `${nameOf(subject)}${at.key}`;

/** What stands for all there is: an operation on anything meets it. */
const ANYTHING: Item = { subject: { type: 'words', text: '*' }, at: ALONE };

/** The items an operation on which is looked for; `any` is one of its own. */
export function wantedItems(sim: Simulation, of: RelatedTo, event: Event): readonly Item[] {
  return of === 'any' ? [ANYTHING] : relatedItems(sim, of, event);
}

/** The items that are meant; `any` has no state, and means none. */
export function relatedItems(sim: Simulation, of: RelatedTo, event: Event): readonly Item[] {
  const { subject, at } = event;
  if (of === 'any') return [];
  if (of === 'same') return [{ subject, at }];
  if (of === 'vehicle') return [{ subject: { type: 'built-in', name: 'vehicle' }, at: ALONE }];
  if (typeof of === 'object') {
    if ('words' in of) return of.words.map((text) => ({ subject: { type: 'words', text }, at: ALONE }));
    if ('item' in of) return of.item.flatMap((name) => byName(sim, name, at));
    return byKind(sim, of.kind, of.on, event);
  }
  const part = partOf(subject);
  if (part === null)
    return of === 'part' && subject.type === 'line' ? [{ subject: { ...subject, end: null }, at }] : [];
  if (of === 'part') return [{ subject: { type: 'part', part }, at }];
  if (of === 'joints')
    return [...part.joints.values()].map((joint) => ({ subject: { type: 'joint', joint }, at }));
  return [...sim.corners.closure(part)]
    .filter((member) => member.attributes.axle)
    .flatMap((axle) =>
      matching(axle.instances, at).map(
        (axleAt): Item => ({ subject: { type: 'part', part: axle }, at: axleAt }),
      ),
    );
}

/** Whether an event acts on what `of` means from another event: on anything of a part, where that is the part. */
export function meets(sim: Simulation, of: RelatedTo, from: Event, event: Event): boolean {
  if (of === 'any') return true;
  const items = relatedItems(sim, of, from);
  if (of === 'part' && actsOn(partly(event), items)) return true;
  return actsOn(event, items);
}

/** The keys under which what was done to an event's item is remembered for `of`. */
export function keysMet(of: RelatedTo, event: Event): readonly string[] {
  if (of === 'any') return [keyOf(ANYTHING)];
  return of === 'part' ? [...new Set([keyOf(event), keyOf(partly(event))])] : [keyOf(event)];
}

/** The part that an item belongs to, in the item's stead. */
function partly({ subject, at }: Item): Item {
  const part = partOf(subject);
  return { subject: part === null ? subject : { type: 'part', part }, at };
}

/** Whether an event acts on one of the items. Free words are compared as words. */
function actsOn(event: Item, items: readonly Item[]): boolean {
  const name = nameOf(event.subject);
  const thing = thingOf(event.subject);
  return items.some(({ subject, at }) => {
    if (subject.type === 'words') return name === subject.text;
    if (subject.type === 'line' && thing === subject.line)
      return (
        belongTogether(at, event.at) &&
        (subject.end === null ||
          event.subject.type !== 'line' ||
          event.subject.end === null ||
          event.subject.end === subject.end)
      );
    return nameOf(subject) === name && belongTogether(at, event.at);
  });
}

/** What a name stands for on the vehicle: a thing, or what of a thing a dot names; nothing where there is no such. */
function byName(sim: Simulation, name: string, at: Instance): readonly Item[] {
  const thing = sim.model.things.get(name);
  if (thing !== undefined) return ofThing(thing, matching(thing.instances, at));
  if (isBuiltIn(name)) return [{ subject: { type: 'built-in', name }, at: ALONE }];
  const dot = name.lastIndexOf('.');
  const owner = dot < 0 ? undefined : sim.model.things.get(name.slice(0, dot));
  const subject = owner === undefined ? null : withinThing(owner, name.slice(dot + 1));
  return subject === null ? [] : matching(owner!.instances, at).map((own) => ({ subject, at: own }));
}

function withinThing(owner: Thing, name: string): Subject | null {
  if (owner.type === 'line')
    return owner.ends.includes(name) ? { type: 'line', line: owner, end: name } : null;
  const joint = owner.joints.get(name);
  if (joint !== undefined) return { type: 'joint', joint };
  const end = owner.ends.get(name);
  if (end !== undefined) return { type: 'end', end };
  const hole = owner.holes.get(name);
  if (hole !== undefined) return { type: 'hole', hole };
  const face = owner.faces.get(name);
  return face === undefined ? null : { type: 'face', face };
}

function byKind(
  sim: Simulation,
  kinds: readonly string[],
  on: 'axle' | 'side' | 'vehicle',
  event: Event,
): readonly Item[] {
  const own = on === 'vehicle' ? null : groupsOf(sim, thingOf(event.subject), event.at);
  const found: Item[] = [];
  for (const thing of sim.model.things.values()) {
    if (!kinds.some((kind) => thing.kinds.includes(kind))) continue;
    const instances = thing.instances.filter((at) => {
      if (own === null) return true;
      if (on === 'side' && !belongTogether(at, event.at)) return false;
      const theirs = groupsOf(sim, thing, at);
      return [...theirs].some((group) => own.has(group));
    });
    found.push(...ofThing(thing, instances));
  }
  return found;
}

function groupsOf(sim: Simulation, thing: Thing | null, at: Instance): ReadonlySet<unknown> {
  if (thing === null) return new Set(sim.corners.all.map(({ group }) => group));
  const corners = thing.type === 'part' ? sim.corners.ofOrAll(thing, at) : sim.corners.ofLine(thing, at);
  return new Set((corners.length > 0 ? corners : sim.corners.all).map(({ group }) => group));
}

const ofThing = (thing: Thing, instances: readonly Instance[]): readonly Item[] =>
  instances.map((at) =>
    thing.type === 'part'
      ? { subject: { type: 'part', part: thing }, at }
      : { subject: { type: 'line', line: thing, end: null }, at },
  );
