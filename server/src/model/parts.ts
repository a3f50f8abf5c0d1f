/** Parts and lines from what is said of them. Their relations to each other are linked in `relations.ts`. */

import { parseTyre, type Tyre } from '../units/tyre';
import type { Diagram } from '../variants/diagram';
import type { World } from '../variants/world';
import type { Assembled } from './assemble';
import { attributesOf } from './attributes';
import { type Body, cursorOf, field, fieldsOf, flagOf, textOf, textsOf } from './body';
import { makeInstances } from './instances';
import { type Mutable, makeJoint } from './joints';
import { figureOf, type QuantityReader, quantityOf } from './measures';
import type { End, Face, Hole, Joint, Line, Part } from './model';
import type { PieceTable } from './pieces';
import type { Cursor } from './source';

export interface Scope {
  readonly world: World;
  readonly pieces: PieceTable;
  readonly quantities: QuantityReader;
  /** The variants in which a written condition holds; all where there is none. */
  setOf(when: Cursor | null): Diagram;
}

/** A part or line while the model is built: relations and what is known from use are added to it. */
export type BuildingPart = Mutable<Part> & {
  joins: (Part | string)[];
  joints: Map<string, Joint>;
  ends: Map<string, End>;
  holes: Map<string, Hole>;
  faces: Map<string, Face>;
};
export type BuildingLine = Mutable<Line> & { spans: (Part | string)[] };
export type BuildingThing = BuildingPart | BuildingLine;

export function makeThing(assembled: Assembled, scope: Scope): BuildingThing {
  return assembled.type === 'part' ? makePart(assembled, scope) : makeLine(assembled, scope);
}

function makePart(assembled: Assembled, scope: Scope): BuildingPart {
  const { body } = assembled;
  const base = baseOf(assembled, scope);
  const pressure = quantityOf(body, 'pressure', 'pressure', scope.quantities);
  const part: BuildingPart = {
    ...base,
    type: 'part',
    attributes: attributesOf(body, base.kinds),
    joins: [],
    joints: new Map(),
    ends: new Map(),
    holes: new Map(),
    faces: new Map(),
    mass: figureOf(body, 'mass', 'mass', scope.quantities),
    tyre: tyreOf(body),
    drop: figureOf(body, 'drop', 'length', scope.quantities),
    droop: figureOf(body, 'droop', 'length', scope.quantities),
    bump: figureOf(body, 'bump', 'length', scope.quantities),
    length: figureOf(body, 'length', 'length', scope.quantities),
    rise: figureOf(body, 'rise', 'length', scope.quantities),
    freeAt: figureOf(body, 'free-at', 'length', scope.quantities),
    pressure: pressure === null ? null : { low: pressure.low, high: pressure.high },
    limitedBy: [],
    coveredBy: [],
    handed: textOf(body, 'pair') === 'handed',
  };
  for (const [name, joint] of fieldsOf(body, 'joints')) {
    const when = cursorOf(joint, 'when');
    const presence = scope.world.diagrams.and(part.presence, scope.setOf(when));
    part.joints.set(name, makeJoint(part, name, joint, presence, scope));
  }
  for (const [name, end] of fieldsOf(body, 'ends'))
    part.ends.set(name, makeEnd(part, name, textOf(end, 'seat')));
  for (const [name, hole] of fieldsOf(body, 'holes')) part.holes.set(name, makeHole(part, name, hole, scope));
  for (const name of textsOf(body, 'faces')) part.faces.set(name, makeFace(part, name));
  return part;
}

/** What cannot be read was reported by the schema. */
function tyreOf(body: Body): Tyre | null {
  const read = parseTyre(textOf(body, 'tyre') ?? '');
  return read.ok ? read.tyre : null;
}

function makeLine(assembled: Assembled, scope: Scope): BuildingLine {
  const { body } = assembled;
  const ends = [...new Set(textsOf(body, 'ends'))];
  const paths = new Map<string, number | null>();
  for (const name of fieldsOf(body, 'paths').keys())
    paths.set(name, figureOf(field(body, 'paths')!, name, 'length', scope.quantities));
  return {
    ...baseOf(assembled, scope),
    type: 'line',
    lineType: textOf(body, 'line-type'),
    spans: [],
    ends: ends.length === 0 ? [''] : ends,
    heldBy: null,
    heldByNew: [],
    length: figureOf(body, 'length', 'length', scope.quantities),
    across: figureOf(body, 'across', 'length', scope.quantities),
    rise: figureOf(body, 'rise', 'length', scope.quantities),
    slack: figureOf(body, 'slack', 'length', scope.quantities),
    slackFree: figureOf(body, 'slack-free', 'length', scope.quantities),
    paths,
    retracts: flagOf(body, 'retracts'),
    circuit: textOf(body, 'circuit'),
  };
}

function baseOf(assembled: Assembled, scope: Scope) {
  const { name, body, kind, origin, cursor } = assembled;
  const sided = flagOf(body, 'sided');
  const places = placesOf(body);
  const instances = makeInstances(sided, places);
  const quantity = Number(textOf(body, 'quantity') ?? Number.NaN);
  return {
    name,
    kind: kind?.name ?? null,
    kinds: kind?.line ?? [],
    origin,
    declared: cursor?.keyPlace ?? null,
    sided,
    places,
    instances,
    presence: scope.setOf(cursorOf(body, 'when')),
    startsOff: false,
    replaces: [],
    quantity: Number.isInteger(quantity) && quantity >= 0 ? quantity : instances.length,
    spare: flagOf(body, 'spare'),
  };
}

/** The first key of `places` counts; a thing has one row of places. */
function placesOf(body: Body): { readonly key: string; readonly values: readonly string[] } | null {
  const written = cursorOf(body, 'places')?.entries()[0];
  if (written === undefined) return null;
  const values = [...new Set(written[1].texts)];
  return values.length === 0 ? null : { key: written[0], values };
}

export const makeEnd = (part: Part, name: string, seat: string | null): End => ({
  type: 'end',
  name,
  part,
  full: `${part.name}.${name}`,
  seat,
});
export const makeFace = (part: Part, name: string): Face => ({
  type: 'face',
  name,
  part,
  full: `${part.name}.${name}`,
});

export function makeHole(part: Part, name: string, body: Body, { quantities }: Scope): Hole {
  const count = Number(textOf(body, 'count') ?? 1);
  return {
    type: 'hole',
    name,
    part,
    full: `${part.name}.${name}`,
    count: Number.isInteger(count) && count > 0 ? count : 1,
    size: figureOf(body, 'size', 'length', quantities),
    bolt: textOf(body, 'bolt'),
    tap: textOf(body, 'tap'),
  };
}
