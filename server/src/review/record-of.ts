/** Puts a check record together. */

import { undecidedInWords } from '../check/undecided-in-words';
import type { Finding } from '../findings/finding';
import { counted, listed } from '../findings/words';
import { nameInWords, targetInWords } from '../guide/names';
import { markOf } from '../guide/variants';
import type { Duty as HandedOver, Undecided } from '../model/model';
import {
  type CheckRecord,
  type CoveredTold,
  HARMS,
  type Result,
  type Told,
  type UndecidedTold,
  type WaivedTold,
} from './record';
import { dutiesOf } from './record-duties';
import { judgingOf } from './record-judging';
import { cubesInWords, StepOf } from './record-places';
import type { RecordSource } from './record-source';

/** The check record of a guide, for all variants that it covers or for some of them. Never throws on account of the guide. */
export function recordOf(source: RecordSource): CheckRecord {
  const { model, printed, coverage } = source;
  const steps = new StepOf(model);
  const told = (finding: Finding): Told => ({
    rule: finding.rule,
    harm: finding.harm,
    severity: finding.severity,
    where: steps.number(finding.operation) ?? source.lineOf(finding.place),
    place: source.lineOf(finding.place),
    message: finding.message,
    variants: cubesInWords(finding.variants),
  });
  return {
    title: printed.title,
    revision: printed.revision,
    date: printed.date,
    vehicle: printed.vehicle,
    kits: printed.kits,
    covers: printed.covers,
    variant: printed.variant,
    asOf: source.asOf,
    version: source.version,
    files: source.files,
    packs: source.packs,
    steps: { all: coverage.steps, checked: coverage.checkedSteps },
    ...dutiesOf(source),
    open: source.findings.map(told).sort(byHarm),
    waived: source.waived.map(
      ({ finding, waiver }): WaivedTold => ({
        ...told(finding),
        by: waiver.by,
        because: waiver.because,
        until: waiver.until,
        written: source.lineOf(waiver.place),
      }),
    ),
    covered: coveredOf(source, steps),
    undecided: undecidedOf(coverage.undecided),
    unchecked: uncheckedOf(source),
    drafts: printed.cover.drafts,
    assumptions: assumptionsOf(source),
    judging: judgingOf(source),
  };
}

/** The gravest first, mistakes in the writing after them; steps keep their order. */
const byHarm = (a: Told, b: Told): number => rankOf(a) - rankOf(b);
const rankOf = ({ harm }: Told): number => (harm === null ? HARMS.length : HARMS.indexOf(harm));

function coveredOf({ covered }: RecordSource, steps: StepOf): CoveredTold[] {
  const found = new Map<string, { rule: string; where: string; items: Set<string> }>();
  for (const { rule, item, event } of covered) {
    const where = steps.number(event?.step.path) ?? '';
    const key = `${where}\n${rule}`;
    const one = found.get(key) ?? { rule, where, items: new Set<string>() };
    found.set(key, one);
    one.items.add(item);
  }
  return [...found.values()].map(({ rule, where, items }) => ({ rule, where, items: [...items].sort() }));
}

/** By the property that nobody says, each with what to write. */
function undecidedOf(undecided: readonly Undecided[]): UndecidedTold[] {
  const found = new Map<string, { items: Set<string>; rules: Set<string> }>();
  for (const { rule, item, property } of undecided) {
    const one = found.get(property) ?? { items: new Set<string>(), rules: new Set<string>() };
    found.set(property, one);
    one.items.add(item);
    one.rules.add(rule);
  }
  return [...found]
    .map(([property, { items, rules }]): UndecidedTold => {
      const [first = '', ...others] = [...items].sort();
      const more = others.length === 0 ? '' : `; the same for ${listed(others)}`;
      return {
        property,
        items: [first, ...others],
        rules: [...rules].sort(),
        said: `${undecidedInWords({ rule: '', item: first, property })}${more}`,
      };
    })
    .sort((a, b) => (a.property < b.property ? -1 : 1));
}

