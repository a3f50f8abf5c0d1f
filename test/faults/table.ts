/** What a run says: the misses and the false flags one by one, a table by kind, and the line that ends it. */

import { FAULT_KINDS } from './kinds';
import type { Trial } from './trial';

/**
 * Found is a fault that any finding tells of, but that a step was not checked. The house's own rules count: the guide stands in
 * its repository and is checked by them.
 */
const isFound = ({ findings, houseFindings }: Trial): boolean => findings.length + houseFindings.length > 0;
/**
 * Flagged is a harmless fault that gets an error or a warning; information is no alarm. What the house's own rules say is none
 * either: whoever leaves out what a house chose to ask for has broken its rule, whether it hurts or not.
 */
const isFlagged = ({ findings }: Trial): boolean => findings.some(({ severity }) => severity !== 'info');

const harmfulOf = (trials: readonly Trial[]) => trials.filter(({ harm }) => harm !== undefined);
const harmlessOf = (trials: readonly Trial[]) => trials.filter(({ harm }) => harm === undefined);

/** Every harmful fault that nothing was found in, and every harmless one that was flagged. */
export function detailsOf(trials: readonly Trial[]): string {
  const missed = harmfulOf(trials).filter((trial) => !isFound(trial));
  const flagged = harmlessOf(trials).filter(isFlagged);
  return [
    `\nharmful and not found: ${missed.length}`,
    ...missed.map((trial) => {
      const { kind, says, where } = trial.harm!;
      return `  ${placeOf(trial)}\n    ${kind} at ${where}: ${says}`;
    }),
    `\nharmless and flagged: ${flagged.length}`,
    ...flagged.map((trial) => {
      const told = [...new Set(trial.findings.map(({ rule, message }) => `${rule}: ${message}`))];
      return `  ${placeOf(trial)}\n${told.map((one) => `    ${one}`).join('\n')}`;
    }),
  ].join('\n');
}

const placeOf = ({ mutant: { sample, kind, where, says } }: Trial): string =>
  `${sample.guide} · ${kind} · ${where}: ${says}`;

/** Made, harmful, found, harmless, flagged: for each kind of fault. */
export function tableOf(title: string, trials: readonly Trial[]): string {
  const row = (name: string, some: readonly Trial[]) => {
    const harmful = harmfulOf(some);
    const harmless = harmlessOf(some);
    const numbers = [
      some.length,
      harmful.length,
      harmful.filter(isFound).length,
      harmless.length,
      harmless.filter(isFlagged).length,
    ];
    return name.padEnd(28) + numbers.map((number) => String(number).padStart(10)).join('');
  };
  const heads = ['made', 'harmful', 'found', 'harmless', 'flagged'].map((word) => word.padStart(10)).join('');
  const rows = FAULT_KINDS.map(({ name }) =>
    row(
      name,
      trials.filter(({ mutant }) => mutant.kind === name),
    ),
  );
  const byHouse = (some: readonly Trial[]) =>
    some.filter(({ findings, houseFindings }) => findings.length === 0 && houseFindings.length > 0).length;
  return [
    `\n${title}`,
    ' '.repeat(28) + heads,
    ...rows,
    row('together', trials),
    `${rates(trials)}`,
    `by rules that the house chose or wrote, alone: ${byHouse(harmfulOf(trials))} of the harmful found, ${byHouse(harmlessOf(trials))} of the harmless told of`,
  ].join('\n');
}

/** The last line. */
export const summaryOf = (trials: readonly Trial[]): string => `faults: ${rates(trials)}`;

function rates(trials: readonly Trial[]): string {
  const harmful = harmfulOf(trials);
  const harmless = harmlessOf(trials);
  const part = (some: number, all: number) => (all === 0 ? '0.0' : ((100 * some) / all).toFixed(1));
  const found = part(harmful.filter(isFound).length, harmful.length);
  const flagged = part(harmless.filter(isFlagged).length, harmless.length);
  return `${found} % of ${harmful.length} harmful found, ${flagged} % of ${harmless.length} harmless flagged`;
}
