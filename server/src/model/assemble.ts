/** All that vehicle and kits declare, with what kit things take over from those they replace. */

import { type Body, bodySize, bodyWithout, EMPTY, fieldsOf, mergeBodies, textsOf } from './body';
import { STRUCTURE } from './builtins';
import type { Declared } from './declared';
import type { MergedKind } from './kinds';

/** What a kit part takes over from the part it replaces, and a line from a line. */
const TAKEN: Readonly<Record<'part' | 'line', ReadonlySet<string>>> = {
  part: new Set([
    'sided',
    'places',
    'joins',
    'joints',
    'ends',
    'mass',
    'drop',
    'droop',
    'bump',
    'rise',
    'limited-by',
    'free-at',
    'pressure',
    'inside',
    'under',
    'behind',
    'holes',
    'faces',
    'reach',
  ]),
  line: new Set([
    'sided',
    'places',
    'spans',
    'ends',
    'across',
    'rise',
    'slack',
    'slack-free',
    'held-by',
    'paths',
    'retracts',
    'circuit',
    'line-type',
  ]),
};

/** Values that `replaces` may bring into one kit in all. */
const MOST_TAKEN = 100_000;

export interface Assembled extends Declared {
  /** Names of what it replaces, as far as they are declared and of its sort. */
  readonly replaced: readonly string[];
}

/**
 * @param declared vehicle first, then the kits; of two things with one name the first counts.
 */
export function assemble(declared: Iterable<Declared>): Map<string, Assembled> {
  const all = new Map<string, Declared>();
  for (const thing of declared) if (!all.has(thing.name)) all.set(thing.name, thing);
  const done = new Map<string, Assembled>();
  let left = MOST_TAKEN;
  for (const start of all.keys()) {
    // What is replaced comes before what replaces it; a circle is cut where it closes.
    const waiting: { name: string; entered: boolean }[] = [{ name: start, entered: false }];
    const entered = new Set<string>();
    for (let top = waiting.pop(); top !== undefined; top = waiting.pop()) {
      if (done.has(top.name)) continue;
      const thing = all.get(top.name)!;
      const replaced = replacedBy(thing, all);
      if (!top.entered && replaced.length > 0) {
        if (entered.has(top.name)) continue;
        entered.add(top.name);
        waiting.push({ name: top.name, entered: true });
        for (const name of replaced)
          if (!done.has(name) && !entered.has(name)) waiting.push({ name, entered: false });
        continue;
      }
      const old = replaced.flatMap((name) => done.get(name) ?? []);
      const made = left > 0 ? takenOver(thing, old) : { ...thing, replaced: old.map((one) => one.name) };
      if (old.length > 0) left -= bodySize(made.body);
      done.set(top.name, made);
    }
  }
  const inOrder = new Map<string, Assembled>();
  for (const name of all.keys()) inOrder.set(name, done.get(name)!);
  return inOrder;
}

function replacedBy(thing: Declared, all: ReadonlyMap<string, Declared>): string[] {
  if (thing.origin !== 'kit') return [];
  return textsOf(thing.body, 'replaces').filter(
    (name) => name !== thing.name && !STRUCTURE.has(name) && all.get(name)?.type === thing.type,
  );
}

/** Own word over the old thing's, the old thing's over the kind's. */
function takenOver(thing: Declared, old: readonly Assembled[]): Assembled {
  const replaced = old.map((one) => one.name);
  if (old.length === 0) return { ...thing, replaced };
  const kind: MergedKind | null = thing.kind ?? old.find((one) => one.kind !== null)?.kind ?? null;
  let taken: Body = { cursor: null, fields: new Map() };
  for (const one of [...old].reverse()) taken = mergeBodies(taken, onlyTaken(one));
  let kindBody = kind?.body ?? EMPTY;
  if (ownJointsAlone(thing, taken)) {
    taken = bodyWithout(taken, JOINTS);
    if (thing.kind === null) kindBody = bodyWithout(kindBody, JOINTS);
  }
  const base = mergeBodies(kindBody, taken);
  return { ...thing, kind, body: mergeBodies(base, thing.own), replaced };
}

const JOINTS: ReadonlySet<string> = new Set(['joints']);

/** A part that names joints of its own, none of which the old one has, is held in its own way. */
function ownJointsAlone(thing: Declared, taken: Body): boolean {
  const own = fieldsOf(thing.own, 'joints');
  const old = fieldsOf(taken, 'joints');
  return own.size > 0 && ![...own.keys()].some((name) => old.has(name));
}

function onlyTaken(old: Assembled): Body {
  const keys = TAKEN[old.type];
  return { cursor: null, fields: new Map([...(old.body.fields ?? [])].filter(([key]) => keys.has(key))) };
}
