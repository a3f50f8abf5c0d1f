/** Binds a guide: every name to its declaration, every condition to the variants in which it holds. */

import type { Condition } from '../variants/condition';
import type { Diagram } from '../variants/diagram';
import { buildWorld, type DeclaredVariable, type World } from '../variants/world';
import type { Assembled } from './assemble';
import { checkBindings } from './bindings';
import { cursorOf, fieldsOf } from './body';
import { STRUCTURE } from './builtins';
import { checkChoices } from './choices';
import { clearanceOf, rowsIn, writtenRows } from './clearances';
import { ConditionReader } from './conditions';
import { checkFigures } from './figures';
import { type Files, filesOf } from './files';
import { bindFollows, soundlyFollowed } from './follows';
import { Guards } from './guards';
import { addImplied } from './implied';
import { addHardwarePieces, hardwareOf, linkTakenJoints } from './kit';
import { Known } from './known';
import { checkKitLacks } from './lacks';
import { addLimits } from './limits';
import type { BoundOperation, Model } from './model';
import { Names } from './names';
import { bindDuties, bindGivenOperations, bindStates } from './neighbours';
import { checkOneSided } from './one-sided';
import { type GuideOutline, operationOutlines, outlineOf } from './outline';
import { type BuildingThing, makeThing, type Scope } from './parts';
import { checkPictures } from './pictures';
import { checkReached } from './reached';
import { linkRelations } from './relations';
import { Report, shown } from './report';
import { runsOf } from './runs';
import type { OperationScope } from './scope';
import { reportSlips } from './slips';
import { Cursor, entriesAt, itemsAt, type Library, type OpenDocument, textAt, textsAt } from './source';
import { bindSteps } from './steps';
import { Targets } from './targets';
import { checkTexts } from './texts';
import { impliedVariables } from './traits';
import { usagesOf } from './usage';
import { dimensionOf, optionsOf, traitsOf } from './variables';
import { waiversOf } from './waivers';
import { checkWords } from './words';

export type { Library } from './source';

/**
 * The bound model of a guide. Never throws; what cannot be bound is left out and reported where it stands in the guide.
 * What is wrong inside a vehicle, kit or pack is for `checkDeclarations`.
 *
 * @param guide a document of kind `install`; any other gives a model of nothing.
 */
