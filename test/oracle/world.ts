// Instances: every part, joint, end, hole, face and line of one variant, in the state the vehicle arrives in.
import { holds, type Variant } from './condition.ts';
import {
  type Declaration,
  type Documents,
  hardwareOf,
  impliedDeclaration,
  readDeclarations,
  STRUCTURE,
  structure,
} from './declare.ts';
import { isLineVerb, type NameUse, onlyWords, settleDone, walkGuide } from './implied.ts';
import { METAL_VERBS } from './operation.ts';
import type { Packs } from './packs.ts';
import { figure } from './quantity.ts';
import { isMap, list, map, type Raw, texts } from './raw.ts';
import type { Corner, Hanging, Hold, Joint, Line, Part } from './things.ts';

export const BUILT_IN = [
  ...[
    'vehicle',
    'body',
    'frame',
    'ground',
    'front',
    'rear',
    'battery',
    'airbags',
    'high-voltage',
    'ignition',
  ],
  ...['levelling', 'parking-brake', 'fuel-pressure', 'air-tank'],
];

export interface World {
  variant: Variant; // with `done:` as the conditions of the steps leave it
  asked: Variant; // as it was asked for
  packs: Packs;
  documents: Documents;
  declarations: Map<string, Declaration>;
  hardware: Record<string, Raw>;
  parts: Map<string, Part[]>;
  lines: Map<string, Line[]>;
  everyPart: Part[]; // gathered once: see `allParts`
  replacers: Map<string, string[]>; // old name to the kit parts that replace it
  corners: Corner[];
  hanging: Hanging[];
  closures: Map<Part, Part[]>; // worked out once: what joins what never changes
  partCorners: Map<Part, Corner[]>;
  holds: Map<string, Hold>;
  values: Map<string, string>; // of switches
  valueDebt: Map<string, string>;
  safe: Map<string, string | undefined>; // what is made safe, with its debt
  normal: Map<string, Set<string>>;
  drained: Map<string, { item: string; side: string; path: string | undefined }>;
  recorded: Set<string>;
  measured: Set<string>;
}

const alreadyDeclared = new WeakMap<Documents, { packs: Packs; declarations: Map<string, Declaration> }>();

const isMetal = (verb: string): boolean => METAL_VERBS.includes(verb);

/** All names with what they say, those that only their use declares too: the same for every variant. */
function declared(documents: Documents, packs: Packs): Map<string, Declaration> {
  const known = alreadyDeclared.get(documents);
  if (known?.packs === packs) return known.declarations;
  const declarations = readDeclarations(documents, packs);
  const uses = walkGuide(documents).names;
  const circuits = new Set([...declarations.values()].flatMap((one) => texts(one.body.circuit)));
  for (const name of new Set(uses.map((use) => use.name))) {
    const own = uses.filter((use) => use.name === name);
    if (STRUCTURE.includes(name) && !declarations.has(name) && own.some((use) => isMetal(use.verb)))
      declarations.set(name, structure(name, { sided: own.some((use) => use.underSide) }));
    if (declarations.has(name) || BUILT_IN.includes(name) || circuits.has(name) || onlyWords(own)) continue;
    if (!/^[a-z0-9-]+$/i.test(name)) continue;
    declarations.set(
      name,
      impliedDeclaration(packs, name, {
        underSide: own.some((use) => use.underSide),
        lineVerb: own.some((use) => isLineVerb(use.verb)),
        firstVerb: own.find((use) => use.verb !== 'given')?.verb,
      }),
    );
  }
  alreadyDeclared.set(documents, { packs, declarations });
  return declarations;
}

