/** Conditions in vehicle and kit files: that their traits and options exist, and that a kit's clearances leave nothing out. */

import type { Finding } from '../findings/finding';
import { buildWorld, type DeclaredVariable } from '../variants/world';
import { checkClearances } from './check-clearances';
import { rowsIn, writtenRows } from './clearances';
import { ConditionReader } from './conditions';
import type { Declared } from './declared';
import { Report } from './report';
import { Cursor, entriesAt, type OpenDocument } from './source';
import { dimensionOf, optionsOf, traitsOf } from './variables';

/** A kit's condition is wrong where it is wrong for each vehicle that the kit is for; where none is known, its options alone are judged. */
export function checkDeclaredConditions(
  document: OpenDocument,
  vehicles: readonly OpenDocument[],
  things: ReadonlyMap<string, Declared>,
  report: Report,
): void {
  const whens = [...things.values()].flatMap(({ cursor }) => whensOf(cursor!));
  const cleared = Cursor.of(document).get('clearances') !== null;
  if (whens.length === 0 && !cleared) return;
  const spaces: DeclaredVariable[][] =
    document.kind === 'vehicle'
      ? [traitsOf(document)]
      : vehicles.map((vehicle) => [...traitsOf(vehicle), ...optionsOf(document)]);
  if (spaces.length > 0) {
    const [first = [], ...others] = spaces.map((variables) => found(whens, variables, document, true));
    for (const finding of first) {
      if (others.every((list) => list.some((other) => sameFinding(other, finding)))) report.keep(finding);
    }
  } else for (const finding of found(whens, optionsOf(document), document, false)) report.keep(finding);
}

function whensOf(cursor: Cursor): Cursor[] {
  const joints = entriesAt(cursor, 'joints').map(([, joint]) => joint);
  return [cursor, ...joints].flatMap((one) => one.get('when') ?? []);
}

/** @param complete false where there may be traits beside those given. */
function found(
  whens: readonly Cursor[],
  variables: readonly DeclaredVariable[],
  document: OpenDocument,
  complete: boolean,
): Finding[] {
  const dimensions = variables.flatMap((variable) => {
    const dimension = dimensionOf(variable);
    return dimension === null ? [] : [[variable.name, dimension] as const];
  });
  const reader = new ConditionReader(new Map(dimensions));
  const rows = writtenRows(document, reader);
  const asked = [
    ...whens.map((when) => ({ when, condition: reader.condition(when) })),
    ...rows.flatMap(({ when, condition }) =>
      when === null || condition === null ? [] : [{ when, condition }],
    ),
  ];
  const world = buildWorld(
    variables,
    asked.map(({ condition }) => condition),
  );
  const report = new Report();
  for (const { when, condition } of asked) {
    const { set, understood } = reader.set(world, condition, report, complete);
    const { place } = when;
    if (!understood) continue;
    if (set === 0)
      report.add('never-there', place, 'No vehicle is so, so this is never there.', { severity: 'warning' });
    else if (set === 1)
      report.add('always-so', place, 'Every vehicle is so: the condition says nothing.', {
        severity: 'info',
      });
  }
  const table = Cursor.of(document).get('clearances');
  if (table !== null) checkClearances(table, rowsIn(rows, world, reader), world, report, complete);
  reader.reportWords(report, document.uri);
  return report.findings;
}

const sameFinding = (a: Finding, b: Finding): boolean =>
  a.rule === b.rule && a.place.span.start === b.place.span.start && a.place.span.end === b.place.span.end;
