/** The guide as it is read, for the preview: sections and steps in the order in which they run, with what is found at each. */

import type { Range } from 'vscode-languageserver/lib/common/api.js';
import { stepCoverage } from '../check/coverage';
import { cubesOf } from '../check/sentences';
import type { Finding, Place, Severity } from '../findings/finding';
import { variantsInWords } from '../findings/words';
import { coversOf } from '../guide/covers';
import { hoursInWords } from '../guide/hours';
import { oneSideOf } from '../guide/names';
import { stretchesOf } from '../guide/order';
import { Outlines } from '../guide/outlines';
import { textInWords } from '../guide/text-in-words';
import { type StepLabour, stepLabours } from '../labour/labour';
import { tidyMinutes } from '../labour/three-point';
import type { BoundStep, Model } from '../model/model';
import type { GuideOutline, StepOutline } from '../model/outline';
import { itemsAt, textAt } from '../model/source';
import { wordsOf } from '../model/titles';
import type { OpenGuide } from '../workspace/guides';
import { labourOfModel, standardTimesOf } from '../workspace/labour';
import type { Closure } from '../workspace/project';
import { choicesOf, chosenVariants, ofVariants } from '../workspace/variant';
import type { FindingView, GuideView, SectionView, StepView, WaiverView } from './guide-view-types';

/**
 * What the preview shows of a guide.
 * @param findings of the guide's own document.
 * @param nameToUri what the editor calls a document.
 * @param chosen trait or option to value: only the variants that have these are shown.
 */
export function guideView(
  { document, closure, model: whole }: OpenGuide,
  found: readonly Finding[],
  nameToUri: (name: string) => string,
  chosen: Readonly<Record<string, string>> = {},
): GuideView {
  const { within, taken } = chosenVariants(whole, chosen);
  const model = ofVariants(whole, within);
  const findings = found.filter(({ variants }) => holdsFor(variants, taken));
  const outlines = new Outlines((uri) => closure.library.document(uri));
  const times = standardTimesOf(closure);
  const labour = labourOfModel(closure, model, times);
  const labours = new Map(stepLabours(model, times).map((one) => [one.path, one]));
  const rangeOf = (place: Place): Range => {
    const lines = closure.documents.get(place.uri)?.lines ?? document.lines;
    return { start: lines.positionAt(place.span.start), end: lines.positionAt(place.span.end) };
  };
  const viewOf = (finding: Finding): FindingView => ({
    rule: finding.rule,
    severity: finding.severity,
    message: finding.message,
    variants: variantsInWords(finding.variants),
    uri: nameToUri(finding.place.uri),
    range: rangeOf(finding.place),
  });
  const guide = outlines.of(document.uri)!;
  const waivers = waiversOf(whole);
  const { byStep, elsewhere } = placed(findings, guide, model);
  const sections: SectionView[] = guide.sections.map((section) => {
    const known = labour.sections.find((one) => one.section === section.number);
    return {
      title: section.title.trim() || known?.title || `Section ${section.number}`,
      lowest: tidyMinutes(known?.lowest ?? 0),
      highest: tidyMinutes(known?.highest ?? 0),
      atLeast: known?.atLeast ?? false,
      steps: [],
      range: rangeOf(section.cursor.header),
    };
  });
  let lowest = 0;
  let highest = 0;
  for (const stretches of stretchesOf(model)) {
    const step = stretches[0]!;
    const taken = labours.get(step.path);
    const section = guide.sections.findIndex((one) => one.number === Number.parseInt(step.path, 10));
    if (section < 0 || taken === undefined) continue;
    // Variants that leave the step out take nothing for it.
    if (model.world.diagrams.implies(model.universe, step.guard)) lowest += taken.lowest;
    highest += taken.highest;
    const outline = outlines.step(step);
    (sections[section]!.steps as StepView[]).push({
      ...readStep(step, stretches, outline, guide, model),
      labour: labourOfStep(taken),
      running: { lowest: tidyMinutes(lowest), highest: tidyMinutes(highest) },
      findings: (byStep.get(step.path) ?? []).map(viewOf),
      waivers: waivers.flatMap(({ path, view }) =>
        path === step.path || path.startsWith(`${step.path}.`) ? [view] : [],
      ),
      uri: nameToUri(step.place.uri),
      range: rangeOf(step.place),
    });
  }
  const coverage = stepCoverage(model);
  return {
    uri: nameToUri(document.uri),
    title: model.title,
    revision: textAt(guide.root, 'revision'),
    fits: fitsOf(closure),
    covers: coversOf(model),
    choices: choicesOf(whole),
    chosen: taken,
    steps: coverage.steps,
    checkedSteps: coverage.checkedSteps,
    findings: countsOf(findings),
    waivers: waivers.length,
    labour: hoursInWords(labour, closure.configuration.hourStep),
    sections,
    elsewhere: elsewhere.map(viewOf),
  };
}

