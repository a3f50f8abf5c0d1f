import { version } from '../../../package.json';
import type { Severity } from '../findings/finding';
import type { Rule } from '../rules/rule';
import { type CheckOptions, checkDocuments, type KeptGuides, type ProjectCheck } from '../workspace/check';
import type { Wanted } from '../workspace/drive';
import { type Made, mendSlips } from '../workspace/mend';
import { relativePath } from '../workspace/paths';
import type { Project } from '../workspace/project';
import { readBaseline, withoutKnown } from './baseline';
import type { CheckAsked } from './check-asked';
import { writeMended } from './fix';
import { EXIT, type Exit, type Io, ReadError } from './io';
import { digestOf, mergeReports, type Sharded, type Since } from './merge';
import { writeOutput } from './outputs';
import { Progress } from './progress';
import { reporters } from './reporters/registry';
import { shareOf } from './shard';
import { changedSince } from './since';
import { targetsOf } from './targets';
import { countsOf } from './words';

/** Cells across where there is no terminal. */
const PAGE_WIDTH = 100;

const WEIGHT: Record<Severity, number> = { error: 3, warning: 2, info: 1 };

export interface Once {
  readonly exit: Exit;
  /** The documents that were asked for. */
  readonly names: readonly string[];
}

export interface Repeated {
  readonly kept: KeptGuides;
  readonly wanted: Wanted;
}

/** What a check, or a merge of checks, has to tell. */
interface Result {
  readonly check: ProjectCheck;
  readonly names: readonly string[];
  readonly since: Since | null;
  readonly sharded: Sharded | null;
  readonly made: readonly Made[] | null;
  readonly before: number | null;
  /** Whether not all that was asked for could be read. */
  readonly unread: boolean;
}

/**
 * Checks what is asked for, once, and writes its reports.
 * @param again what is known from the checks before, where it is done over and over.
 * @returns null where it was cancelled.
 */
export async function checkOnce(
  asked: CheckAsked,
  io: Io,
  project: Project,
  again: Repeated | null = null,
): Promise<Once | null> {
  const known = asked.baseline === null ? null : await readBaseline(asked.baseline, io);
  const result = asked.merge ? await merged(asked, io, project) : await checked(asked, io, project, again);
  if (result === null) return null;
  if (result === 'nothing') return { exit: EXIT.failed, names: [] };
  const { check, before } =
    known === null
      ? { check: result.check, before: result.before }
      : withoutKnown(result.check, known, io.folder);
  const fails = (severity: Severity): boolean =>
    asked.failOn !== 'never' && WEIGHT[severity] >= WEIGHT[asked.failOn];
  const rules = await rulesOf(project, check);
  const context = {
    folder: io.folder,
    colours: asked.colours,
    columns: Math.max(60, Math.min(io.columns ?? PAGE_WIDTH, 140)),
    undecided: asked.undecided,
    waived: asked.waived,
    fixed: result.made,
    before: known === null || result.before === null ? before : (before ?? 0) + result.before,
    since: result.since,
    sharded: result.sharded,
    fails,
    rule: (id: string) => rules.get(id),
    version,
  };
  for (const output of asked.outputs)
    await writeOutput(output, reporters[output.format]!(check, context), io);
  const counts = countsOf(check.findings);
  const failed = (['error', 'warning', 'info'] as const).some(
    (severity) => counts[severity] > 0 && fails(severity),
  );
  const { steps, checkedSteps } = check.coverage;
  // Nothing was checked where there is no step at all, unless only a share or what changed was asked for.
  const nothing = steps === 0 && result.since === null && result.sharded === null;
  const uncovered = asked.cover !== null && (nothing || checkedSteps * 100 < asked.cover * steps);
  if (uncovered) {
    io.err(
      `kitproof: ${checkedSteps} of ${steps} steps could be checked; --require-cover asks for ${asked.cover} %.\n`,
    );
  }
  if (asked.unnamedInput !== null && missesFiles(check, asked.unnamedInput)) {
    io.err(
      'kitproof: Paths in standard input are looked for from this folder; --stdin-name PATH says where the document would stand.\n',
    );
  }
  const faulty = result.unread || result.check.findings.some(({ rule }) => rule === 'internal-fault');
  return {
    exit: faulty ? EXIT.failed : failed || uncovered ? EXIT.found : EXIT.clean,
    names: result.names,
  };
}

async function merged(asked: CheckAsked, io: Io, project: Project): Promise<Result> {
  return { ...(await mergeReports(asked.paths, project, io, version)), names: [], sharded: null, made: null };
}

/** @returns null where it was cancelled; `nothing` where all there was could not be read, which has been said. */
async function checked(
  asked: CheckAsked,
  io: Io,
  project: Project,
  again: Repeated | null,
): Promise<Result | 'nothing' | null> {
  const progress = new Progress(io);
  const show = (doing: 'Reading' | 'Checking') => (done: number, all: number, name: string) =>
    progress.show(doing, done, all, relativePath(io.folder, name));
  const targets = await targetsOf(
    asked.paths,
    { ...io, files: asked.files },
    project,
    show('Reading'),
  ).finally(() => progress.end());
  for (const sentence of targets.notOurs) io.err(`kitproof: ${sentence}\n`);
  if (targets.names.length === 0) {
    if (targets.notOurs.length > 0) return 'nothing';
    throw new ReadError(
      `There is nothing to check in ${asked.paths.join(', ')}: no document there begins with "kitproof:".`,
    );
  }
  let { names } = targets;
  let since: Since | null = null;
  if (asked.since !== null) {
    names = await changedSince(asked.since, project, names, io.folder, asked.input);
    since = { revision: asked.since, of: targets.names.length };
  }
  let sharded: Sharded | null = null;
  let share: ReadonlySet<string> | undefined;
  if (asked.shard !== null) {
    share = await shareOf(project, names, asked.shard);
    const list = digestOf(names.map((name) => relativePath(io.folder, name)).join('\n'));
    sharded = { shard: asked.shard, whole: { list, files: names.length, since }, unread: targets.unread };
  }
  const options: CheckOptions = { today: asked.today, progress: show('Checking'), share, ...again };
  const mended = asked.fix ? await mendSlips(io.files, names, options) : null;
  const check = asked.fix ? (mended?.check ?? null) : await checkDocuments(project, names, options);
  progress.end();
  if (check === null) return null;
  if (mended !== null) await writeMended(mended, io);
  const made = mended?.made ?? null;
  return { check, names: targets.names, since, sharded, made, before: null, unread: targets.unread };
}

/** The rules of all guides that were checked: a house's own beside the standard ones. */
async function rulesOf(project: Project, check: ProjectCheck): Promise<ReadonlyMap<string, Rule>> {
  const rules = new Map<string, Rule>();
  for (const document of check.documents.values()) {
    const { rulebook } = await project.closureOf(document);
    for (const [id, rule] of rulebook.rules) if (!rules.has(id)) rules.set(id, rule);
  }
  return rules;
}

/** Whether a document names files that are not there. */
function missesFiles({ findings }: ProjectCheck, name: string): boolean {
  return findings.some(({ rule, place }) => rule === 'missing-file' && place.uri === name);
}
