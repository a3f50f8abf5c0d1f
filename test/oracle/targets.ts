// From a target as written to the instances it means in this variant.
import { STRUCTURE } from './declare.ts';
import { FREE_WORDS, JOINT_VERBS, METAL_VERBS } from './operation.ts';
import { map, texts } from './raw.ts';
import { jointTarget, lineTarget, partTarget } from './state.ts';
import type { Joint, Line, Part, Target } from './things.ts';
import { allLines, BUILT_IN, type World } from './world.ts';

export interface Narrowing {
  sides: string[];
  places: Record<string, unknown>; // step and operation keys; only those that a thing has as a place count
}

function within(narrowing: Narrowing, thing: { side: string; places: Record<string, string> }): boolean {
  if (thing.side !== '' && !narrowing.sides.includes(thing.side)) return false;
  return Object.entries(thing.places).every(([key, value]) => {
    const wanted = narrowing.places[key];
    return wanted === undefined || texts(wanted).includes(value);
  });
}

/** The instances of one target, in running order. A name that binds to nothing gives none. */
export function resolve(world: World, written: string, verb: string, narrowing: Narrowing): Target[] {
  const [name = '', second, third] = written.split('.');
  const carries = STRUCTURE.includes(name) && second === undefined && !METAL_VERBS.includes(verb);
  const known = world.declarations.has(name) && !carries;
  if (known) {
    const parts = (world.parts.get(name) ?? []).filter((part) => within(narrowing, part));
    if (parts.length > 0) return partTargets(parts, second, third, verb);
    const lines = (world.lines.get(name) ?? []).filter((line) => within(narrowing, line));
    return lines.flatMap((line) => lineTargets(line, second));
  }
  const circuit = allLines(world).filter((line) => line.body.circuit === name && within(narrowing, line));
  if (circuit.length > 0) return circuit.map(lineTarget);
  if (BUILT_IN.includes(name)) return [{ what: 'built-in', item: name, side: '', key: name }];
  if (FREE_WORDS.includes(verb)) return [{ what: 'words', item: written, side: '', key: written }];
  return [];
}

function partTargets(
  parts: Part[],
  second: string | undefined,
  third: string | undefined,
  verb: string,
): Target[] {
  if (second === undefined && JOINT_VERBS.includes(verb)) {
    const names = [...new Set(parts.flatMap((part) => part.joints.map((joint) => joint.name)))];
    return names.flatMap((name) => parts.flatMap((part) => one(part, name, undefined)));
  }
  if (second === undefined && (verb === 'free' || verb === 'seat')) {
    return parts.flatMap((part) => part.ends.flatMap((end) => one(part, end.name, undefined)));
  }
  if (second === undefined) return parts.map(partTarget);
  return parts.flatMap((part) => one(part, second, third));
}

function pieceTarget(joint: Joint, piece: string): Target {
  const { part } = joint;
  const item = `${joint.item}.${piece}`;
  return { what: 'piece', item, side: part.label, key: `${item}@${part.label}`, part, joint, piece };
}

function one(part: Part, second: string, third: string | undefined): Target[] {
  const item = `${part.name}.${second}`;
  const base = { item, side: part.label, key: `${item}@${part.label}`, part };
  const joint = part.joints.find((candidate) => candidate.name === second);
  if (joint) return [third === undefined ? jointTarget(joint) : pieceTarget(joint, third)];
  const end = part.ends.find((candidate) => candidate.name === second);
  if (end) return [{ what: 'end', ...base, end }];
  const hole = part.holes.find((candidate) => candidate.name === second);
  if (hole) return [{ what: 'hole', ...base, hole }];
  const face = part.faces.find((candidate) => candidate.name === second);
  return face ? [{ what: 'face', ...base, face }] : [];
}

function lineTargets(line: Line, end: string | undefined): Target[] {
  if (end === undefined) return [lineTarget(line)];
  if (!line.ends.includes(end)) return [];
  const item = `${line.name}.${end}`;
  return [{ what: 'end', item, side: line.label, key: `${item}@${line.label}`, line, lineEnd: end }];
}

/** The same target narrowed to an end that a qualifier names. */
export function withEnd(target: Target, end: string | undefined): Target[] {
  if (end === undefined || !target.line || target.lineEnd !== undefined) return [target];
  return lineTargets(target.line, end);
}

/** All instances of a name, on every side and at every place. */
export function everyInstance(world: World, written: string): Target[] {
  return resolve(world, written, 'renew', { sides: ['left', 'right'], places: map(undefined) });
}
