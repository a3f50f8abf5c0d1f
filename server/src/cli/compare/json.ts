import { tidyMinutes } from '../../labour/three-point';
import type { HoursAccount } from '../../review/effects';
import type { ComparedGuide, ComparisonReport, ReportedChange } from '../../review/report';

/**
 * Version 1 of the comparison for other programs: fields in this order, lines from 1, times in minutes. `kind` and
 * `level` are stable words; sentences may become better ones.
 */
export function comparisonJson({
  before,
  after,
  guides,
  added,
  removed,
  unchanged,
}: ComparisonReport): string {
  const report = { version: 1, before, after, guides: guides.map(guideOf), added, removed, unchanged };
  return `${JSON.stringify(report, null, 2)}\n`;
}

function guideOf({ title, before, after, notes, changes, effects, untouched }: ComparedGuide) {
  const { hours, newlyOpen, closed, ...rest } = effects;
  return {
    title,
    before,
    after,
    notes,
    untouched,
    changes: changes.map(changeOf),
    effects: {
      ...rest,
      newlyOpen,
      closed,
      minutes: { before: minutesOf(hours.before), after: minutesOf(hours.after) },
    },
  };
}

function changeOf({ kind, level, sentence, variants, from, to, step, before, after, rule }: ReportedChange) {
  return {
    level,
    kind,
    sentence,
    variants,
    from,
    to,
    step: step === null ? null : { number: step.number, id: step.id },
    before,
    after,
    rule,
  };
}

function minutesOf({ lowest, highest, atLeast }: HoursAccount) {
  const figures = ({ at50, at90 }: HoursAccount['lowest']) => ({
    at50: tidyMinutes(at50),
    at90: tidyMinutes(at90),
  });
  return { lowest: figures(lowest), highest: figures(highest), atLeast };
}
