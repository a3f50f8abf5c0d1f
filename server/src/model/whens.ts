/** Conditions in vehicle and kit files: that their traits and options exist. */

import type { Finding } from '../findings/finding';
import { buildWorld, type DeclaredVariable } from '../variants/world';
import { ConditionReader } from './conditions';
import type { Declared } from './declared';
import { Report } from './report';
import { type Cursor, entriesAt, type OpenDocument } from './source';
import { dimensionOf, optionsOf, traitsOf } from './variables';

/** A kit's condition is wrong where it is wrong for each vehicle that the kit is for; where none is known, its options alone are judged. */
export function checkDeclaredConditions(
  document: OpenDocument,
  vehicles: readonly OpenDocument[],
  things: ReadonlyMap<string, Declared>,
  report: Report,
): void {
  const whens = [...things.values()].flatMap(({ cursor }) => whensOf(cursor!));
  if (whens.length === 0) return;
  const spaces: DeclaredVariable[][] =
    document.kind === 'vehicle'
      ? [traitsOf(document)]
      : vehicles.map((vehicle) => [...traitsOf(vehicle), ...optionsOf(document)]);
  if (spaces.length > 0) {
    const [first = [], ...others] = spaces.map((variables) => found(whens, variables, document.uri, true));
    for (const finding of first) {
      if (others.every((list) => list.some((other) => sameFinding(other, finding)))) report.keep(finding);
    }
  } else for (const finding of found(whens, optionsOf(document), document.uri, false)) report.keep(finding);
}

function whensOf(cursor: Cursor): Cursor[] {
  const joints = entriesAt(cursor, 'joints').map(([, joint]) => joint);
  return [cursor, ...joints].flatMap((one) => one.get('when') ?? []);
}

/** @param complete false where there may be traits beside those given. */
function found(
  whens: readonly Cursor[],
  variables: readonly DeclaredVariable[],
  uri: string,
  complete: boolean,
): Finding[] {
  const dimensions = variables.flatMap((variable) => {
    const dimension = dimensionOf(variable);
    return dimension === null ? [] : [[variable.name, dimension] as const];
  });
  const reader = new ConditionReader(new Map(dimensions));
  const conditions = whens.map((when) => reader.condition(when));
  const world = buildWorld(variables, conditions);
  const report = new Report();
  conditions.forEach((condition, index) => {
    const { set, understood } = reader.set(world, condition, report, complete);
    const { place } = whens[index]!;
    if (!understood) return;
    if (set === 0)
      report.add('never-there', place, 'No vehicle is so, so this is never there.', { severity: 'warning' });
    else if (set === 1)
      report.add('always-so', place, 'Every vehicle is so: the condition says nothing.', {
        severity: 'info',
      });
  });
  reader.reportWords(report, uri);
  return report.findings;
}

const sameFinding = (a: Finding, b: Finding): boolean =>
  a.rule === b.rule && a.place.span.start === b.place.span.start && a.place.span.end === b.place.span.end;
