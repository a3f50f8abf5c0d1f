/** What is wrong in a vehicle, kit or pack document itself, whoever uses it. */

import type { Finding } from '../findings/finding';
import { type Assembled, assemble } from './assemble';
import { SAID_OF_STRUCTURE, SPATIAL, STRUCTURE } from './builtins';
import { type Reference, reportCircles } from './circles';
import { type Declared, declaredThings } from './declared';
import { vehiclesOf } from './files';
import { KindTable, MOST_ANCESTORS } from './kinds';
import { nearestName } from './nearest';
import { checkReferences } from './references';
import { Report, shown, suggestion } from './report';
import { Cursor, entriesAt, itemsAt, type Library, type OpenDocument } from './source';
import { checkDeclaredConditions } from './whens';

/**
 * The findings of a vehicle, kit or pack alone, in order of place: references that lead nowhere or in circles, kinds,
 * joints and traits that nobody has, names that stand twice. For other documents there is nothing to find here.
 * A kit's references are held against the vehicles of the project that it is `for`; where none is known, only what
 * the kit says of itself is judged.
 */
export function checkDeclarations(document: OpenDocument, library: Library): Finding[] {
  const report = new Report();
  if (document.kind === 'rules') checkKinds(document, new KindTable(packsWith(document, library)), report);
  if (document.kind === 'vehicle' || document.kind === 'kit') checkFile(document, library, report);
  return report.findings.sort(
    (a, b) => a.place.span.start - b.place.span.start || a.place.span.end - b.place.span.end,
  );
}

/** All packs, and the document itself where it is not among them. */
function packsWith(document: OpenDocument, library: Library): OpenDocument[] {
  return library.packs.some((pack) => pack.uri === document.uri)
    ? [...library.packs]
    : [...library.packs, document];
}

function checkFile(document: OpenDocument, library: Library, report: Report): void {
  const vehicles = document.kind === 'kit' ? vehiclesOf(document, library) : [];
  const packKinds = library.known?.kinds ?? new KindTable(library.packs);
  const tables = vehicles.map((vehicle) => KindTable.over([vehicle], null, packKinds));
  const beside = vehicles.map((vehicle, index) => declaredThings(vehicle, tables[index]!).things);
  // A kind is unknown where neither the kit nor any of its vehicles has it.
  const kinds = KindTable.over(
    [document],
    tables.length === 0 ? null : KindTable.over(vehicles, null, packKinds),
    packKinds,
  );
  checkKinds(document, kinds, report);
  const file = declaredThings(document, kinds, beside[0]);
  for (const { name, cursor, first } of file.doubles) {
    const related = [{ place: first.keyPlace, message: 'The first of the name' }];
    report.add(
      'duplicate-name',
      cursor.keyPlace,
      `A part is named "${shown(name)}" already; a line needs another name.`,
      { related },
    );
  }
  for (const thing of file.things.values()) {
    const cursor = thing.cursor!;
    if (thing.type === 'part' && STRUCTURE.has(thing.name)) {
      reportMore(thing.name, cursor, report);
      continue;
    }
    if (SPATIAL.has(thing.name)) {
      report.add(
        'duplicate-name',
        cursor.keyPlace,
        `"${thing.name}" always stands for the vehicle's own ${thing.name}; a part needs another name.`,
      );
    }
    const other =
      beside.length > 0 && beside.every((things) => things.has(thing.name))
        ? beside[0]!.get(thing.name)!.cursor
        : null;
    if (other !== null && other !== undefined) {
      const related = [{ place: other.keyPlace, message: "The vehicle's" }];
      report.add(
        'duplicate-name',
        cursor.keyPlace,
        `The vehicle has "${shown(thing.name)}" already; a kit's part needs a name of its own.`,
        { related },
      );
    }
    const kind = cursor.get('kind');
    if (kind?.text != null && !kinds.has(kind.text)) reportKind(kind, kinds, report);
    else if (kind?.text != null && thing.type === 'part' && kinds.get(kind.text)?.forLines === true)
      report.add(
        'line-among-parts',
        kind.place,
        `"${shown(kind.text)}" is a kind of line: "${shown(thing.name)}" belongs under "lines:", with what it spans, or nothing is asked of its length and its ends.`,
        { severity: 'warning' },
      );
  }
  checkVehicleNames(document, library, report);
  checkCircles(file.things, document, report);
  // What a name may stand for: in the file, and in each of the vehicles that a kit is for.
  const own = [...file.things.values()];
  const spaces: Map<string, Assembled>[] =
    beside.length === 0 ? [assemble(own)] : beside.map((things) => assemble([...things.values(), ...own]));
  const judged = document.kind === 'vehicle' || beside.length > 0;
  checkReferences(document, spaces, judged, report);
  checkDeclaredConditions(document, vehicles, file.things, report);
}