export function bindGuide(guide: OpenDocument, library: Library): Model {
  const report = new Report();
  const root = Cursor.of(guide);
  const outline = outlineOf(guide);
  const known = library.known ?? new Known(library.packs);
  const files = filesOf(root, library, known, report);
  reportDoubleIds(outline, report);
  const runs = runsOf(outline, library, report);
  const followed = soundlyFollowed(root, library, report);

  const declared = declaredVariables(files);
  const reader = new ConditionReader(dimensionsOf(declared));
  const guards = new Guards(reader, runs);
  const whens = partConditions(files.assembled, reader);
  const tables = files.kits.map(({ document }) => writtenRows(document, reader));
  readGuideConditions(runs, guards, outline);
  const coversCursor = root.get('covers');
  const covers = reader.covers(coversCursor);
  const [first] = followed.documents;
  const before = first === undefined ? null : coversOf(Cursor.of(first), reader);
  const implied = files.withoutVehicle ? impliedVariables(declared, reader.conditions, covers) : [];
  const world = buildWorld([...declared, ...implied, ...guards.variables()], reader.conditions);
  const { set: universe, understood } = reader.set(world, covers, report);
  if (universe === 0 && coversCursor !== null) reportEmptyCovers(coversCursor, world, reader, report);

  const { pieces, aids, quantities } = known;
  const sets = new Map<Cursor, Diagram>();
  const scope: Scope = {
    world,
    pieces,
    quantities,
    setOf: (when) => {
      const condition = when === null ? undefined : whens.get(when);
      if (when === null || condition === undefined) return 1;
      const known = sets.get(when) ?? reader.set(world, condition, null).set;
      sets.set(when, known);
      return known;
    },
  };
  const things = new Map<string, BuildingThing>();
  for (const [name, one] of files.assembled) things.set(name, makeThing(one, scope));
  linkRelations(files.assembled, things);
  const kits = files.kits.map((kit) => kit.document);
  const loose = looseNames(kits);
  const names = new Names(
    things,
    (name) => loose.has(name) || pieces.known(name) !== null,
    !files.withoutVehicle,
  );
  const givenOperations = operationOutlines(root.get('given')?.isList ? root.get('given') : null, '0');
  const stated = [
    root.get('given'),
    first === undefined ? null : Cursor.of(first).get('leaves'),
    root.get('leaves'),
  ];
  const given = stated.flatMap((cursor) => cursor?.entries().map(([name]) => name) ?? []);
  const duties = itemsAt(root, 'owes').flatMap((item) => textsAt(item, 'check'));
  const usages = usagesOf(runs, given, duties, givenOperations);
  addImplied(usages, names, files.kinds, scope);
  if (files.withoutVehicle) reportSlips(usages, things, report);
  checkBindings(runs, names, library, report);
  addLimits([...things.values()], ({ name }) => {
    const one = files.assembled.get(name);
    return one !== undefined && cursorOf(one.body, 'limited-by') !== null;
  });
  linkTakenJoints(files.assembled, things);
  const hardware = hardwareOf(kits, things, pieces);
  addHardwarePieces(hardware, things);

  const bindScope: OperationScope = {
    world,
    universe,
    before,
    reader,
    guards,
    targets: new Targets(names, pieces, report),
    aids,
    report,
    quantities,
    placeKeys: placesOf(things),
    withoutVehicle: files.withoutVehicle,
    main: runs.main,
  };
  const { main } = runs;
  const givenStates = bindStates(root.get('given'), main, bindScope);
  const givenBound: BoundOperation[] = bindGivenOperations(root.get('given'), main, bindScope);
  const steps = bindSteps(runs.steps, bindScope);
  // Where it is not known what is covered, nobody knows what is not.
  if (understood && universe !== 0) {
    checkReached(runs, steps, bindScope);
    checkFigures(runs, steps, bindScope);
    checkChoices(runs, steps, bindScope);
  }
  checkPictures(runs, report, library);
  const leaves = bindStates(root.get('leaves'), main, bindScope);
  const follows = bindFollows(main, followed, givenStates, bindScope, library);
  const owes = bindDuties(main, bindScope);
  reader.reportWords(report, guide.uri);
  checkTexts(outline, names, report);
  checkOneSided(runs, steps, bindScope, checkWords(runs, steps, aids.aids, report));
  if (kits.length > 0) checkKitLacks(steps, givenStates, files.withoutVehicle, report);
  const kitCursor = root.get('kit');
  return {
    uri: guide.uri,
    title: textAt(root, 'title') ?? '',
    world,
    universe,
    things,
    hardware,
    clearances: tables.flatMap((rows) => rowsIn(rows, world, reader)).flatMap((row) => clearanceOf(row)),
    aids: aids.aids,
    steps,
    given: givenStates,
    givenOperations: givenBound,
    follows,
    leaves,
    owes,
    kitPlace: kitCursor?.place ?? root.get('title')?.place ?? { uri: guide.uri, span: { start: 0, end: 0 } },
    waivers: waiversOf(runs),
    undecided: files.withoutVehicle ? [] : undeclared(things),
    findings: report.findings.sort(
      (a, b) => a.place.span.start - b.place.span.start || a.place.span.end - b.place.span.end,
    ),
    withoutVehicle: files.withoutVehicle,
    kinds: files.kinds.all(),
  };
}

function declaredVariables(files: Files): DeclaredVariable[] {
  const traits = files.vehicle === null ? [] : traitsOf(files.vehicle);
  return [...traits, ...files.kits.flatMap((kit) => optionsOf(kit.document))];
}