/** Builds the world of one variant, before anything is done. Corners are laid by `layCorners`. */
export function buildWorld(documents: Documents, packs: Packs, asked: Variant): World {
  const variant = settleDone(documents, asked);
  const declarations = declared(documents, packs);
  const uses = walkGuide(documents).names;
  const world: World = {
    variant,
    asked,
    packs,
    documents,
    declarations,
    hardware: hardwareOf(documents),
    parts: new Map(),
    lines: new Map(),
    everyPart: [],
    replacers: new Map(),
    corners: [],
    hanging: [],
    closures: new Map(),
    partCorners: new Map(),
    holds: new Map(),
    values: new Map(),
    valueDebt: new Map(),
    safe: new Map(),
    normal: new Map([
      ['ignition', new Set(['off'])],
      ['levelling', new Set(['on'])],
      ['parking-brake', new Set(['on'])],
    ]),
    drained: new Map(),
    recorded: new Set(),
    measured: new Set(),
  };
  for (const declaration of declarations.values()) {
    if (!holds(declaration.body.when, variant)) continue;
    for (const old of declaration.replaces) {
      world.replacers.set(old, [...(world.replacers.get(old) ?? []), declaration.name]);
    }
    const own = uses.filter((use) => use.name === declaration.name);
    if (declaration.what === 'part') {
      world.parts.set(
        declaration.name,
        spread(declaration).map((one) => makePart(world, declaration, one, own)),
      );
    } else {
      world.lines.set(
        declaration.name,
        spread(declaration).map((one) => makeLine(declaration, one, own)),
      );
    }
  }
  return world;
}

interface Seat {
  side: string;
  places: Record<string, string>;
  label: string;
}

/** The instances of a declaration: left then right, each with its places in declared order. */
function spread(declaration: Declaration): Seat[] {
  const sides = declaration.body.sided === true ? ['left', 'right'] : [''];
  let places: Record<string, string>[] = [{}];
  for (const [key, values] of Object.entries(map(declaration.body.places))) {
    places = places.flatMap((place) => texts(values).map((value) => ({ ...place, [key]: value })));
  }
  return sides.flatMap((side) =>
    places.map((place) => ({
      side,
      places: place,
      label: [...Object.values(place), ...(side ? [side] : [])].join('/'),
    })),
  );
}

function instance(declaration: Declaration, seat: Seat) {
  const { name, body, own, kind, kinds, kit, implied, fresh } = declaration;
  return { name, ...seat, body, own, kind, kinds, kit, implied, fresh, given: false, granted: false };
}

// Verbs that tell of joints when they are used on a part as a whole.
const WHOLE_JOINT_VERBS = ['loosen', 'start', 'snug', 'torque', 'unbolt', 'bolt-up'];

function makePart(world: World, declaration: Declaration, seat: Seat, uses: NameUse[]): Part {
  const { body, fresh } = declaration;
  const part: Part = {
    what: 'part',
    ...instance(declaration, seat),
    joins: texts(body.joins),
    joints: [],
    ends: [],
    holes: [],
    faces: [],
    state: fresh ? 'boxed' : 'fitted',
    offWith: undefined,
    beforeOffer: 'boxed',
    neverOn: fresh,
    offFromGiven: false,
    debt: undefined,
    discardedAt: undefined,
    compressed: false,
    compressedDebt: undefined,
    unloaded: false,
    unloadedDebt: undefined,
    pressure: fresh && says(body, 'inflates') && !declaration.kinds.includes('tyre') ? 'empty' : 'full',
    pressureDebt: undefined,
    aids: new Map(),
    assumedHeld: false,
    toldTravel: false,
    sunk: 0,
    edge: { state: 'none', debt: undefined },
  };
  const noEdge = () => ({ state: 'none' as const, debt: undefined });
  for (const [name, end] of Object.entries(map(body.ends)))
    part.ends.push({
      part,
      name,
      taper: map(end).seat === 'taper',
      freed: fresh,
      debt: undefined,
      given: false,
      granted: false,
    });
  for (const [name, hole] of Object.entries(map(body.holes))) {
    part.holes.push({
      part,
      name,
      size: figure(map(hole).size, 'length'),
      state: 'none',
      debt: undefined,
      edge: noEdge(),
    });
  }
  for (const name of texts(body.faces)) part.faces.push({ part, name, edge: noEdge() });
  const declared = Object.entries(map(body.joints));
  for (const [name, joint] of declared) {
    if (holds(map(joint).when, world.variant))
      part.joints.push(makeJoint(part, name, isMap(joint) ? joint : {}));
  }
  const known = (name: string) =>
    [...part.ends, ...part.holes, ...part.faces].some((one) => one.name === name);
  for (const name of new Set(uses.map((use) => use.second))) {
    if (name === undefined || known(name) || declared.some(([one]) => one === name)) continue;
    const verbs = uses.filter((use) => use.second === name).map((use) => use.verb);
    if (verbs.some((verb) => verb === 'mark' || verb === 'drill')) {
      if (part.implied || Object.keys(map(body.holes)).length === 0)
        part.holes.push({ part, name, size: undefined, state: 'none', debt: undefined, edge: noEdge() });
    } else if (verbs.some((verb) => verb === 'free' || verb === 'seat')) {
      part.ends.push({
        part,
        name,
        taper: false,
        freed: fresh,
        debt: undefined,
        given: false,
        granted: false,
      });
    } else if (verbs.some(isMetal)) {
      if (part.implied || texts(body.faces).length === 0) part.faces.push({ part, name, edge: noEdge() });
    } else if (declared.length === 0 && !STRUCTURE.includes(part.name))
      part.joints.push(makeJoint(part, name, {}));
  }
  const whole =
    !STRUCTURE.includes(part.name) &&
    uses.some((use) => use.second === undefined && WHOLE_JOINT_VERBS.includes(use.verb));
  const namesJoint = uses.some((use) => use.second !== undefined && !known(use.second));
  if (part.implied && declared.length === 0 && whole && !namesJoint)
    part.joints.push(makeJoint(part, 'bolts', {}));
  return part;
}

