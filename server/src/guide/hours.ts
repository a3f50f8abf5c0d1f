/** What a guide takes, in words and printed hours: for the status bar, the preview and the printed guide. */

import { termInWords } from '../findings/words';
import { factorOf, printShare, shareOf } from '../labour/allowance';
import { type Labour, scaledRange } from '../labour/labour';
import { printHours, tidyMinutes } from '../labour/three-point';
import type { Table } from './table';

export interface Hours {
  readonly title: string;
  /** Minutes of people's time over the variants. */
  readonly lowest: number;
  readonly highest: number;
  /** Minutes on the clock at the longest, waiting included. */
  readonly elapsed: number;
  /** Some step has no known time. */
  readonly atLeast: boolean;
  /** How many steps have none. */
  readonly unknown: number;
  /**
   * What is quoted, as printed, each rounded up once: `8.9 h`, `10.0 h`. With the allowance, where there is one. Half of
   * such jobs are done within the first two, nine in ten within the next.
   */
  readonly lowestPrinted: string;
  readonly highestPrinted: string;
  readonly lowestAt90: string;
  readonly highestAt90: string;
  readonly elapsedPrinted: string;
  /** `12 % of job time`; null where nothing is added. */
  readonly allowance: string | null;
  /** How many steps take somebody's time, and how many of these have a low and a high. */
  readonly timed: number;
  readonly ranged: number;
  /** What is quoted for each skill, where any is named: half of such jobs are done within these. */
  readonly skills: readonly {
    readonly skill: string | null;
    readonly lowestPrinted: string;
    readonly highestPrinted: string;
    readonly atLeast: boolean;
  }[];
  /** What a variant that takes least, or most, has: `lockers: fitted`. */
  readonly lowestWith: readonly string[];
  readonly highestWith: readonly string[];
}

/** @param hourStep hours to which printed totals are rounded up. */
export function hoursInWords(labour: Labour, hourStep: number): Hours {
  const { total, quoted, atLeast, allowance, timed, ranged } = labour;
  const share = shareOf(allowance);
  const hours = (minutes: number) => printHours(minutes, hourStep);
  return {
    title: labour.title,
    lowest: tidyMinutes(total.lowest),
    highest: tidyMinutes(total.highest),
    elapsed: tidyMinutes(total.elapsed),
    atLeast,
    unknown: labour.unknown.length,
    lowestPrinted: hours(quoted.atLowest.at50),
    highestPrinted: hours(quoted.atHighest.at50),
    lowestAt90: hours(quoted.atLowest.at90),
    highestAt90: hours(quoted.atHighest.at90),
    elapsedPrinted: hours(quoted.elapsed),
    allowance: share === 0 ? null : `${printShare(share)} of ${allowance.on.replace('-', ' ')}`,
    timed,
    ranged,
    skills: labour.skills.map((one) => {
      const { atLowest, atHighest } = scaledRange(one, factorOf(allowance));
      return {
        skill: one.skill,
        lowestPrinted: hours(atLowest.at50),
        highestPrinted: hours(atHighest.at50),
        atLeast: one.atLeast,
      };
    }),
    lowestWith: total.lowestWith.map(({ name, value }) => termInWords(name, [value])),
    highestWith: total.highestWith.map(({ name, value }) => termInWords(name, [value])),
  };
}

/** Sections and the whole; each figure is rounded up once. */
export function hoursTable(labour: Labour, hourStep: number): Table {
  const hours = (minutes: number) => printHours(minutes, hourStep);
  const factor = factorOf(labour.allowance);
  const row = (title: string, range: Labour['quoted'] | Labour['sections'][number], atLeast: boolean) => [
    ...(atLeast && range.highest === 0
      ? [`${title}, not known`, null, null, null]
      : [
          atLeast ? `${title}, at least` : title,
          hours(range.atLowest.at50),
          hours(range.atHighest.at50),
          hours(range.atHighest.at90),
        ]),
  ];
  const rows = [
    ...labour.sections.map((section) =>
      row(section.title, { ...section, ...scaledRange(section, factor) }, section.atLeast),
    ),
    row('All', labour.quoted, labour.atLeast),
  ];
  // Where every variant takes the same there is nothing to choose between.
  const same = rows.every(([, lowest, highest]) => lowest === highest);
  return {
    title: 'Hours',
    columns: [
      { key: 'section', title: 'Section' },
      ...(same ? [] : [{ key: 'lowest-50', title: 'Lowest, 50 %', numeric: true as const }]),
      { key: 'highest-50', title: same ? '50 %' : 'Highest, 50 %', numeric: true },
      { key: 'highest-90', title: same ? '90 %' : 'Highest, 90 %', numeric: true },
    ],
    rows: same ? rows.map(([title, , ...figures]) => [title!, ...figures]) : rows,
    byHand: [],
    notes: [],
  };
}
