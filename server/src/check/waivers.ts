/** Waivers: a finding is waived where it stands, by name and with a reason, never silently (design §2.1). */

import type { Finding } from '../findings/finding';
import type { Model, Waiver } from '../model/model';
import type { Rulebook } from '../rules/rulebook';

export interface Waived {
  readonly kept: readonly Finding[];
  readonly waived: readonly Finding[];
  /** Waivers that are unknown, out of date or unused. */
  readonly findings: readonly Finding[];
}

/** Takes out the findings that a waiver of their guide, section, step or operation names. */
export function applyWaivers(
  model: Model,
  findings: readonly Finding[],
  rulebook: Rulebook,
  asOf: string,
): Waived {
  const used = new Set<Waiver>();
  const current = model.waivers.filter((waiver) => waiver.until === null || waiver.until >= asOf);
  const kept: Finding[] = [];
  const waived: Finding[] = [];
  for (const finding of findings) {
    const waiver = current.find((one) => one.rule === finding.rule && covers(one, finding));
    if (waiver === undefined) kept.push(finding);
    else {
      used.add(waiver);
      waived.push(finding);
    }
  }
  const problems = model.waivers.flatMap((waiver): Finding[] => {
    if (!rulebook.rules.has(waiver.rule))
      return [
        problem(waiver, 'unknown-waiver', `There is no rule "${waiver.rule}", so this waives nothing.`),
      ];
    if (!current.includes(waiver))
      return [
        problem(
          waiver,
          'waiver-expired',
          `This waiver ran out on ${waiver.until}; its finding counts again.`,
        ),
      ];
    if (!used.has(waiver))
      return [
        problem(waiver, 'unused-waiver', `Nothing here breaks "${waiver.rule}", so this waives nothing.`),
      ];
    return [];
  });
  return { kept, waived, findings: problems };
}

/** A waiver covers what stands at its operation, or anywhere under its step, section or guide. */
function covers(waiver: Waiver, finding: Finding): boolean {
  const path = finding.operation ?? '0';
  return (
    waiver.path === '0' ||
    path === waiver.path ||
    path.startsWith(`${waiver.path}.`) ||
    path.startsWith(`${waiver.path}/`)
  );
}

function problem(waiver: Waiver, rule: string, message: string): Finding {
  return {
    rule,
    severity: 'warning',
    harm: null,
    message,
    place: waiver.place,
    variants: [],
    related: [],
    fixes: [],
  };
}
