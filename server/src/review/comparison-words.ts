/** What every form of a comparison says alike: its headings, its places, what came of the edits, how a text changed. */

import { diffArrays } from 'diff';
import type { Severity } from '../findings/finding';
import { counted, listed } from '../findings/words';
import { printHours } from '../labour/three-point';
import { type ChangeKind, LEVELS, type Level } from './change';
import type { Effects, HoursAccount } from './effects';
import type { ComparedGuide, ComparisonReport, ReportedChange } from './report';

export const NOTHING = 'Nothing changed in meaning.';

const HEADINGS: Readonly<Record<Level, string>> = {
  first: 'Look at these first',
  work: 'What is done otherwise',
  words: 'Words, times and papers',
  gone: 'Put right',
};

/** The changes of a guide under their headings; a heading with nothing under it is left out. */
export function groupsOf({ changes }: ComparedGuide): {
  readonly level: Level;
  readonly heading: string;
  readonly changes: readonly ReportedChange[];
}[] {
  return LEVELS.flatMap((level) => {
    const own = changes.filter((change) => change.level === level);
    return own.length === 0 ? [] : [{ level, heading: HEADINGS[level], changes: own }];
  });
}

/** `lift.install.yaml:31 → 33`, `was lift.install.yaml:31`, `old.yaml:31 → new.yaml:33`. */
export function placeInWords({ before, after }: ReportedChange): string {
  if (after === null) return before === null ? '' : `was ${before.file}:${before.line}`;
  if (before === null) return `${after.file}:${after.line}`;
  if (before.file !== after.file) return `${before.file}:${before.line} → ${after.file}:${after.line}`;
  return before.line === after.line
    ? `${after.file}:${after.line}`
    : `${after.file}:${before.line} → ${after.line}`;
}

/** Of these the words themselves are shown, before and now; of the rest the sentence says it all. */
const SHOWN: ReadonlySet<ChangeKind> = new Set<ChangeKind>([
  'words',
  'caution-added',
  'caution-removed',
  'caution-changed',
  'step-added',
  'step-removed',
  'waiver-changed',
]);

/** What was said and what is, where the sentence does not bear it already. */
export function saidBeside({ kind, sentence, from, to }: ReportedChange): {
  readonly from: string | null;
  readonly to: string | null;
} | null {
  const told = (value: string | null) => value === null || sentence.includes(value);
  return !SHOWN.has(kind) || (told(from) && told(to)) ? null : { from, to };
}

export interface Piece {
  readonly text: string;
  readonly how: 'same' | 'gone' | 'new';
}

/** A text and another with the words that differ marked. */
export function piecesOf(from: string, to: string): Piece[] {
  return diffArrays(wordsIn(from), wordsIn(to)).map(({ value, added, removed }) => ({
    text: value.join(''),
    how: added ? 'new' : removed ? 'gone' : 'same',
  }));
}

/** Words and stops with the space behind them, so that what changed is told in stretches and not letter by letter. */
const wordsIn = (text: string): string[] => text.match(/[^\s.,;:!?]+\s*|[.,;:!?]+\s*|^\s+/g) ?? [];

/** `12 changes, 3 to look at first`. */
export function countInWords({ changes }: ComparedGuide): string {
  const first = changes.filter(({ level }) => level === 'first').length;
  return `${counted(changes.length, 'change')}${first === 0 ? '' : `, ${first} to look at first`}`;
}

const NAMES: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'note' };
const SEVERITIES: readonly Severity[] = ['error', 'warning', 'info'];

export interface EffectRow {
  readonly name: string;
  readonly before: string;
  readonly after: string;
}

/** What the edits did to the whole: only what is not as it was. */
export function effectRows(effects: Effects): EffectRow[] {
  const rows: EffectRow[] = [];
  const add = (name: string, before: string, after: string): void => {
    if (before !== after) rows.push({ name, before, after });
  };
  const { findings, open, steps, checkedSteps, undecided, waived, hours } = effects;
  for (const severity of SEVERITIES)
    add(
      `${NAMES[severity].charAt(0).toUpperCase()}${NAMES[severity].slice(1)}s`,
      String(findings.before[severity]),
      String(findings.after[severity]),
    );
  add('Open at the end', String(open.before), String(open.after));
  add(
    'Steps checked',
    `${checkedSteps.before} of ${steps.before}`,
    `${checkedSteps.after} of ${steps.after}`,
  );
  add('Undecided', String(undecided.before), String(undecided.after));
  add('Waived', String(waived.before), String(waived.after));
  add('Quoted hours, 50 %', hoursInWords(hours.before, 'at50'), hoursInWords(hours.after, 'at50'));
  add('Quoted hours, 90 %', hoursInWords(hours.before, 'at90'), hoursInWords(hours.after, 'at90'));
  return rows;
}

export const AS_BEFORE = 'Findings, the open list, the cover of the check and the hours are as they were.';

/** What is left open at the end that was not before, where no finding says it. */
export function openInWords({ newlyOpen, closed }: Effects): string[] {
  return [
    ...(newlyOpen.length === 0 ? [] : [`Newly open at the end: ${newlyOpen.join(' ')}`]),
    ...(closed.length === 0 ? [] : [`No longer open at the end: ${closed.join(' ')}`]),
  ];
}

function hoursInWords({ lowest, highest, atLeast, step }: HoursAccount, share: 'at50' | 'at90'): string {
  const [low, high] = [printHours(lowest[share], step), printHours(highest[share], step)];
  return `${atLeast ? 'at least ' : ''}${low === high ? low : `${low.replace(/ h$/, '')} to ${high}`}`;
}

/** What was compared: `main → the files as they are`. */
export const comparedInWords = ({ before, after }: ComparisonReport): string => `${before} → ${after}`;

/** Guides that only one version has, and those that are alike. */
export function restInWords({ added, removed, unchanged, guides }: ComparisonReport): string[] {
  return [
    ...added.map(
      ({ title, file, steps, errors, warnings }) =>
        `New guide: ${title} (${file}), ${counted(steps, 'step')}, ${listed([counted(errors, 'error'), counted(warnings, 'warning')])}.`,
    ),
    ...removed.map(
      ({ title, file, steps }) => `Gone: the guide ${title} (${file}), ${counted(steps, 'step')}.`,
    ),
    ...(unchanged === 0
      ? []
      : guides.length + added.length + removed.length === 0
        ? [
            `${counted(unchanged, 'guide')} compared; nothing changed in meaning in ${unchanged === 1 ? 'it' : 'them'}.`,
          ]
        : [
            `${counted(unchanged, 'other guide')} that ${unchanged === 1 ? 'was' : 'were'} looked at: ${NOTHING.toLowerCase()}`,
          ]),
  ];
}

/** That there is more in the vehicle's file than what is told; null where there is not. */
export const untouchedInWords = ({ untouched }: ComparedGuide): string | null =>
  untouched === 0
    ? null
    : `The vehicle's data changed in ${counted(untouched, 'other way')} that this guide does not touch.`;
