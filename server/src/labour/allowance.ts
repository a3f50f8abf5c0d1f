import { type Finding, type Place, plainFinding } from '../findings/finding';
import { entries, find, keyName } from '../text/access';
import type { Node, Reading } from '../text/tree';
import { isBlank, readNumber } from '../units/number';

export type AllowanceBase = 'job-time' | 'shift-time';

/**
 * What is added to the working time before it is quoted: for personal needs, fatigue, delay that nobody can avoid, and
 * whatever else a house adds. The shares add up.
 */
export interface Allowance {
  /**
   * What the shares are of, and so what they do: of the job's working time, which is multiplied by 1 + share; or of the
   * whole shift, so that the working time is divided by 1 - share. 13 % are 1.130 the one way and 1.149 the other.
   */
  readonly on: AllowanceBase;
  readonly shares: readonly { readonly name: string; readonly share: number }[];
}

/** What a share may be for; other keys are findings of the document. */
const NAMES: ReadonlySet<string> = new Set(['personal', 'fatigue', 'delay', 'other']);

export const NO_ALLOWANCE: Allowance = { on: 'job-time', shares: [] };

/** All the shares together: 0.12 for 12 %. */
export function shareOf({ shares }: Allowance): number {
  return shares.reduce((sum, { share }) => sum + share, 0);
}

/** What the working time is multiplied by. 1 where nothing is added, and where a shift would have no time left to work in. */
export function factorOf(allowance: Allowance): number {
  const share = shareOf(allowance);
  if (allowance.on === 'job-time') return 1 + share;
  return share < 1 ? 1 / (1 - share) : 1;
}

/**
 * Reads `allowances` of a configuration. A share that cannot be one is left out and told of where it stands; so are all
 * of them where a shift would have no time left to work in.
 */
export function readAllowance(
  uri: string,
  map: Node | undefined,
  reading: Reading,
): { readonly allowance: Allowance; readonly findings: readonly Finding[] } {
  if (map === undefined || map.kind !== 'map') return { allowance: NO_ALLOWANCE, findings: [] };
  const findings: Finding[] = [];
  const on: AllowanceBase =
    find(map, 'on', reading)?.value.value === 'shift-time' ? 'shift-time' : 'job-time';
  const shares: { name: string; share: number }[] = [];
  for (const entry of entries(map, reading)) {
    const name = keyName(entry.key, reading);
    const { value } = entry.value;
    if (name === null || !NAMES.has(name) || (typeof value !== 'string' && typeof value !== 'number'))
      continue;
    const place: Place = { uri, span: { start: entry.value.start, end: entry.value.end } };
    const read = readShare(value);
    if (typeof read === 'number') {
      if (on === 'shift-time' && read >= 1) {
        const message = `With ${value} of the shift for ${name} no time is left to work in.`;
        findings.push(plainFinding('bad-number', place, message));
      } else shares.push({ name, share: read });
      continue;
    }
    const { rule, message, instead } = read;
    const fixes =
      instead === null ? [] : [{ title: `Write ${instead}`, edits: [{ place, text: instead }], safe: false }];
    findings.push(plainFinding(rule, place, message, { fixes }));
  }
  const whole = shareOf({ on, shares });
  if (on === 'shift-time' && whole >= 1) {
    const place: Place = { uri, span: { start: map.start, end: map.end } };
    const message = `Together these are ${printShare(whole)} of the shift, so that no time is left to work in.`;
    findings.push(plainFinding('bad-number', place, message));
    return { allowance: { on, shares: [] }, findings };
  }
  return { allowance: { on, shares }, findings };
}

/** A share as a person reads it: `12 %`, `4.5 %`. */
export function printShare(share: number): string {
  return `${Number((share * 100).toFixed(2))} %`;
}

interface NoShare {
  readonly rule: 'bad-number' | 'bad-quantity';
  readonly message: string;
  readonly instead: string | null;
}

/** A share as it is written: `5 %`, `4,5 %`, 0.05. */
function readShare(written: string | number): number | NoShare {
  const text = String(written).trim();
  const no = (rule: NoShare['rule'], message: string, instead: string | null = null): NoShare => ({
    rule,
    message,
    instead,
  });
  const figure = readNumber(text, 0);
  const shown = JSON.stringify(text);
  if (figure === undefined || 'message' in figure || !Number.isFinite(figure.value))
    return no('bad-quantity', `${shown} is no share; write it as 5 % or 0.05.`);
  let at = figure.end;
  while (isBlank(text[at])) at++;
  const rest = text.slice(at);
  if (rest !== '' && rest !== '%')
    return no(
      'bad-quantity',
      `${shown} is no share of the working time; an allowance is written as 5 % or 0.05.`,
    );
  if (figure.value < 0)
    return no('bad-number', `An allowance adds to the working time; ${text} would take from it.`);
  if (rest === '%') return figure.value / 100;
  if (figure.value >= 1)
    return no(
      'bad-number',
      `Without a % sign, ${text} is ${text} times the working time; ${text} % was probably meant.`,
      `${text} %`,
    );
  return figure.value;
}
