// From documents to declarations: what each name says after kind, replaced part, `like` and itself are merged.
import { posix } from 'node:path';
import { kindBody, kindChain, longestSuffix, mergeNamed, type Packs, readYaml } from './packs.ts';
import { isMap, list, map, merge, type Raw, text, texts } from './raw.ts';

export interface Declaration {
  name: string;
  what: 'part' | 'line';
  own: Raw; // `like` and itself
  body: Raw; // everything merged
  kind: string | undefined;
  kinds: string[];
  kit: boolean;
  implied: boolean;
  fresh: boolean; // not on the vehicle when the job starts: of a kit, or first used by being fitted
  replaces: string[];
}

export interface Documents {
  guide: Raw;
  guideName: string;
  vehicle: Raw;
  kits: Raw[];
  other: (from: string, path: string) => { document: Raw; name: string };
}

const alreadyRead = new WeakMap<Record<string, string>, Map<string, Raw>>();

/** The document of a file, parsed once for all variants. */
function document(files: Record<string, string>, key: string | undefined): Raw {
  if (key === undefined) return {};
  const known = alreadyRead.get(files) ?? new Map<string, Raw>();
  alreadyRead.set(files, known);
  const read = known.get(key) ?? readYaml(files[key]);
  known.set(key, read);
  return read;
}

const alreadyGathered = new WeakMap<Record<string, string>, Map<string, Documents>>();

/** The guide with the documents it names, the same object for all variants. Paths are relative to the file that names them. */
export function readDocuments(files: Record<string, string>, guideName: string): Documents {
  const known = alreadyGathered.get(files) ?? new Map<string, Documents>();
  alreadyGathered.set(files, known);
  const gathered = known.get(guideName) ?? gather(files, guideName);
  known.set(guideName, gathered);
  return gathered;
}

function gather(files: Record<string, string>, guideName: string): Documents {
  const other = (from: string, path: string): { document: Raw; name: string } => {
    const name = posix.normalize(posix.join(posix.dirname(from), path));
    const key = Object.keys(files).find((file) => posix.normalize(file) === name);
    return { document: document(files, key), name };
  };
  const guide = other('.', guideName).document;
  const named = (path: unknown): Raw[] => texts(path).map((one) => other(guideName, one).document);
  return { guide, guideName, vehicle: named(guide.vehicle)[0] ?? {}, kits: named(guide.kit), other };
}

/** Built-ins whose metal is worked like a part's. */
export const STRUCTURE = ['frame', 'body'];

// What a kit part takes over from the part it replaces, unless it says its own.
const TAKEN_OVER = [
  ...['sided', 'places', 'joins', 'joints', 'ends', 'holes', 'faces', 'inside', 'under', 'behind'],
  ...['limited-by', 'drop', 'free-at', 'mass', 'pressure', 'reach'],
  ...['spans', 'slack', 'slack-free', 'held-by', 'paths', 'retracts', 'circuit'],
];

/** All declared parts and lines of the vehicle and the kits, in declared order. */
export function readDeclarations(documents: Documents, packs: Packs): Map<string, Declaration> {
  const found = new Map<string, Declaration>();
  const bodies = new Map<string, Raw>();
  const sources = [documents.vehicle, ...documents.kits];
  for (const source of sources) {
    for (const section of ['parts', 'lines']) {
      for (const [name, body] of Object.entries(map(source[section])))
        if (!bodies.has(name)) bodies.set(name, map(body));
    }
  }
  const ownBody = (name: string, seen: string[] = []): Raw => {
    const body = bodies.get(name) ?? {};
    const like = text(body.like);
    if (like === undefined || seen.includes(like)) return body;
    return merge(ownBody(like, [...seen, name]), body);
  };
  const vehicleKinds = mergeNamed(packs.kinds, documents.vehicle.kinds);
  sources.forEach((source, index) => {
    const kit = index > 0;
    // Kinds of a file hold in that file; a kit may also name a kind that only the vehicle's file has.
    const kinds = kit ? { ...vehicleKinds, ...mergeNamed(packs.kinds, source.kinds) } : vehicleKinds;
    for (const what of ['part', 'line'] as const) {
      for (const name of Object.keys(map(source[`${what}s`]))) {
        if (found.has(name) || (what === 'part' && STRUCTURE.includes(name))) continue;
        const own = ownBody(name);
        const replaces = kit ? texts(own.replaces) : [];
        const old = replaces.map((one) => found.get(one)).filter((one) => one !== undefined);
        const kind = text(own.kind) ?? old[0]?.kind;
        let body = kindBody(kinds, kind);
        if (ownJointsAlone(own, old)) {
          if (text(own.kind) === undefined) body = without(body, 'joints');
          for (const one of old) body = merge(body, without(takenOver(one.body), 'joints'));
        } else for (const one of old) body = merge(body, takenOver(one.body));
        body = merge(body, own);
        const chain = kindChain(kinds, kind);
        found.set(name, {
          name,
          what,
          own,
          body,
          kind,
          kinds: chain,
          kit,
          implied: false,
          fresh: kit,
          replaces,
        });
      }
    }
  });
  layStructure(sources, found);
  return found;
}

