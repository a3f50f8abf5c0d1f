/** Waivers: a finding is waived where it stands, by name and with a reason, never silently (design §2.1). */

import { type Finding, type Place, plainFinding } from '../findings/finding';
import type { Model, Waiver } from '../model/model';
import { nearestName } from '../model/nearest';
import { suggestion } from '../model/report';
import type { Rulebook } from '../rules/rulebook';

/** A finding that is accepted, with what accepts it. */
export interface WaivedFinding {
  readonly finding: Finding;
  readonly waiver: Waiver;
}

export interface Waived {
  readonly kept: readonly Finding[];
  readonly waived: readonly WaivedFinding[];
  /** Waivers that are unknown, out of date, unused or blank. */
  readonly findings: readonly Finding[];
}

/**
 * Takes out the findings that a waiver of their guide, section, step or operation names. Findings without an operation
 * are mistakes in the writing, which nobody accepts.
 * @param beside ids of findings that no pack has and that may be waived all the same.
 */
export function applyWaivers(
  model: Model,
  findings: readonly Finding[],
  rulebook: Rulebook,
  asOf: string,
  beside: readonly string[],
): Waived {
  const uses = new Map<Waiver, number>();
  // The innermost speaks first: what stands around it may then be needless.
  const current = model.waivers
    .filter((waiver) => waiver.until === null || waiver.until >= asOf)
    .sort((a, b) => depth(b) - depth(a));
  const kept: Finding[] = [];
  const waived: WaivedFinding[] = [];
  for (const finding of findings) {
    const waiver = current.find((one) => covers(one, finding));
    if (waiver === undefined) kept.push(finding);
    else {
      uses.set(waiver, (uses.get(waiver) ?? 0) + 1);
      waived.push({ finding, waiver });
    }
  }
  const problems = model.waivers.flatMap((waiver): Finding[] => {
    // Of a used section's waivers the guide that writes them is told.
    if (waiver.used) return [];
    const blank = (['because', 'by'] as const).find(
      (key) => waiver.places[key] !== null && waiver[key].trim() === '',
    );
    if (blank !== undefined) {
      const message =
        blank === 'because' ? 'This waiver gives no reason.' : 'This waiver says nobody accepts it.';
      return [problem(waiver.places[blank]!, 'blank-waiver', message)];
    }
    if (!rulebook.rules.has(waiver.rule) && !beside.includes(waiver.rule))
      return [unknown(model, waiver, [...rulebook.rules.keys(), ...beside])];
    if (!current.includes(waiver)) {
      const still = kept.some((finding) => covers(waiver, finding));
      const then = still ? 'what it accepted counts again' : 'and nothing here breaks its rule any more';
      return [
        problem(
          waiver.places.until ?? waiver.place,
          'waiver-expired',
          `This waiver ran out on ${waiver.until}${still ? '; ' : ', '}${then}.`,
        ),
      ];
    }
    if (uses.has(waiver)) return [];
    const off = rulebook.rules.has(waiver.rule) && !rulebook.on.has(waiver.rule);
    const why = off ? `The rule "${waiver.rule}" is off here` : `Nothing here breaks "${waiver.rule}"`;
    return [problem(waiver.place, 'unused-waiver', `${why}, so this waives nothing.`)];
  });
  return { kept, waived, findings: problems };
}

/** How far within a guide a waiver stands. */
const depth = ({ path }: Waiver): number => (path === '0' ? 0 : path.split(/[./]/).length);

/** A waiver covers what stands at its operation, or anywhere under its step, section or guide. */
function covers(waiver: Waiver, { rule, operation }: Finding): boolean {
  if (rule !== waiver.rule || operation === undefined) return false;
  return (
    waiver.path === '0' ||
    operation === waiver.path ||
    operation.startsWith(`${waiver.path}.`) ||
    operation.startsWith(`${waiver.path}/`)
  );
}

function unknown(model: Model, waiver: Waiver, known: readonly string[]): Finding {
  const { rule, place } = waiver;
  // What is told of the guide under this very name is no rule's.
  if (model.findings.some((finding) => finding.rule === rule))
    return problem(
      place,
      'unknown-waiver',
      `"${rule}" is a mistake in the writing: it is mended, not waived.`,
    );
  const { hint, fixes } = suggestion(place, nearestName(rule, known));
  return {
    ...problem(place, 'unknown-waiver', `There is no rule "${rule}", so this waives nothing${hint}`),
    fixes,
  };
}

const problem = (place: Place, rule: string, message: string): Finding =>
  plainFinding(rule, place, message, { severity: 'warning' });