/** The waivers that say all that one has to; others waive nothing and are findings. */
function waiversOf({ waivers }: Model): { readonly path: string; readonly view: WaiverView }[] {
  return waivers.flatMap(({ path, rule, because, by, until }) =>
    because.trim() === '' || by.trim() === '' || until === null
      ? []
      : [{ path, view: { rule, because, by, until } }],
  );
}

function readStep(
  step: BoundStep,
  stretches: readonly BoundStep[],
  outline: StepOutline | null,
  guide: GuideOutline,
  model: Model,
): Omit<StepView, 'labour' | 'running' | 'findings' | 'waivers' | 'uri' | 'range'> {
  const cursor = outline?.cursor ?? null;
  const written = cursor === null ? null : textAt(cursor, 'text');
  const inWords = (text: string) => textInWords(text, model, guide, step);
  return {
    path: step.path,
    id: step.id,
    text: inWords(written?.trim() ? written.trim() : step.title),
    when: whenOf(model, step),
    optional: outline?.optional ?? false,
    draft: cursor?.get('draft')?.value === true,
    people: step.people,
    cautions: (cursor === null ? [] : itemsAt(cursor, 'caution')).flatMap((caution) => {
      const text = textAt(caution, 'text');
      return text === null ? [] : [{ signal: textAt(caution, 'signal') ?? 'caution', text: inWords(text) }];
    }),
    operations: written?.trim()
      ? stretches.flatMap(({ operations }) =>
          operations.map((operation) => wordsOf(operation, oneSideOf(operation))),
        )
      : [],
  };
}

function whenOf(model: Model, step: BoundStep): string | null {
  return variantsInWords(cubesOf(model, step.guard))?.replace(/^only with /, '') ?? null;
}

function labourOfStep(taken: StepLabour): StepView['labour'] {
  if (taken.atLeast && taken.highest === 0) return null;
  return {
    lowest: tidyMinutes(taken.lowest),
    highest: tidyMinutes(taken.highest),
    atLeast: taken.atLeast,
  };
}

/** Findings by the path of the step they stand at: their operation's, else that in whose text they stand. */
function placed(
  findings: readonly Finding[],
  guide: GuideOutline,
  model: Model,
): { byStep: Map<string, Finding[]>; elsewhere: Finding[] } {
  const paths = new Set(model.steps.map((step) => step.path));
  const written = guide.sections.flatMap(({ steps }) =>
    steps.map((step) => ({ path: step.path, node: guide.document.at.node(step.cursor.value as object) })),
  );
  const byStep = new Map<string, Finding[]>();
  const elsewhere: Finding[] = [];
  for (const finding of findings) {
    const { operation } = finding;
    const { start } = finding.place.span;
    const stepPath = operation?.slice(0, operation.lastIndexOf('.')) ?? '';
    const path = paths.has(stepPath)
      ? stepPath
      : written.find(({ node }) => node !== null && node.start <= start && start < node.end)?.path;
    if (path === undefined || !paths.has(path)) elsewhere.push(finding);
    else byStep.set(path, [...(byStep.get(path) ?? []), finding]);
  }
  return { byStep, elsewhere };
}

function fitsOf(closure: Closure): string[] {
  return [...closure.documents.values()].flatMap((document) => {
    if (document.kind !== 'vehicle' && document.kind !== 'kit') return [];
    const value = closure.opened(document).value as { name?: unknown; title?: unknown } | null;
    const name = value?.name ?? value?.title;
    return typeof name === 'string' ? [name] : [];
  });
}

/** Whether a finding holds in some variant that has what was chosen. */
function holdsFor(cubes: Finding['variants'], chosen: Readonly<Record<string, string>>): boolean {
  return (
    cubes.length === 0 ||
    cubes.some((cube) =>
      Object.entries(cube).every(([name, values]) => values.includes(chosen[name] ?? values[0]!)),
    )
  );
}

function countsOf(findings: readonly Finding[]): Record<Severity, number> {
  const counts: Record<Severity, number> = { error: 0, warning: 0, info: 0 };
  for (const finding of findings) counts[finding.severity]++;
  return counts;
}