/** `covers` that leaves no vehicle at all. */
function reportEmptyCovers(covers: Cursor, world: World, reader: ConditionReader, report: Report): void {
  const empty = reader.partsOf(covers).find(({ condition }) => world.set(condition).set === 0);
  const { uri, span } = (empty?.cursor ?? covers).keyPlace;
  const end = Math.max(span.end, empty?.cursor.span.end ?? span.end);
  const message = 'This leaves no vehicle that the guide covers, so nothing in it was checked.';
  report.add('covers-nothing', { uri, span: { start: span.start, end } }, message);
}

/** What a guide covers, as far as it says so itself. */
function coversOf(root: Cursor, reader: ConditionReader): Condition {
  return { all: [reader.covers(root.get('covers')), reader.condition(root.get('when'))] };
}

function dimensionsOf(variables: readonly DeclaredVariable[]) {
  return new Map(
    variables.flatMap((variable) => {
      const dimension = dimensionOf(variable);
      return dimension === null ? [] : [[variable.name, dimension] as const];
    }),
  );
}

/** The conditions of parts, lines and joints, by where they are written. */
function partConditions(
  assembled: ReadonlyMap<string, Assembled>,
  reader: ConditionReader,
): Map<Cursor, Condition> {
  const conditions = new Map<Cursor, Condition>();
  for (const { body } of assembled.values()) {
    for (const one of [body, ...fieldsOf(body, 'joints').values()]) {
      const when = cursorOf(one, 'when');
      if (when !== null && !conditions.has(when)) conditions.set(when, reader.condition(when));
    }
  }
  return conditions;
}

/** Every condition of the guide is read before the world is made: it draws the cuts and orders the variables. */
function readGuideConditions(runs: ReturnType<typeof runsOf>, guards: Guards, outline: GuideOutline): void {
  for (const { frame, step, operations } of runs.steps) {
    guards.step(frame, step);
    for (const operation of operations) {
      guards.condition(frame, operation.when);
      if (operation.verb === 'torque')
        for (const item of itemsAt(operation.cursor, 'to')) guards.condition(frame, item.get('when'));
    }
  }
  const { main } = runs;
  guards.frame(main);
  for (const item of itemsAt(outline.root, 'owes')) guards.condition(main, item.get('when'));
  for (const item of itemsAt(outline.root, 'given')) guards.condition(main, item.get('when'));
}

/** Keys of `places` with all the places that things have under them. */
function placesOf(things: ReadonlyMap<string, BuildingThing>): Map<string, readonly string[]> {
  const keys = new Map<string, readonly string[]>();
  for (const { places } of things.values()) {
    if (places !== null)
      keys.set(places.key, [...new Set([...(keys.get(places.key) ?? []), ...places.values])]);
  }
  return keys;
}

/** What files are silent of though there is a vehicle file: nothing that asks for data of these can be decided. */
function undeclared(things: ReadonlyMap<string, BuildingThing>): Model['undecided'] {
  return [...things.values()].flatMap((thing) =>
    thing.origin === 'implied' && !STRUCTURE.has(thing.name)
      ? [{ rule: 'unknown-name', item: thing.name, property: 'declaration' }]
      : [],
  );
}

function looseNames(kits: readonly OpenDocument[]): Set<string> {
  return new Set(kits.flatMap((kit) => entriesAt(Cursor.of(kit), 'hardware').map(([name]) => name)));
}

function reportDoubleIds(outline: GuideOutline, report: Report): void {
  for (const { cursor, first } of outline.doubleIds) {
    const related = [{ place: first.cursor.get('id')!.place, message: 'The first step with this id' }];
    report.add(
      'duplicate-step-id',
      cursor.place,
      `Another step has the id "${shown(cursor.text ?? '')}" already.`,
      { related },
    );
  }
}
