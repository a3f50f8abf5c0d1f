import type { GuideCheck } from '../check/check';
import type { Finding } from '../findings/finding';
import type { Labour } from '../labour/labour';
import { printHours } from '../labour/three-point';
import type { Model } from '../model/model';
import { textAt } from '../model/source';
import type { OpenDocument } from '../schema/document';
import { hardwareTable, partTable } from './box';
import { checkTables, handoverTable } from './checks';
import { consumableTable } from './consumables';
import { coverOf } from './cover';
import { coversOf } from './covers';
import { hoursInWords, hoursTable } from './hours';
import { targetInWords, titled } from './names';
import { stepNumbers, stretchesOf } from './order';
import { Outlines } from './outlines';
import { type PrintedGuide, type PrintedSection, SIGNALS } from './printed';
import { settingTables } from './settings';
import { printedStep } from './steps';
import { toolsOf, toolTable } from './tools';
import { torquesOf, torqueTable } from './torques';
import { isPrinted, markOf } from './variants';

export interface GuideSource {
  /** The guide bound, for the variants that are to be printed. */
  readonly model: Model;
  /** Traits and options that were fixed, name to value. */
  readonly variant: ReadonlyMap<string, string>;
  readonly document: OpenDocument;
  /** Its vehicle and kits. */
  readonly declaring: readonly OpenDocument[];
  open(uri: string): OpenDocument | null;
  /** The name of a file from the path written in a document. */
  resolve(from: string, path: string): string;
  /** The check of the guide, for all it covers. */
  readonly check: Pick<GuideCheck, 'coverage'>;
  /** What was found in it and in the documents that it leads to. */
  readonly findings: readonly Finding[];
  readonly labour: Labour;
  /** Hours to which printed totals are rounded up. */
  readonly hourStep: number;
}

/** All that is printed of a guide, for one variant or for all with marks. Never throws on account of the guide. */
export function printedGuide(source: GuideSource): PrintedGuide {
  const { model, document, declaring, labour, hourStep } = source;
  const outlines = new Outlines((uri) => source.open(uri));
  const numbers = stepNumbers(model);
  const torques = torquesOf(model, numbers);
  const guide = outlines.of(document.uri);
  const steps = { model, outlines, numbers, torques, resolve: source.resolve };
  const stretches = stretchesOf(model);
  const sections = (guide?.sections ?? []).map(
    ({ number, title, cursor }): PrintedSection => ({
      number,
      title: title.trim() || (textAt(cursor, 'id') ?? `Section ${number}`),
      about: [],
      steps: stretches
        .filter(([step]) => Number.parseInt(step!.path, 10) === number)
        .map((parts) => printedStep(parts, steps)),
    }),
  );
  const printed = sections
    .filter(({ steps: list }) => list.length > 0)
    .map((section) => ({ ...section, about: aboutOf(section, source, outlines, numbers) }));
  const used = new Set(
    printed.flatMap((one) => one.steps.flatMap(({ cautions }) => cautions.map((c) => c.signal))),
  );
  const { checks, beforeDriving } = checkTables(model, numbers);
  return {
    title: model.title,
    revision: guide === null ? null : textAt(guide.root, 'revision'),
    date: guide === null ? null : textAt(guide.root, 'date'),
    vehicle: nameOf(declaring.find(({ kind }) => kind === 'vehicle')),
    kits: declaring.flatMap((one) => (one.kind === 'kit' ? (nameOf(one) ?? []) : [])),
    covers: coversOf(model),
    variant: [...source.variant].map(([name, value]) => ({ name, value })),
    starts: startsOf(model),
    signals: SIGNALS.filter((signal) => used.has(signal)),
    skills: labour.skills.flatMap(({ skill }) => skill ?? []),
    mostPeople: Math.max(1, ...printed.flatMap((one) => one.steps.map(({ people }) => people))),
    sections: printed,
    lists: {
      parts: partTable(model),
      hardware: hardwareTable(model),
      tools: toolTable(toolsOf(model, outlines, numbers)),
      consumables: consumableTable(model, numbers),
      torque: torqueTable(torques, 'Torques', false),
      checks,
    },
    torques: {
      anywhere: torqueTable(
        torques.filter(({ rideHeight }) => !rideHeight),
        'Torques',
        true,
      ),
      rideHeight: torqueTable(
        torques.filter(({ rideHeight }) => rideHeight),
        'Torques with the weight on the wheels',
        true,
      ),
    },
    beforeDriving,
    settings: settingTables(model, numbers),
    handover: handoverTable(model),
    leaves: model.leaves.flatMap(({ target, state, set }) => {
      if (!isPrinted(model, set)) return [];
      const when = markOf(model, set);
      return [`${titled(targetInWords(target))}: ${state}${when === null ? '' : ` (${when})`}`];
    }),
    hours: hoursInWords(labour, hourStep),
    hoursTable: hoursTable(labour, hourStep),
    cover: coverOf(model, source.check, source.findings, numbers),
  };
}

/** What a fitter wants to know before a section: how long, how many people, which tools. */
function aboutOf(
  section: PrintedSection,
  { model, labour, hourStep }: GuideSource,
  outlines: Outlines,
  numbers: ReadonlyMap<string, string>,
): string[] {
  const taken = labour.sections.find((one) => one.section === section.number);
  const paths = new Set(section.steps.map(({ path }) => path));
  const tools = toolsOf(
    model,
    outlines,
    numbers,
    model.steps.filter(({ path }) => paths.has(path)),
  )
    .filter(({ sort }) => sort !== 'torque wrench' && sort !== 'other')
    .map(({ name }) => name);
  const more = section.steps.filter(({ people }) => people > 1).map(({ number }) => number);
  return [
    ...(taken === undefined || taken.highest === 0
      ? []
      : [`${taken.atLeast ? 'at least ' : ''}${printHours(taken.highest, hourStep)}`]),
    more.length === 0
      ? 'one person'
      : `two people or more for ${more.length === 1 ? 'step' : 'steps'} ${more.join(', ')}`,
    ...(tools.length === 0 || tools.length > 8 ? [] : [tools.join(', ')]),
  ];
}

function nameOf(document: OpenDocument | undefined): string | null {
  const value = document?.value as { name?: unknown } | null | undefined;
  return typeof value?.name === 'string' ? value.name : null;
}

/** How the vehicle comes to the first step, where that is otherwise than as it arrives. */
function startsOf(model: Model): string[] {
  const { given, givenOperations, follows } = model;
  return [
    ...given
      .filter(({ set }) => isPrinted(model, set))
      .map(({ target, state }) => `${titled(targetInWords(target))}: ${state}`),
    ...givenOperations.map(({ verb, targets }) => `${titled(verb)} ${targets.map(targetInWords).join(', ')}`),
    ...(follows?.entries ?? [])
      .filter(({ set }) => isPrinted(model, set))
      .map(({ target, state }) => `${titled(targetInWords(target))}: ${state}, from the guide before`),
  ];
}
