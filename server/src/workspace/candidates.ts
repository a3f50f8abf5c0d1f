import { SPATIAL, SYSTEMS } from '../model/builtins';
import type { Model, Part, Target } from '../model/model';
import { VERBS } from '../model/verbs';
import type { OpenDocument } from '../schema/document';
import type { Simulation } from '../simulate/simulation';
import { printQuantity } from '../units/format';
import { targetInShort } from './describe';
import { targetNamed } from './meaning';
import { isSensible } from './moment';

/** A word that may stand at a place. */
export interface Candidate {
  readonly word: string;
  /** In a few words what it is. */
  readonly detail: string;
  readonly about: string;
  /** 0 is what makes sense there now, 1 what may, 2 what is named yet makes no sense in the present state. */
  readonly rank: 0 | 1 | 2;
  /** It is a name of the guide: all that is known of it is told when it is asked for. */
  readonly named?: boolean;
}

export const candidate = (word: string, detail = '', about = '', rank: 0 | 1 | 2 = 1): Candidate => ({
  word,
  detail,
  about,
  rank,
});

/** What a verb may act on, what it makes sense for in the present state first. */
export function targetsFor(model: Model, verb: string, sim: Simulation | null): Candidate[] {
  const acts = VERBS.get(verb)?.acts;
  const may = (what: string) => acts === undefined || acts.has(what as never);
  const found: Candidate[] = [];
  const add = (name: string): void => {
    const target = targetNamed(model, name);
    if (target === null) return;
    const sensible = sim === null ? null : isSensible(sim, verb, target, model.universe);
    const usual = LOADS.has(verb) && target.type === 'part' && isCarried(target.part);
    const rank = usual || sensible === true ? 0 : sensible === null ? 1 : 2;
    found.push({ ...candidate(name, targetInShort(target), '', rank), named: true });
  };
  for (const thing of model.things.values()) {
    if (thing.type === 'line') {
      if (may('line')) {
        add(thing.name);
        for (const end of thing.ends) if (end !== '') add(`${thing.name}.${end}`);
      }
      continue;
    }
    if (may('part')) add(thing.name);
    if (may('joint')) for (const name of thing.joints.keys()) add(`${thing.name}.${name}`);
    if (may('end')) for (const name of thing.ends.keys()) add(`${thing.name}.${name}`);
    if (may('hole')) for (const name of thing.holes.keys()) add(`${thing.name}.${name}`);
    if (may('face')) for (const name of thing.faces.keys()) add(`${thing.name}.${name}`);
  }
  // The vehicle is what is mostly lifted.
  const spatial = [...SPATIAL].map((name) =>
    candidate(name, 'always there', '', LOADS.has(verb) && name === 'vehicle' ? 0 : 1),
  );
  if (may('system')) found.push(...[...SYSTEMS].map((name) => candidate(name, 'system')));
  return !may('spatial') ? found : LOADS.has(verb) ? [...spatial, ...found] : [...found, ...spatial];
}

/** The parts whose joints a verb may act on, those first where it makes sense for one of them. */
export function partsFor(model: Model, verb: string, sim: Simulation | null): Candidate[] {
  const ranks = new Map(targetsFor(model, verb, sim).map(({ word, rank }) => [word, rank]));
  return [...model.things.values()].flatMap((thing) => {
    if (thing.type !== 'part' || thing.joints.size === 0) return [];
    const joints = [...thing.joints.values()].map(({ full }) => ranks.get(full) ?? 2);
    return [candidate(thing.name, thing.kind ?? 'part', '', Math.min(...joints) as 0 | 1 | 2)];
  });
}

/** Verbs that say what carries the vehicle or a part of it. */
const LOADS: ReadonlySet<string> = new Set(['raise', 'lower', 'support', 'unsupport']);

const isCarried = ({ attributes, limitedBy }: Part): boolean =>
  attributes.axle || attributes.arm || limitedBy.length > 0;

/** Aids, those first that can do what a verb asks of them. */
export function aidsOf(model: Model, verb: string | null): Candidate[] {
  const able = verb === null ? undefined : AID_FOR.get(verb);
  return [...model.aids.values()].map((aid) => {
    const can = [aid.raises ? 'raises' : '', aid.carries ? 'carries' : '', aid.holds ? 'holds' : ''].filter(
      Boolean,
    );
    const rank = able === undefined ? 1 : aid[able] === true ? 0 : 2;
    return { ...candidate(aid.name, can.join(', '), '', rank), named: true };
  });
}

/** Verbs that want an aid, and what it must be able to do. */
export const AID_FOR: ReadonlyMap<string, 'raises' | 'carries' | 'lowers' | 'holds' | 'compresses'> = new Map(
  [
    ['raise', 'raises'],
    ['support', 'carries'],
    ['lower', 'lowers'],
    ['hold', 'holds'],
    ['compress', 'compresses'],
  ],
);

/** Pieces of the joints that an operation names, then those that the packs know. */
export function piecesFor(
  model: Model,
  names: readonly string[],
  packs: readonly OpenDocument[],
): Candidate[] {
  const own = names.flatMap((name) => {
    const target: Target | null = targetNamed(model, name);
    return target?.type === 'joint' ? [...target.joint.stack, ...target.joint.singleUse.keys()] : [];
  });
  const known = keysOf(packs, 'pieces').map((word) => candidate(word, 'piece'));
  return [...new Set(own)].map((word) => candidate(word, 'of this joint', '', 0)).concat(known);
}

/** The figures that files give for the joints that an operation names. */
export function figuresFor(model: Model, names: readonly string[]): Candidate[] {
  return names.flatMap((name) => {
    const target = targetNamed(model, name);
    const torque = target?.type === 'joint' ? target.joint.torque : null;
    return torque === null ? [] : [candidate(printQuantity(torque), `of ${name}, by its file`, '', 0)];
  });
}

export function kindsOf(documents: readonly OpenDocument[]): Candidate[] {
  return keysOf(documents, 'kinds').map((word) => candidate(word, 'kind'));
}

/** The names under a key of documents, each once. */
export function keysOf(documents: readonly OpenDocument[], key: string): string[] {
  const found = new Set<string>();
  for (const { value } of documents) {
    const map = (value as Record<string, unknown> | null)?.[key];
    if (typeof map === 'object' && map !== null) for (const name of Object.keys(map)) found.add(name);
  }
  return [...found];
}
