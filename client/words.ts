import type { CheckedView, LabourView } from '../server/src/lsp/guide-view-types';

/** The hours as the status bar says them: `at least 8.9 h to 10.0 h`. */
export function hoursInWords(labour: LabourView): string {
  const range = rangeInWords(labour.lowestPrinted, labour.highestPrinted);
  return labour.atLeast ? `at least ${range}` : range;
}

/** The hours within which nine in ten of such jobs are done: `9.1 h to 10.4 h`; null where no step has a low and a high. */
export function ninetyInWords(labour: LabourView): string | null {
  return labour.ranged === 0 ? null : rangeInWords(labour.lowestAt90, labour.highestAt90);
}

/** For a line of a list: `8.9 h to 10.0 h of labour, 90 %: 9.1 h to 10.4 h`. */
export function labourInLine(labour: LabourView): string {
  const ninety = ninetyInWords(labour);
  return `${hoursInWords(labour)} of labour${ninety === null ? '' : `, 90 %: ${ninety}`}`;
}

const rangeInWords = (low: string, high: string): string => (low === high ? high : `${low} to ${high}`);

/** What the hours are made of, a sentence a line. */
export function labourInSentences(labour: LabourView): string[] {
  const lines = [`Labour of ${labour.title}: ${hoursInWords(labour)}`];
  const ninety = ninetyInWords(labour);
  if (ninety === null && labour.timed > 0)
    lines.push('No step has a low and a high time, so how far the job may run over is not known');
  else if (ninety !== null)
    lines.push(
      `Half of such jobs are done within this, nine in ten within ${ninety}: ${labour.ranged} of ${counted(labour.timed, 'timed step')} ${labour.ranged === 1 ? 'has' : 'have'} a low and a high`,
    );
  if (labour.allowance !== null) lines.push(`With the allowance of ${labour.allowance}`);
  for (const { skill, lowestPrinted, highestPrinted, atLeast } of labour.skills)
    lines.push(
      `${skill ?? 'Nobody named'}: ${atLeast ? 'at least ' : ''}${rangeInWords(lowestPrinted, highestPrinted)}`,
    );
  lines.push(`On the clock at most ${labour.elapsedPrinted}, waiting included`);
  if (labour.lowestWith.length > 0) lines.push(`Lowest with ${labour.lowestWith.join(', ')}`);
  if (labour.highestWith.length > 0) lines.push(`Highest with ${labour.highestWith.join(', ')}`);
  if (labour.unknown > 0)
    lines.push(
      labour.unknown === 1
        ? '1 step has no known time, so this is "at least"'
        : `${labour.unknown} steps have no known time, so this is "at least"`,
    );
  return lines;
}

/** Minutes of one step: `12 min`, `4 to 6 min`, `at least 4 min`; empty where nothing is known. */
export function minutesInWords(
  labour: { readonly lowest: number; readonly highest: number; readonly atLeast: boolean } | null,
): string {
  if (labour === null) return 'no time';
  const low = Math.round(labour.lowest);
  const high = Math.round(labour.highest);
  const range = low === high ? `${high} min` : `${low} to ${high} min`;
  return labour.atLeast ? `at least ${range}` : range;
}

/** Minutes since the start as hours and minutes: `1:05`, `1:47–2:01`. */
export function runningInWords({ lowest, highest }: { lowest: number; highest: number }): string {
  const [low, high] = [lowest, highest].map((minutes) => {
    const whole = Math.round(minutes);
    return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
  });
  return low === high ? high! : `${low}–${high}`;
}

/** `2 errors, 1 warning`; `nothing found`. */
export function countsInWords(findings: CheckedView['findings']): string {
  const told = (
    [
      [findings.error, 'error'],
      [findings.warning, 'warning'],
      [findings.info, 'note'],
    ] as const
  ).flatMap(([count, word]) => (count > 0 ? [counted(count, word)] : []));
  return told.length === 0 ? 'nothing found' : told.join(', ');
}

/** `7 documents checked: 2 errors, 1 warning`. */
export function checkedInWords({ documents, findings }: CheckedView): string {
  return `${counted(documents, 'document')} checked: ${countsInWords(findings)}`;
}

const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;
