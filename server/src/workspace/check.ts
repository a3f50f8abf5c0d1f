import type { UncheckedStep } from '../check/coverage';
import type { WaivedFinding } from '../check/waivers';
import type { Finding } from '../findings/finding';
import type { Undecided } from '../model/model';
import { configurationFindings } from './configuration-findings';
import type { Document } from './document';
import { drive, type Wanted } from './drive';
import { checkGuideOf, judge } from './engine';
import type { GuardedCheck } from './guard';
import type { Closure, Project } from './project';
import { readAlike } from './unit';

/** What was not decided, and in the check of which guide. */
export interface UndecidedIn extends Undecided {
  readonly guide: string;
}

/** A step that was not checked, and of which guide. */
export interface UncheckedIn extends UncheckedStep {
  readonly guide: string;
}

export interface ProjectCheck {
  /** By document, place, rule and item: the same for the same files, whatever order they were asked in. */
  readonly findings: readonly Finding[];
  /** What waivers hide, each with its waiver, in the same order; a finding of two guides twice. */
  readonly waived: readonly WaivedFinding[];
  /** Every document that was read, by name: those asked for and those they lead to. */
  readonly documents: ReadonlyMap<string, Document>;
  /** Those of them that this check itself judged; of all where nothing is left to other shards. */
  readonly judged: ReadonlySet<string>;
  /** How many of the files asked for are documents of ours, and how many of these are guides. */
  readonly files: number;
  readonly guides: number;
  readonly coverage: {
    readonly steps: number;
    readonly checkedSteps: number;
    /** The steps that were not checked, or not all of them. */
    readonly unchecked: readonly UncheckedIn[];
    readonly undecided: readonly UndecidedIn[];
    readonly waived: number;
  };
}

export interface CheckOptions {
  /** The day that waivers are held against, `2026-03-14`. */
  readonly today: string;
  readonly wanted?: Wanted;
  /** Told before each document is checked. */
  readonly progress?: (done: number, all: number, name: string) => void;
  /**
   * Which of the documents are this run's share, all of them where it is not said. The others are read only to know which share a
   * document that several lead to is judged in, so that the shares together tell what one check of all would.
   */
  readonly share?: ReadonlySet<string>;
  /** What guides were found to be before: those whose check reads nothing that is another since are not run again. */
  readonly kept?: KeptGuides;
}

/** What was found of each guide, with what its check has read. Keep one as long as its project. */
export class KeptGuides {
  private readonly results = new Map<string, { closure: Closure; today: string; result: GuardedCheck }>();

  get(closure: Closure, today: string): GuardedCheck | undefined {
    const known = this.results.get(closure.document.uri);
    const same = known !== undefined && known.today === today && readAlike(known.closure, closure);
    return same ? known.result : undefined;
  }

  set(closure: Closure, today: string, result: GuardedCheck): void {
    this.results.set(closure.document.uri, { closure, today, result });
  }
}

/**
 * Checks documents by name. A guide is checked with all it leads to, and what is wrong in those documents is told where
 * it stands, once. Names that are no documents of ours are passed over.
 * @returns null where it was cancelled.
 */
