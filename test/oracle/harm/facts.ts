// What the files say of the vehicle and of the box: things by name, with what their kind, their like and the part they replace say.
import { posix } from 'node:path';
import { kindBody, kindChain, mergeNamed } from '../packs.ts';
import { figure, parseQuantity } from '../quantity.ts';
import { list, map, merge, type Raw, text, texts } from '../raw.ts';
import { usedOnce } from './trade.ts';

/** All documents by their paths, parsed. */
export type Documents = Readonly<Record<string, Raw>>;

export interface Range {
  readonly low: number;
  readonly high: number;
}

export interface JointFact {
  readonly name: string;
  readonly when: unknown;
  readonly figure: Range | undefined; // N·m
  readonly angle: number | undefined;
  readonly bolts: number; // on one side
  readonly slotted: boolean;
  readonly pieces: readonly string[]; // nut, pin, bolt and what is stacked on it, as far as these lock or seal
  readonly comes: readonly string[]; // those of them that come new with a part of the box
  readonly stretch: boolean; // used up already by slackening
  readonly rubber: boolean;
  readonly handTight: boolean;
  readonly firstOnGround: boolean;
  readonly coveredBy: readonly string[] | undefined;
}

export interface Fact {
  readonly name: string;
  readonly line: boolean;
  readonly kinds: readonly string[];
  readonly body: Raw;
  readonly kit: boolean;
  readonly replaces: readonly string[];
  readonly when: readonly unknown[];
  readonly seats: readonly { readonly side: Side; readonly place: Readonly<Record<string, string>> }[];
  readonly mass: number | undefined; // kg
  readonly joins: readonly string[];
  readonly coveredBy: readonly string[];
  readonly joints: readonly JointFact[];
  readonly ends: readonly string[];
  readonly holes: Readonly<Record<string, number | undefined>>; // mm
  readonly faces: readonly string[];
  readonly stops: readonly (readonly string[])[]; // what keeps it from dropping; of a chain the first gone is enough
  readonly drop: number | undefined; // mm
  readonly freeAt: number | undefined; // mm
  readonly pressure: Range | undefined; // kPa
  readonly outside: boolean; // worked on from beside the vehicle
  readonly count: number;
}

export type Side = '' | 'left' | 'right';

/** Everything that one guide's job is about. */
export interface Facts {
  readonly things: ReadonlyMap<string, Fact>;
  /** Kit parts by what they replace. */
  readonly takesPlaceOf: ReadonlyMap<string, readonly string[]>;
  /** Joints that loose nuts, bolts or pins of the box are for. */
  readonly supplied: ReadonlySet<string>;
  readonly variables: readonly (readonly [name: string, declared: unknown])[];
}

/** A document that a path in another one names. */
export function named(documents: Documents, from: string, path: string): { name: string; document: Raw } {
  const name = posix.normalize(posix.join(posix.dirname(from), path));
  return { name, document: documents[name] ?? {} };
}

// What a new part has from the old one whose place it takes.
const INHERITED = [
  ...['sided', 'places', 'joins', 'ends', 'inside', 'under', 'behind', 'limited-by', 'drop', 'free-at'],
  ...['mass', 'pressure', 'reach', 'spans', 'slack', 'slack-free', 'held-by', 'paths', 'retracts', 'circuit'],
];

/** The facts of the vehicle and the kits of some guides. `vocabulary` is any packs: only their kinds are read. */
export function readFacts(
  documents: Documents,
  guides: readonly string[],
  vocabulary: readonly Raw[],
): Facts {
  const under = (key: string) =>
    guides.flatMap((guide) =>
      texts(documents[guide]?.[key]).map((path) => named(documents, guide, path).document),
    );
  const vehicle = under('vehicle')[0] ?? {};
  const kits = [...new Set(under('kit'))];
  const common = vocabulary.reduce<Record<string, Raw>>((kinds, one) => mergeNamed(kinds, one.kinds), {});
  const known = mergeNamed(common, vehicle.kinds);
  const things = new Map<string, Fact>();
  const bodies = new Map<string, Raw>();
  for (const source of [vehicle, ...kits])
    for (const what of ['parts', 'lines'])
      for (const [name, body] of Object.entries(map(source[what])))
        if (!bodies.has(name)) bodies.set(name, map(body));
  const said = (name: string): Raw => {
    const { like, ...own } = bodies.get(name) ?? {};
    const model = text(like);
    return model === undefined || model === name ? own : merge(said(model), own);
  };
  const takesPlaceOf = new Map<string, string[]>();
  for (const source of [vehicle, ...kits]) {
    const kit = source !== vehicle;
    const kinds = kit ? mergeNamed(known, source.kinds) : known;
    for (const what of ['parts', 'lines'])
      for (const name of Object.keys(map(source[what]))) {
        if (things.has(name) && !isMetal(name)) continue;
        const own = said(name);
        const old = texts(own.replaces).flatMap((one) => things.get(one) ?? []);
        for (const { name: one } of old) takesPlaceOf.set(one, [...(takesPlaceOf.get(one) ?? []), name]);
        const before = isMetal(name) ? map(things.get(name)?.body) : {};
        const line = what === 'lines';
        things.set(name, factOf(name, merge(before, own), old, kinds, kit && !isMetal(name), line));
      }
  }
  const options = kits.flatMap((kit) => Object.entries(map(kit.options)));
  const hardware = kits.flatMap((kit) => Object.values(map(kit.hardware)));
  const supplied = hardware.flatMap((one) =>
    texts(map(one).for).map((name) => name.split('.').slice(0, 2).join('.')),
  );
  const variables = [...Object.entries(map(vehicle.traits)), ...options];
  return { things, takesPlaceOf, supplied: new Set(supplied), variables };
}