function uncheckedOf({ model, coverage }: RecordSource): CheckRecord['unchecked'] {
  return coverage.unchecked.map(({ step, undeclared }) => {
    const own = model.steps.filter(({ path }) => path === step || path.startsWith(`${step}.`));
    const run = own.some(({ guard }) => model.world.diagrams.intersects(guard, model.universe));
    const why =
      undeclared.length > 0
        ? `no file declares ${listed(undeclared)}`
        : own.every(({ operations }) => operations.length === 0)
          ? 'it has words only, no operations'
          : !run
            ? 'no variant reaches it'
            : 'not all of its operations could be read';
    return { step, why };
  });
}

/** What is taken for granted: the check begins and ends with it. */
function assumptionsOf({ model, printed }: RecordSource): string[] {
  const { follows, owes } = model;
  const renewed = model.steps.some(({ operations }) => operations.some(({ ifNeeded }) => ifNeeded));
  const branches = model.world.variables.filter(({ name }) => /^(?:done|found):/.test(name)).length;
  return [
    'What no step touches is as the vehicle file has it: joints tight, lines connected, the vehicle on its wheels.',
    ...(printed.starts.length === 0 ? [] : [`The guide starts with: ${printed.starts.join('; ')}.`]),
    ...(follows === null
      ? []
      : [
          `The guide before it was done as it is written${follows.done.length === 0 ? '' : `; ${counted(follows.done.length, 'thing')} that it fitted, connected or scrapped ${follows.done.length === 1 ? 'is' : 'are'} taken over`}.`,
        ]),
    ...(printed.leaves.length === 0 ? [] : [`It leaves on purpose: ${printed.leaves.join('; ')}.`]),
    ...(owes.length === 0
      ? []
      : [`Handed over, and so not held against the guide: ${owes.map(dutyOf).join('; ')}.`]),
    ...(branches === 0
      ? []
      : [
          `${counted(branches, 'branch').replace(/hs$/, 'hes')} by a fitter's choice or finding, followed both ways.`,
        ]),
    ...(renewed ? ['What is renewed if needed counts as renewed.'] : []),
    'Figures of vehicle and kit files are taken as they stand there.',
  ];
  function dutyOf({ target, qualifiers, set }: HandedOver): string {
    const when = [
      ...(qualifiers.get('before') === 'road' ? ['before it goes on the road'] : []),
      ...(qualifiers.has('before') && qualifiers.get('before') !== 'road'
        ? [`before ${nameInWords(qualifiers.get('before')!)}`]
        : []),
      ...(qualifiers.has('after') ? [`after ${qualifiers.get('after')}`] : []),
    ];
    const mark = markOf(model, set);
    return `${targetInWords(target)}${when.length === 0 ? '' : ` ${when.join(', ')}`}${mark === null ? '' : ` (${mark})`}`;
  }
}

/** What is the gravest of what came of a rule; each rule counts once by it. */
const GRAVEST: readonly Result[] = ['open', 'undecided', 'covered', 'waived', 'held'];

/**
 * For the summary, by what is at stake; null is the writing itself. Rules are counted, each once, so that what came of them adds up to
 * those that were asked; how often they were asked and the findings stand beside it.
 */
export function tallyOf(record: CheckRecord) {
  const { duties, neverAsked, open } = record;
  return [...HARMS, null].flatMap((harm) => {
    const own = duties.filter((duty) => duty.harm === harm);
    const cameTo = own.map(({ results }) => GRAVEST.find((result) => results.includes(result)));
    const rulesOf = (result: Result) => cameTo.filter((one) => one === result).length;
    const one = {
      harm,
      rules: own.length,
      held: rulesOf('held'),
      open: rulesOf('open'),
      undecided: rulesOf('undecided'),
      covered: rulesOf('covered'),
      waived: rulesOf('waived'),
      never: neverAsked.find((group) => group.harm === harm)?.rules.length ?? 0,
      asked: own.reduce((sum, { asked }) => sum + (asked ?? 0), 0),
      findings: open.filter((told) => told.harm === harm).length,
    };
    return harm === null && one.findings === 0 ? [] : [one];
  });
}