/** What files say of the metal of frame and body: their holes and faces, a kit's beside the vehicle's. */
function layStructure(sources: Raw[], found: Map<string, Declaration>): void {
  for (const name of STRUCTURE) {
    const said = sources.map((source) => map(source.parts)[name]).filter(isMap);
    if (said.length === 0) continue;
    const body: Raw = {
      sided: said.some((one) => one.sided === true),
      holes: Object.assign({}, ...said.map((one) => map(one.holes))),
      faces: [...new Set(said.flatMap((one) => texts(one.faces)))],
    };
    found.set(name, structure(name, body));
  }
}

/** Frame or body as a part: fitted, without joints, joining nothing, of no kind. */
export function structure(name: string, body: Raw): Declaration {
  return {
    ...{ name, what: 'part', own: {}, body, kind: undefined, kinds: [] },
    ...{ kit: false, implied: true, fresh: false, replaces: [] },
  };
}

/** A part that names joints, none of which the old one has, is held in its own way. */
function ownJointsAlone(own: Raw, old: Declaration[]): boolean {
  const names = Object.keys(map(own.joints));
  const taken = old.flatMap((one) => Object.keys(map(one.body.joints)));
  return old.length > 0 && names.length > 0 && !names.some((name) => taken.includes(name));
}

function without(body: Raw, key: string): Raw {
  const { [key]: _, ...rest } = body;
  return rest;
}

function takenOver(body: Raw): Raw {
  return Object.fromEntries(
    TAKEN_OVER.filter((key) => body[key] !== undefined).map((key) => [key, body[key]]),
  );
}

export interface ImpliedUse {
  underSide: boolean;
  lineVerb: boolean;
  firstVerb: string | undefined;
}

/** A name that no file declares, by its use. */
export function impliedDeclaration(packs: Packs, name: string, use: ImpliedUse): Declaration {
  const kind = longestSuffix(packs.kinds, name);
  const chain = kindChain(packs.kinds, kind);
  const kindSays = kindBody(packs.kinds, kind);
  const body: Raw = use.underSide ? { ...kindSays, sided: true } : kindSays;
  const isLine =
    kind === undefined ? use.lineVerb : chain.includes('line') || kindSays['line-type'] !== undefined;
  const what = isLine ? 'line' : 'part';
  const bringing = isLine ? ['route', 'connect'] : ['fit', 'bolt-up', 'offer', 'start'];
  const fresh = use.firstVerb !== undefined && bringing.includes(use.firstVerb);
  return { name, what, own: {}, body, kind, kinds: chain, kit: false, implied: true, fresh, replaces: [] };
}

/** The hardware of all kits. */
export function hardwareOf(documents: Documents): Record<string, Raw> {
  const all: Record<string, Raw> = {};
  for (const kit of documents.kits) {
    for (const [name, body] of Object.entries(map(kit.hardware))) if (isMap(body)) all[name] = body;
  }
  return all;
}

/** Traits of the vehicle and options of the kits, with what they declare. */
export function declaredVariables(documents: Documents): [name: string, declared: unknown][] {
  const options = documents.kits.flatMap((kit) => Object.entries(map(kit.options)));
  return [...Object.entries(map(documents.vehicle.traits)), ...options].filter(
    ([, value]) => list(value).length > 0,
  );
}
