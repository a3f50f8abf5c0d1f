import { factorOf, printShare, shareOf } from '../../labour/allowance';
import type { VariantWord } from '../../labour/labour';
import { type Labour, scaledRange } from '../../labour/labour';
import { type Figures, scaled } from '../../labour/spread';
import { counted, listed, termInWords } from '../words';
import type { ExplainedStep } from './explain';

/** What a labour report is made of, whatever it is printed as. */
export interface LabourReport {
  readonly labour: Labour;
  readonly file: string;
  /** Hours to which printed totals are rounded up. */
  readonly hourStep: number;
  readonly variant: ReadonlyMap<string, string>;
  readonly unknown: readonly UnknownStep[];
  /** Where every minute comes from; null where nobody asked. */
  readonly steps: readonly ExplainedStep[] | null;
}

export interface UnknownStep {
  readonly file: string;
  readonly line: number;
  readonly step: string;
  readonly title: string;
}

/** One line of the summary, in every format alike. */
export interface SummaryRow {
  readonly sort: 'section' | 'working time' | 'allowance' | 'quoted' | 'on the clock' | 'skill';
  /** The section's number; empty for the rest. */
  readonly number: string;
  readonly title: string;
  readonly atLeast: boolean;
  /** In a variant that takes least; null for the clock, which is told at its longest alone. */
  readonly lowest: Figures | null;
  readonly highest: Figures;
}

/** Sections, working time, what is added to it, what is quoted, the clock; then the hours by skill. */
export function summaryOf(labour: Labour): SummaryRow[] {
  const { total, quoted, allowance, atLeast } = labour;
  const factor = factorOf(allowance);
  const share = shareOf(allowance);
  const row = (
    sort: SummaryRow['sort'],
    title: string,
    { atLowest, atHighest }: { readonly atLowest: Figures; readonly atHighest: Figures },
    more: Partial<SummaryRow> = {},
  ): SummaryRow => ({ sort, number: '', title, atLeast, lowest: atLowest, highest: atHighest, ...more });
  const added = {
    atLowest: scaled(total.atLowest, factor - 1),
    atHighest: scaled(total.atHighest, factor - 1),
  };
  const clock = quoted.elapsed;
  const certain = { expected: clock, deviation: 0, at50: clock, at90: clock, least: clock, most: clock };
  return [
    ...labour.sections.map((section) =>
      row('section', section.title, section, { number: String(section.section), atLeast: section.atLeast }),
    ),
    ...(share === 0
      ? [row('working time', 'Labour', total)]
      : [
          row('working time', 'Working time', total),
          row('allowance', `Allowance, ${printShare(share)} of ${baseInWords(labour)}`, added, {
            atLeast: false,
          }),
          row('quoted', 'Quoted labour', quoted),
        ]),
    row(
      'on the clock',
      'On the clock, on average',
      { atLowest: certain, atHighest: certain },
      { lowest: null },
    ),
    ...labour.skills.map((skill) =>
      row('skill', skill.skill ?? 'not stated', scaledRange(skill, factor), { atLeast: skill.atLeast }),
    ),
  ];
}

/** Whether lowest and highest differ anywhere; where they do not, one pair of figures says it all. */
export function variesIn(rows: readonly SummaryRow[]): boolean {
  return rows.some(
    ({ lowest, highest }) =>
      lowest !== null && (lowest.expected !== highest.expected || lowest.at90 !== highest.at90),
  );
}

/** `job time` or `shift time`. */
export const baseInWords = ({ allowance }: Labour): string => allowance.on.replace('-', ' ');

/** What the figures mean, a sentence each; with `whole` also how they were come by. */
export function sentencesOf(labour: Labour, whole: boolean): string[] {
  const { total, allowance, timed, ranged } = labour;
  const out: string[] = [];
  const share = shareOf(allowance);
  if (timed > 0)
    out.push(
      ranged === 0
        ? `${timed === 1 ? 'The one timed step has no' : `None of the ${timed} timed steps has a`} low and high, so that 50 % and 90 % are the same: how far the job may run over is not known.`
        : `Half of such jobs are done within the 50 % figure, nine in ten within the 90 % figure. ${rangedInWords(timed, ranged)}`,
    );
  if (whole && ranged > 0)
    out.push(
      'A time with low, likely and high counts (low + 4 likely + high) / 6 with the variance ((high - low) / 6)². Steps are taken to run over or under without regard to each other: means add, and so do variances. 50 % and 90 % are those of a beta curve with that mean and variance between the sum of the lows and the sum of the highs; with many steps that is the normal curve.',
    );
  if (share > 0) {
    const named = listed(allowance.shares.map(({ name, share }) => `${name} ${printShare(share)}`));
    const how =
      allowance.on === 'job-time'
        ? `working time × ${Number((1 + share).toFixed(4))}`
        : `working time ÷ ${Number((1 - share).toFixed(4))}`;
    const parts = allowance.shares.length === 1 ? named : `${named}, together ${printShare(share)}`;
    out.push(`Allowance: ${parts} of ${baseInWords(labour)}, so that the quoted labour is ${how}.`);
  }
  if (total.lowestWith.length > 0) out.push(`Lowest with ${inWords(total.lowestWith)}.`);
  if (total.highestWith.length > 0) out.push(`Highest with ${inWords(total.highestWith)}.`);
  if (!total.exact)
    out.push(
      'The conditions are too entangled to be told apart: the true lowest and highest lie within these figures.',
    );
  const sections = share > 0 ? 'Sections are working time. ' : '';
  out.push(
    `${sections}Labour is time × people. On the clock is the longest over the variants, waiting included. Each figure is rounded up once, so the lines need not add up.`,
  );
  return out;
}

function rangedInWords(timed: number, ranged: number): string {
  if (ranged === timed)
    return timed === 1
      ? 'The one timed step has a low and a high.'
      : `Each of the ${timed} timed steps has a low and a high.`;
  return `Of ${counted(timed, 'timed step')} ${ranged} ${ranged === 1 ? 'has' : 'have'} a low and a high; the rest count as if they were certain, so the true range is wider.`;
}

/** Words beyond this many are counted, not listed. */
const MOST_WORDS = 6;

function inWords(words: readonly VariantWord[]): string {
  const shown = words.slice(0, MOST_WORDS).map(({ name, value }) => termInWords(name, [value]));
  return words.length > MOST_WORDS
    ? `${shown.join(', ')} and ${words.length - MOST_WORDS} more`
    : listed(shown);
}
