/** The documents that a guide is about: its vehicle, its kits, the packs, and what each declares. */

import { type Assembled, assemble } from './assemble';
import { EMPTY, mergeBodies, textsOf } from './body';
import { isBuiltIn, SAID_OF_STRUCTURE, SPATIAL, STRUCTURE } from './builtins';
import { type Declared, type DeclaredFile, declaredThings } from './declared';
import { impliedAssembled } from './implied';
import { KindTable } from './kinds';
import { withHardware } from './kit';
import type { Known } from './known';
import { nearestName } from './nearest';
import { listed, type Report } from './report';
import { reportMissing } from './runs';
import { Cursor, itemsAt, type Library, type OpenDocument, textAt, textsAt } from './source';

/** What a vehicle and kits say together. */
export interface Said {
  readonly declared: readonly DeclaredFile[];
  readonly assembled: ReadonlyMap<string, Assembled>;
  /** Kinds of packs and of all files: for names that no file declares. */
  readonly kinds: KindTable;
}

export interface Files extends Said {
  readonly vehicle: OpenDocument | null;
  readonly kits: readonly { readonly document: OpenDocument; readonly path: Cursor }[];
  /** No vehicle file is named: what the guide and the kits name is then taken as it is. */
  readonly withoutVehicle: boolean;
}

export function filesOf(root: Cursor, library: Library, known: Known, report: Report): Files {
  const vehicleCursor = root.get('vehicle');
  const vehicle = vehicleCursor === null ? null : opened(vehicleCursor, 'vehicle', library, report);
  const kits = itemsAt(root, 'kit').flatMap((path) => {
    const document = opened(path, 'kit', library, report);
    return document === null ? [] : [{ document, path }];
  });
  if (vehicle !== null) for (const kit of kits) checkFit(kit.document, kit.path, vehicle, report);
  const documents = kits.map((kit) => kit.document);
  const said = known.of(vehicle, documents);
  reportClashes(kits, said.declared, vehicle, library, report);
  // A file that is named and missing leaves as much unknown as none named; the missing file was reported.
  return { vehicle, kits, ...said, withoutVehicle: vehicle === null };
}

/** What the documents say themselves, whatever guide they are for. */
export function saidBy(
  vehicle: OpenDocument | null,
  kits: readonly OpenDocument[],
  packKinds: KindTable,
): Said {
  const documents = [...(vehicle === null ? [] : [vehicle]), ...new Set(kits)];
  const declared: DeclaredFile[] = [];
  const beside = new Map<string, Declared>();
  const vehicleKinds = vehicle === null ? null : KindTable.over([vehicle], null, packKinds);
  for (const document of documents) {
    const kindsHere =
      document === vehicle ? vehicleKinds! : KindTable.over([document], vehicleKinds, packKinds);
    const file = declaredThings(document, kindsHere, beside);
    declared.push(file);
    if (document === vehicle) for (const [name, thing] of file.things) beside.set(name, thing);
  }
  const kinds = KindTable.over(documents, null, packKinds);
  const all = declared.flatMap((file) => [...file.things.values()]);
  const things = all.filter((thing) => !SPATIAL.has(thing.name));
  things.push(...structureOf(all));
  if (vehicle === null) things.unshift(...replacedByKits(things, kinds));
  return { declared, assembled: withHardware(assemble(things), kits), kinds };
}

function opened(
  path: Cursor,
  kind: 'vehicle' | 'kit',
  library: Library,
  report: Report,
): OpenDocument | null {
  if (path.text === null) return null;
  const document = library.document(library.resolve(path.document.uri, path.text));
  if (document !== null && document.kind === kind) return document;
  if (document === null) reportMissing(report, path, kind, library);
  else report.add('missing-file', path.place, `"${path.text}" is no ${kind} file.`);
  return null;
}