/** Of the frame and the body there are holes and faces to tell, and no more. */
function reportMore(name: string, cursor: Cursor, report: Report): void {
  for (const [key, value] of cursor.entries()) {
    if (SAID_OF_STRUCTURE.has(key)) continue;
    const message = `"${name}" is the vehicle's own ${name}: its holes and faces can be told here, not "${shown(key)}".`;
    report.add('not-of-structure', value.keyPlace, message);
  }
}

/** Bases of kinds that nobody has, and kinds that descend from themselves. */
function checkKinds(document: OpenDocument, kinds: KindTable, report: Report): void {
  const graph = new Map<string, Reference[]>();
  let deep = false;
  for (const [name, cursor] of entriesAt(Cursor.of(document), 'kinds')) {
    const base = cursor.get('kind');
    if (base === null || base.text === null) continue;
    if (!kinds.has(base.text)) reportKind(base, kinds, report);
    // A file's kind may go on from the pack's of the same name only by leaving `kind` out.
    else graph.set(name, [{ to: kinds.nameOf(base.text), cursor: base }]);
    // One chain that is too long makes all its kinds so: it is told at the first.
    if (!deep && kinds.get(name)!.line.length >= MOST_ANCESTORS) {
      deep = true;
      report.add(
        'too-deep',
        base.place,
        `"${shown(name)}" has more than ${MOST_ANCESTORS} kinds above it; the rest is left out.`,
      );
    }
  }
  reportCircles(graph, 'is a kind of', report);
}

function reportKind(cursor: Cursor, kinds: KindTable, report: Report): void {
  const near = nearestName(cursor.text!, kinds.written) ?? kinds.guess(cursor.text!)?.name ?? null;
  const { hint, fixes } = suggestion(cursor.place, near);
  report.add(
    'unknown-part-kind',
    cursor.place,
    `Neither the rule packs nor this file have a kind "${shown(cursor.text!)}"${near === null ? '; the words there are stand in schemas/words.md, or declare it under kinds:.' : hint}`,
    { fixes },
  );
}

function checkVehicleNames(document: OpenDocument, library: Library, report: Report): void {
  if (document.kind !== 'kit') return;
  const names = (library.vehicles ?? []).flatMap((vehicle) =>
    vehicle.kind === 'vehicle' ? [vehicle.value.name] : [],
  );
  for (const item of itemsAt(Cursor.of(document), 'for')) {
    if (item.text === null || names.includes(item.text)) continue;
    const near = nearestName(item.text, names);
    // A kit may well be for vehicles that the project does not describe.
    if (near === null) continue;
    const { hint, fixes } = suggestion(item.place, near);
    report.add('unknown-name', item.place, `No vehicle file is named "${shown(item.text)}"${hint}`, {
      fixes,
    });
  }
}

/** Circles within one file; those through a kit and its vehicle cannot be, since the vehicle knows no kit. */
function checkCircles(things: ReadonlyMap<string, Declared>, document: OpenDocument, report: Report): void {
  const graphs = {
    like: 'is like',
    replaces: 'replaces',
    cover: 'is inside, under or behind',
    joins: 'joins',
    limited: 'is limited by',
  } as const;
  const made: Record<keyof typeof graphs, Map<string, Reference[]>> = {
    like: new Map(),
    replaces: new Map(),
    cover: new Map(),
    joins: new Map(),
    limited: new Map(),
  };
  for (const { name, cursor } of things.values()) {
    const references = (keys: readonly string[]): Reference[] =>
      keys.flatMap((key) =>
        itemsAt(cursor!, key).flatMap((item) =>
          item.text === null ? [] : [{ to: item.text, cursor: item }],
        ),
      );
    made.like.set(name, references(['like']));
    if (document.kind === 'kit') made.replaces.set(name, references(['replaces']));
    made.cover.set(name, references(['inside', 'under', 'behind']));
    // Parts may well join each other in a ring; none joins or limits itself.
    made.joins.set(
      name,
      references(['joins', 'spans']).filter(({ to }) => to === name),
    );
    made.limited.set(
      name,
      references(['limited-by']).filter(({ to }) => to === name),
    );
  }
  for (const key of ['like', 'replaces', 'cover', 'joins', 'limited'] as const)
    reportCircles(made[key], graphs[key], report);
}
