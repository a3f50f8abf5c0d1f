/** The check of one guide: the stations in order, then words, waivers and coverage. */

import { type Finding, severityOf } from '../findings/finding';
import type { Model, Undecided } from '../model/model';
import { TOLD_WHILE_BINDING } from '../model/told-while-binding';
import type { Rulebook } from '../rules/rulebook';
import { type RunObserver, runGuide } from '../simulate/run';
import type { RawFinding, Simulation } from '../simulate/simulation';
import { stepCoverage, UNCHECKED, type UncheckedStep } from './coverage';
import { draftFindings } from './drafts';
import { wordFindings } from './sentences';
import { travelFindings } from './travel';
import { applyWaivers, type WaivedFinding } from './waivers';

export interface Coverage {
  /** Steps as written, and those of them that have operations which all bind. */
  readonly steps: number;
  readonly checkedSteps: number;
  /** The others. */
  readonly unchecked: readonly UncheckedStep[];
  /** What a rule could not decide, once for each rule, item and missing property. */
  readonly undecided: readonly Undecided[];
  readonly waived: number;
}

export interface GuideCheck {
  /** Of names and of rules; those of reading and of structure are their documents'. In order of place. */
  readonly findings: readonly Finding[];
  readonly coverage: Coverage;
  /** The findings that waivers hide, each with its waiver; in order of place. */
  readonly waived: readonly WaivedFinding[];
  /** For the oracle's comparison and for fixes: before words and waivers. */
  readonly raw: readonly RawFinding[];
  readonly simulation: Simulation;
}

/**
 * Checks a bound guide against the rules in force, for all variants at once. A generator, so that whoever drives it may
 * stop between steps; never throws on account of the guide.
 * @param asOf the day that waivers are held against, `2026-03-14`.
 * @param observer looks on while the guide runs.
 */
export function* checkGuide(
  model: Model,
  rulebook: Rulebook,
  asOf: string,
  observer?: RunObserver,
): Generator<undefined, GuideCheck> {
  const simulation = yield* runGuide(model, rulebook.watchers, observer);
  const raw = simulation.findings.filter((finding) => !covered(finding));
  const worded = wordFindings(simulation, raw, rulebook.rules);
  const { steps, checkedSteps, unchecked, findings: ofCoverage } = stepCoverage(model);
  const lost = [...simulation.state.lost].map((item) => tooMany(model, item));
  const told = [
    ...asRuled([...model.findings, ...travelFindings(model)], rulebook),
    ...worded,
    ...ofCoverage,
  ].sort(byPlace);
  const { kept, waived, findings: ofWaivers } = applyWaivers(model, told, rulebook, asOf, [UNCHECKED]);
  const findings = [...kept, ...draftFindings(model), ...lost, ...ofWaivers].sort(byPlace);
  const coverage = {
    steps,
    checkedSteps,
    unchecked,
    undecided: [...model.undecided, ...simulation.undecided],
    waived: waived.length,
  };
  return { findings, coverage, waived, raw, simulation };
}

/** Whether a finding is of a kind that may be accepted where it stands: mistakes in the writing are not. */
export const mayBeWaived = ({ rule, operation }: Finding, rulebook: Rulebook): boolean =>
  operation !== undefined && (rulebook.rules.has(rule) || rule === UNCHECKED);

/** What was told from what is written, as the rulebook has it: switched off, of another harm, or as it is where no pack speaks of it. */
export function asRuled(findings: readonly Finding[], { rules, on }: Rulebook): Finding[] {
  return findings.flatMap((finding) => {
    const rule = TOLD_WHILE_BINDING.includes(finding.rule) ? rules.get(finding.rule) : undefined;
    if (rule === undefined) return [finding];
    if (rule.family !== 'built-in' || !on.has(rule.id)) return [];
    // What was told may be worse than its rule is as a whole.
    const harm = finding.harm ?? rule.harm;
    return [{ ...finding, harm, severity: rule.severity ?? severityOf(harm) }];
  });
}

/** A step's caution covers the rules that it says it covers. */
const covered = ({ event, rule }: RawFinding) => event?.step.covered.has(rule) === true;

function tooMany(model: Model, item: string): Finding {
  return {
    rule: 'too-many-variants',
    severity: 'warning',
    harm: null,
    message:
      item === ''
        ? 'One operation depends on too many conditions at once, so it was not decided in every variant.'
        : `${item} depends on too many conditions at once, so it was not decided from there on.`,
    place: model.kitPlace,
    variants: [],
    related: [],
    fixes: [],
    item,
  };
}

function byPlace(a: Finding, b: Finding): number {
  if (a.place.uri !== b.place.uri) return a.place.uri < b.place.uri ? -1 : 1;
  return (
    a.place.span.start - b.place.span.start ||
    a.place.span.end - b.place.span.end ||
    (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0)
  );
}