function checkFit(kit: OpenDocument, path: Cursor, vehicle: OpenDocument, report: Report): void {
  const root = Cursor.of(kit);
  const wanted = textsAt(root, 'for');
  const name = textAt(Cursor.of(vehicle), 'name');
  if (wanted.length === 0 || name === null || wanted.includes(name)) return;
  // A misspelt name is told in the kit.
  if (wanted.some((one) => nearestName(one, [name]) !== null)) return;
  report.add(
    'kit-not-for-vehicle',
    path.place,
    `The kit is for ${listed(wanted)}, and the guide's vehicle is ${name}.`,
  );
}

/** Frame and body where files speak of their holes: what the kits say is added to what the vehicle says. */
function structureOf(all: readonly Declared[]): Declared[] {
  const made = new Map<string, Declared>();
  for (const thing of all) {
    if (!STRUCTURE.has(thing.name) || thing.type !== 'part') continue;
    const said = new Map([...(thing.own.fields ?? [])].filter(([key]) => SAID_OF_STRUCTURE.has(key)));
    const before = made.get(thing.name);
    const body = mergeBodies(before?.body ?? EMPTY, { cursor: thing.cursor, fields: said });
    const cursor = before?.cursor ?? thing.cursor;
    made.set(thing.name, { ...thing, origin: 'vehicle', cursor, kind: null, own: body, body });
  }
  return [...made.values()];
}

/** Without a vehicle file the parts that a kit replaces are known from the kit alone. */
function replacedByKits(things: readonly Declared[], kinds: KindTable): Declared[] {
  const declared = new Set(things.map((thing) => thing.name));
  const made = new Map<string, Declared>();
  for (const thing of things) {
    if (thing.origin !== 'kit') continue;
    for (const name of textsOf(thing.body, 'replaces')) {
      if (declared.has(name) || made.has(name) || isBuiltIn(name)) continue;
      const guessed = impliedAssembled(name, thing.type, kinds);
      const placed = new Map(
        [...(thing.body.fields ?? [])].filter(([key]) => key === 'sided' || key === 'places'),
      );
      const kind = guessed.kind ?? thing.kind;
      made.set(name, {
        ...guessed,
        kind,
        body: mergeBodies(kind?.body ?? EMPTY, { cursor: null, fields: placed }),
      });
    }
  }
  return [...made.values()];
}

/** Names that two files of one guide both have. Where a kit's own check sees the clash, it stands there. */
function reportClashes(
  kits: Files['kits'],
  declared: readonly DeclaredFile[],
  vehicle: OpenDocument | null,
  library: Library,
  report: Report,
): void {
  const first = new Map<string, DeclaredFile>();
  for (const file of declared) {
    const clashes: string[] = [];
    for (const [name, { type }] of file.things) {
      if (type === 'part' && STRUCTURE.has(name)) continue;
      const other = first.get(name);
      if (other === undefined) first.set(name, file);
      else if (other.document !== vehicle || !vehiclesOf(file.document, library).includes(vehicle))
        clashes.push(name);
    }
    const kit = kits.find((one) => one.document === file.document);
    if (clashes.length === 0 || kit === undefined) continue;
    const more = clashes.length === 1 ? 'is a name' : 'are names';
    report.add(
      'duplicate-name',
      kit.path.place,
      `${listed(clashes)} ${more} that another file of this guide has already.`,
    );
  }
}

/**
 * The vehicles of the project that a kit's names are held against: those it says it is for, whose names it may have
 * misspelt; all there are where it does not say.
 */
export function vehiclesOf(kit: OpenDocument, library: Library): OpenDocument[] {
  const all = (library.vehicles ?? []).filter((vehicle) => vehicle.kind === 'vehicle');
  const wanted = textsAt(Cursor.of(kit), 'for');
  if (wanted.length === 0) return all;
  const names = all.map((vehicle) => vehicle.value.name);
  const meant = new Set(wanted.map((name) => (names.includes(name) ? name : nearestName(name, names))));
  return all.filter((vehicle) => meant.has(vehicle.value.name));
}
