import type { Figures } from '../../labour/spread';
import { hoursOf, tidyMinutes } from '../../labour/three-point';
import { csvText, type Field } from '../csv';
import { type LabourReport, summaryOf } from './report';

/**
 * The report as a table for spreadsheets: one line for each line of the summary; with `--explain` one for each piece of time instead.
 */
export function reportCsv(report: LabourReport): string {
  const rows = report.steps === null ? summary(report) : pieces(report);
  return csvText(rows);
}

function summary({ labour, hourStep }: LabourReport): Field[][] {
  const minutes = (figures: Figures | null): Field[] =>
    figures === null ? [null, null, null] : [figures.expected, figures.at50, figures.at90].map(tidyMinutes);
  const hours = (figures: Figures | null): Field[] =>
    figures === null ? [null, null] : [figures.at50, figures.at90].map((one) => hoursOf(one, hourStep));
  const titles = (unit: string, names: readonly string[]) =>
    ['lowest', 'highest'].flatMap((end) => names.map((name) => `${end} ${name} (${unit})`));
  return [
    [
      'row',
      'number',
      'title',
      'at least',
      ...titles('min', ['expected', '50 %', '90 %']),
      ...titles('h', ['50 %', '90 %']),
    ],
    ...summaryOf(labour).map(({ sort, number, title, atLeast, lowest, highest }) => [
      sort,
      number,
      title,
      atLeast ? 'yes' : 'no',
      ...minutes(lowest),
      ...minutes(highest),
      ...hours(lowest),
      ...hours(highest),
    ]),
  ];
}

function pieces({ steps }: LabourReport): Field[][] {
  const titles = ['step', 'id', 'file', 'line', 'from', 'what', 'low (min)', 'likely (min)', 'high (min)'];
  const more = [
    'how',
    'source',
    'skill',
    'variants',
    'counted in step',
    'on the clock (min)',
    'labour (min)',
  ];
  return [
    [...titles, ...more],
    ...(steps ?? []).flatMap(({ path, id, file, line, minutes }) =>
      minutes.map((one): Field[] => {
        const known = one.from !== 'unknown';
        const time = one.time === null ? [null, null, null] : [one.time.low, one.time.likely, one.time.high];
        const source = one.source === null ? '' : `${one.source.file}:${one.source.line} ${one.source.entry}`;
        return [
          ...[path, id ?? '', file, line, one.from, one.what],
          ...time,
          ...[one.how, source, one.skill ?? '', one.variants ?? '', one.sharedWith ?? ''],
          ...(known ? [one.elapsed, one.labour].map(tidyMinutes) : [null, null]),
        ];
      }),
    ),
  ];
}