export async function checkDocuments(
  project: Project,
  names: readonly string[],
  options: CheckOptions,
): Promise<ProjectCheck | null> {
  const documents = new Map<string, Document>();
  const found = new Findings();
  const undecided: UndecidedIn[] = [];
  const unchecked: UncheckedIn[] = [];
  const judged = new Set<string>();
  const seen = new Set<string>();
  const settled = new Set<string>();
  let files = 0;
  let guides = 0;
  let steps = 0;
  let checkedSteps = 0;
  const waived: WaivedFinding[] = [];
  const look = (document: Document, closure: Closure, ours: boolean): void => {
    if (ours) documents.set(document.uri, document);
    if (seen.has(document.uri)) return;
    seen.add(document.uri);
    if (!ours) return;
    judged.add(document.uri);
    const opened = closure.opened(document);
    for (const finding of opened.findings) found.add(finding);
    for (const finding of judge(opened, closure.library, closure.rulebook)) found.add(finding);
  };
  for (const [index, name] of (await guidesFirst(project, names)).entries()) {
    const ours = options.share?.has(name) ?? true;
    if (ours) options.progress?.(index, names.length, name);
    if (options.wanted?.cancelled === true) return null;
    const document = await project.open(name);
    if (document === null) continue;
    const closure = await project.closureOf(document);
    for (const other of closure.documents.values()) {
      // Another guide is judged with its own vehicle and kit, not with those of this one.
      const own = other.kind === 'install' && other !== document ? await project.closureOf(other) : closure;
      look(other, own, ours);
    }
    const settings = closure.configuration.document;
    if (settings !== null) {
      const first = !settled.has(settings.uri);
      settled.add(settings.uri);
      look(settings, closure, ours);
      const { configuration, configured, rulebook } = closure;
      if (first && ours)
        for (const finding of configurationFindings(configuration, configured, rulebook.rules.keys()))
          found.add(finding);
    }
    const beside = document.kind === 'install' ? [...closure.housePacks, ...closure.times] : [];
    for (const other of beside) look(other, closure, ours);
    if (!ours) continue;
    files++;
    if (document.kind !== 'install') continue;
    guides++;
    const result =
      options.kept?.get(closure, options.today) ??
      (await drive(checkGuideOf(closure, options.today), options.wanted));
    if (result === null) return null;
    options.kept?.set(closure, options.today, result);
    for (const finding of result.findings) found.add(finding);
    steps += result.coverage.steps;
    checkedSteps += result.coverage.checkedSteps;
    waived.push(...result.waived);
    for (const step of result.coverage.unchecked) unchecked.push({ guide: name, ...step });
    for (const one of result.coverage.undecided) undecided.push({ guide: name, ...one });
  }
  return {
    findings: found.sorted(),
    waived: waived.sort(compareWaived),
    documents,
    judged,
    files,
    guides,
    coverage: { steps, checkedSteps, unchecked, undecided, waived: waived.length },
  };
}

/** Guides before all else, so that a kit is held against the vehicle of a guide that fits it; each kind by name. */
async function guidesFirst(project: Project, names: readonly string[]): Promise<string[]> {
  const guides: string[] = [];
  const others: string[] = [];
  for (const name of [...new Set(names)].sort()) {
    ((await project.open(name))?.kind === 'install' ? guides : others).push(name);
  }
  return [...guides, ...others];
}

/** Findings with those that several guides give of one shared document told once, their variants united. */
export class Findings {
  private readonly byKey = new Map<string, Finding>();

  add(finding: Finding): void {
    const { rule, place, item = '', operation = '', message } = finding;
    const key = [rule, place.uri, place.span.start, place.span.end, item, operation, message].join('\n');
    const known = this.byKey.get(key);
    this.byKey.set(key, known === undefined ? finding : united(known, finding));
  }

  sorted(): Finding[] {
    return [...this.byKey.values()].sort(compareFindings);
  }
}

/** One finding of two that differ in their variants, and in the steps that led there; the same whichever came first. */
function united(a: Finding, b: Finding): Finding {
  const said = (finding: Finding) => JSON.stringify({ ...finding, variants: [] });
  const first = said(b) < said(a) ? b : a;
  if (a.variants.length === 0 || b.variants.length === 0) return { ...first, variants: [] };
  const cubes = new Map([...a.variants, ...b.variants].map((cube) => [JSON.stringify(cube), cube]));
  return {
    ...first,
    variants: [...cubes].sort(([one], [other]) => compareTexts(one, other)).map(([, cube]) => cube),
  };
}

export const compareWaived = (a: WaivedFinding, b: WaivedFinding): number =>
  compareFindings(a.finding, b.finding) ||
  compareTexts(a.waiver.place.uri, b.waiver.place.uri) ||
  a.waiver.place.span.start - b.waiver.place.span.start;

/** By document, place, rule, item, then words: never by the order in which they were found. */
export function compareFindings(a: Finding, b: Finding): number {
  return (
    compareTexts(a.place.uri, b.place.uri) ||
    a.place.span.start - b.place.span.start ||
    a.place.span.end - b.place.span.end ||
    compareTexts(a.rule, b.rule) ||
    compareTexts(a.item ?? '', b.item ?? '') ||
    compareTexts(a.message, b.message)
  );
}

const compareTexts = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
