/** Names that no file declares, known by their use. */

import type { Assembled } from './assemble';
import { EMPTY } from './body';
import { STRUCTURE } from './builtins';
import { makeInstances } from './instances';
import { impliedJoint } from './joints';
import type { KindTable } from './kinds';
import type { Names } from './names';
import {
  type BuildingPart,
  type BuildingThing,
  makeEnd,
  makeFace,
  makeHole,
  makeThing,
  type Scope,
} from './parts';
import type { Usage } from './usage';
import { ARRIVES_BY, NAMED, type SubKind } from './verbs';

/** The name of the one joint of a part that is only ever tightened and loosened as a whole. */
const WHOLE_JOINT = 'bolts';

/** Adds the things that the guide implies, and to declared things the joints and ends that it implies. */
export function addImplied(
  usages: ReadonlyMap<string, Usage>,
  names: Names,
  kinds: KindTable,
  scope: Scope,
): void {
  const { things } = names;
  for (const usage of usages.values()) {
    if (STRUCTURE.has(usage.name)) {
      addStructure(usage, things, scope);
      continue;
    }
    const found = names.find(usage.name, NAMED);
    if (found === null) {
      if (names.nearest(usage.name, NAMED) === null)
        things.set(usage.name, impliedThing(usage, kinds, scope));
    } else if (found.type === 'thing' && found.thing.origin === 'implied' && usage.sided) {
      makeSided(found.thing);
    }
    const thing = things.get(usage.name);
    if (thing === undefined) continue;
    if (thing.type === 'part') addSubs(thing, usage, scope);
    else addEnds(thing, usage);
  }
}

/** A thing of which only the name is known: its kind is guessed from its last words. */
export function impliedAssembled(name: string, type: 'part' | 'line', kinds: KindTable): Assembled {
  const kind = kinds.guess(name);
  const body = kind?.body ?? EMPTY;
  return { type, name, origin: 'implied', cursor: null, own: EMPTY, kind, body, replaced: [] };
}

function impliedThing(usage: Usage, kinds: KindTable, scope: Scope): BuildingThing {
  const kind = kinds.guess(usage.name);
  const type = typeOf(usage, kind?.forLines ?? null);
  const thing = makeThing(impliedAssembled(usage.name, type, kinds), scope);
  if (usage.sided) makeSided(thing);
  thing.startsOff = usage.first !== null && ARRIVES_BY[type].has(usage.first);
  return thing;
}

/** The frame or the body, where its metal is worked or a file speaks of it: only its holes and faces are of interest. */
function addStructure(usage: Usage, things: Map<string, BuildingThing>, scope: Scope): void {
  let part = things.get(usage.name);
  if (part === undefined) {
    if (!usage.metal) return;
    const { name } = usage;
    const bare = { type: 'part', name, origin: 'implied', cursor: null, own: EMPTY, kind: null, body: EMPTY };
    part = makeThing({ ...(bare as Assembled), replaced: [] }, scope);
    if (usage.sided) makeSided(part);
    things.set(name, part);
  }
  const subs = new Map([...usage.subs].filter(([, sub]) => sub === 'hole' || sub === 'face'));
  if (part.type === 'part') addSubs(part, { ...usage, subs, asJoint: false }, scope);
}

/** Verbs that agree say whether it is a line; else the kind does, and without one any verb of lines. */
function typeOf({ asLine, asPart }: Usage, kindIsLine: boolean | null): 'part' | 'line' {
  if (asLine !== asPart) return asLine ? 'line' : 'part';
  return (kindIsLine ?? asLine) ? 'line' : 'part';
}

function makeSided(thing: BuildingThing): void {
  if (thing.sided) return;
  thing.sided = true;
  thing.instances = makeInstances(true, thing.places);
  thing.quantity = thing.instances.length;
}

function addSubs(part: BuildingPart, usage: Usage, scope: Scope): void {
  const declares: Readonly<Record<SubKind, boolean>> = {
    joint: part.joints.size > 0,
    end: part.ends.size > 0,
    hole: part.holes.size > 0,
    face: part.faces.size > 0,
  };
  for (const [name, sub] of usage.subs) {
    if (part.joints.has(name) || part.ends.has(name) || part.holes.has(name) || part.faces.has(name))
      continue;
    // A part that declares any has said which there are; of an implied one only its kind has spoken.
    if (declares[sub] && part.origin !== 'implied') continue;
    if (sub === 'joint') part.joints.set(name, impliedJoint(part, name, scope));
    else if (sub === 'end') part.ends.set(name, makeEnd(part, name, null));
    else if (sub === 'hole') part.holes.set(name, makeHole(part, name, EMPTY, scope));
    else part.faces.set(name, makeFace(part, name));
  }
  if (usage.asJoint && part.joints.size === 0 && part.origin === 'implied') {
    part.joints.set(WHOLE_JOINT, impliedJoint(part, WHOLE_JOINT, scope));
  }
}

function addEnds(line: Exclude<BuildingThing, BuildingPart>, usage: Usage): void {
  if (usage.subs.size > 0 && line.ends.length === 1 && line.ends[0] === '')
    line.ends = [...usage.subs.keys()];
}