function makeJoint(part: Part, name: string, body: Raw): Joint {
  const lacksPin = part.fresh && body.nut === 'slotted';
  const position = part.fresh ? ('out' as const) : ('tight' as const);
  const item = `${part.name}.${name}`;
  const empty = {
    touched: false,
    given: false,
    debt: undefined,
    pinDebt: undefined,
    spent: new Set<string>(),
  };
  return {
    what: 'joint',
    part,
    name,
    item,
    body,
    position,
    lacksPin,
    granted: false,
    hardware: new Set<string>(),
    ...empty,
  };
}

function makeLine(declaration: Declaration, seat: Seat, uses: NameUse[]): Line {
  const { body, fresh } = declaration;
  const declared = texts(body.ends);
  const named = uses.map((use) => use.second).filter((one): one is string => one !== undefined);
  const ends = declared.length > 0 ? declared : named.length > 0 ? [...new Set(named)] : [''];
  return {
    what: 'line',
    ...instance(declaration, seat),
    spans: texts(body.spans),
    ends,
    connected: new Map(ends.map((end) => [end, !fresh])),
    used: false,
    debt: undefined,
    unclipped: false,
    unclippedDebt: undefined,
    path: Object.keys(map(body.paths))[0],
    unbled: false,
    unchecked: false,
    openedDebt: undefined,
    discarded: false,
    toldStretch: false,
  };
}

/** All instances of all parts. */
export function allParts(world: World): Part[] {
  if (world.everyPart.length === 0) world.everyPart = [...world.parts.values()].flat();
  return world.everyPart;
}

/** All instances of all lines. */
export function allLines(world: World): Line[] {
  return [...world.lines.values()].flat();
}

/** The names that stand for a name: itself and what replaces it. */
export function roleNames(world: World, name: string): string[] {
  return [name, ...(world.replacers.get(name) ?? [])];
}

type Placed = { side: string; places: Record<string, string> };

/** Whether two instances can belong together: the same side if both are sided, the same place where both have the key. */
export function fits(one: Placed, other: Placed): boolean {
  if (one.side !== '' && other.side !== '' && one.side !== other.side) return false;
  return Object.entries(one.places).every(([key, value]) => (other.places[key] ?? value) === value);
}

/** The instances that a relation of `from` to a name reaches: the old part's and its replacers'. */
export function related(world: World, from: Placed, name: string): Part[] {
  if (STRUCTURE.includes(name)) return []; // a word, whatever is told of its holes
  return roleNames(world, name).flatMap((one) =>
    (world.parts.get(one) ?? []).filter((part) => fits(from, part)),
  );
}

/** Whether a part is of a kind, or of one that has it as a base. */
export function isKind(thing: { kinds: string[] }, kind: string): boolean {
  return thing.kinds.includes(kind);
}

/** Whether something says `key: true`. */
export function says(body: Raw, key: string): boolean {
  return body[key] === true;
}

/** Entries of `limited-by`: each a chain of names. */
export function limiterChains(body: Raw): string[][] {
  return list(body['limited-by']).map((entry) => texts(entry));
}