/** The metal that everything hangs on. */
export const isMetal = (name: string): boolean => name === 'frame' || name === 'body';

function factOf(
  name: string,
  own: Raw,
  old: readonly Fact[],
  kinds: Record<string, Raw>,
  kit: boolean,
  line: boolean,
): Fact {
  const kind = text(own.kind) ?? old[0]?.kinds[0];
  const chain = kindChain(kinds, kind);
  const ofKind = kindBody(kinds, kind);
  const taken = old.reduce<Raw>((all, one) => {
    const kept = Object.entries(one.body).filter(([key]) => INHERITED.includes(key));
    return merge(all, Object.fromEntries(kept));
  }, {});
  let body = merge(merge(ofKind, taken), own);
  body = { ...body, joints: jointsOf(own, old, ofKind) };
  const sides: Side[] = body.sided === true ? ['left', 'right'] : [''];
  const places = Object.entries(map(body.places)).reduce<Record<string, string>[]>(
    (all, [key, values]) => all.flatMap((one) => texts(values).map((value) => ({ ...one, [key]: value }))),
    [{}],
  );
  const seats = sides.flatMap((side) => places.map((place) => ({ side, place })));
  return {
    ...{ name, line, body, kit, seats },
    kinds: chain,
    replaces: old.map((one) => one.name),
    when: [own.when, ...(kit ? [] : old.map((one) => one.body.when))].filter((one) => one !== undefined),
    mass: figure(body.mass, 'mass'),
    joins: texts(body.joins),
    coveredBy: covers(body),
    joints: Object.entries(map(body.joints)).map(([one, said]) =>
      jointFact(one, map(said), body, kit ? map(map(own.joints)[one]) : {}),
    ),
    ends: line ? lineEnds(body) : Object.keys(map(body.ends)),
    holes: Object.fromEntries(
      Object.entries(map(body.holes)).map(([one, said]) => [one, figure(map(said).size, 'length')]),
    ),
    faces: texts(body.faces),
    stops: list(body['limited-by']).map(texts),
    drop: figure(body.drop, 'length'),
    freeAt: figure(body['free-at'], 'length'),
    pressure: range(body.pressure, 'pressure'),
    outside: body.reach === 'outside',
    count: own.quantity === undefined ? seats.length : Number(own.quantity),
  };
}

function lineEnds(body: Raw): string[] {
  const ends = texts(body.ends);
  return ends.length > 0 ? ends : [''];
}

/** A new part is held as the old one was, unless it is held by something of its own. */
function jointsOf(own: Raw, old: readonly Fact[], ofKind: Raw): Raw {
  const said = map(own.joints);
  const before = old.reduce<Raw>((all, one) => merge(all, map(one.body.joints)), {});
  const names = Object.keys(said);
  if (old.length > 0 && names.length > 0 && names.every((name) => before[name] === undefined)) return said;
  return merge(merge(map(ofKind.joints), before), said);
}

const covers = (body: Raw): string[] => ['inside', 'under', 'behind'].flatMap((key) => texts(body[key]));

function jointFact(name: string, said: Raw, part: Raw, own: Raw): JointFact {
  const stack = texts(said.stack);
  const rubber = typeof said.bushed === 'boolean' ? said.bushed : stack.length === 0 && part.bushed === true;
  const slotted = said.nut === 'slotted';
  const says = (key: string) => said[key] !== undefined;
  return {
    ...{ name, slotted, rubber },
    when: said.when,
    figure: range(said.torque ?? list(said.stages).at(-1), 'torque'),
    angle: figure(said.then, 'angle'),
    bolts: said.bolts === undefined ? 1 : Number(said.bolts),
    pieces: [
      ...(said.nut === 'self-locking' ? ['nut'] : []),
      ...(slotted ? ['pin'] : []),
      ...(said.stretch === true ? ['bolt'] : []),
      ...stack.filter(usedOnce),
    ],
    comes: [
      ...(own.nut === undefined ? [] : ['nut', 'pin']),
      ...(own.class === undefined ? [] : ['bolt']),
      ...texts(own.stack),
    ],
    stretch: said.stretch === true,
    handTight: said['hand-tight'] === true,
    firstOnGround: said['loosen-first'] === 'on-ground',
    coveredBy: ['inside', 'under', 'behind'].some(says) ? covers(said) : undefined,
  };
}

function range(value: unknown, dimension: string): Range | undefined {
  const read = parseQuantity(value);
  return read?.dimension === dimension ? { low: read.low, high: read.high } : undefined;
}

/** Whether a thing is of a kind. */
export const isA = (fact: { readonly kinds: readonly string[] }, ...kinds: string[]): boolean =>
  fact.kinds.some((kind) => kinds.includes(kind));
