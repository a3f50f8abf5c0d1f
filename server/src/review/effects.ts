/** What the edits did to the whole: findings, what is open at the end, how much could be checked, the hours. */

import type { TraceOpen } from '../check/trace';
import type { Severity } from '../findings/finding';
import type { ComparedFindings } from './compare-findings';
import type { Version } from './version';

export interface BeforeAfter<T> {
  readonly before: T;
  readonly after: T;
}

export interface HoursAccount {
  /** Minutes, with the allowance. Half of such jobs are done within the first figure, nine in ten within the second. */
  readonly lowest: { readonly at50: number; readonly at90: number };
  readonly highest: { readonly at50: number; readonly at90: number };
  /** Some step has no known time. */
  readonly atLeast: boolean;
  /** Hours to which printed totals are rounded up. */
  readonly step: number;
}

export interface Effects {
  readonly findings: BeforeAfter<Readonly<Record<Severity, number>>>;
  /** Findings of the later version that the earlier did not have, those that went, and those that are worse or hold for more variants. */
  readonly newFindings: Readonly<Record<Severity, number>>;
  readonly goneFindings: number;
  readonly worseFindings: Readonly<Record<Severity, number>>;
  readonly open: BeforeAfter<number>;
  /** What only the later version leaves open, and what only the earlier did, each in its sentence. */
  readonly newlyOpen: readonly string[];
  readonly closed: readonly string[];
  readonly steps: BeforeAfter<number>;
  readonly checkedSteps: BeforeAfter<number>;
  readonly undecided: BeforeAfter<number>;
  readonly waived: BeforeAfter<number>;
  readonly hours: BeforeAfter<HoursAccount>;
}

export function effectsOf(before: Version, after: Version, findings: ComparedFindings): Effects {
  const both = <T>(of: (version: Version) => T): BeforeAfter<T> => ({ before: of(before), after: of(after) });
  const [old, now] = [openItems(before.open), openItems(after.open)];
  return {
    findings: both(({ findings: found }) => countsOf(found)),
    newFindings: countsOf(findings.new),
    goneFindings: findings.gone.length,
    worseFindings: countsOf(findings.more),
    open: { before: old.size, after: now.size },
    newlyOpen: [...now].flatMap(([key, message]) => (old.has(key) ? [] : [message])),
    closed: [...old].flatMap(([key, message]) => (now.has(key) ? [] : [message])),
    steps: both(({ coverage }) => coverage.steps),
    checkedSteps: both(({ coverage }) => coverage.checkedSteps),
    undecided: both(({ coverage }) => coverage.undecided.length),
    waived: both(({ coverage }) => coverage.waived),
    hours: both(hoursAccount),
  };
}

function countsOf(
  found: readonly { readonly severity: Severity; readonly rule: string }[],
): Record<Severity, number> {
  const counts: Record<Severity, number> = { error: 0, warning: 0, info: 0 };
  for (const { severity } of found) counts[severity]++;
  return counts;
}

/** Left and right of one thing are one. */
const openItems = (open: readonly TraceOpen[]): Map<string, string> =>
  new Map(open.map(({ rule, item, message }) => [`${rule} ${item}`, message]));

const hoursAccount = ({ labour, hourStep }: Version): HoursAccount => {
  const { atLowest, atHighest } = labour.quoted;
  return {
    lowest: { at50: atLowest.at50, at90: atLowest.at90 },
    highest: { at50: atHighest.at50, at90: atHighest.at90 },
    atLeast: labour.atLeast,
    step: hourStep,
  };
};
