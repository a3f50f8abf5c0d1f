import { version } from '../../../package.json';
import type { Severity } from '../findings/finding';
import type { Rule } from '../rules/rule';
import { checkDocuments, type ProjectCheck } from '../workspace/check';
import { mendSlips } from '../workspace/mend';
import { standardPacks } from '../workspace/packs';
import { relativePath, resolvePath } from '../workspace/paths';
import { withOverlay } from '../workspace/port';
import { Project } from '../workspace/project';
import { dayOf } from './as-of';
import { readBaseline, withoutKnown } from './baseline';
import { COLOUR_OPTION, coloursFor } from './colours';
import { type Arguments, type Command, choiceOf } from './command';
import { writeMended } from './fix';
import { EXIT, type Exit, type Io, ReadError, UsageError } from './io';
import { outputsOf, writeOutput } from './outputs';
import { Progress } from './progress';
import { reporters } from './reporters/registry';
import { INPUT_NAME, targetsOf } from './targets';
import { countsOf } from './words';

/** Cells across where there is no terminal. */
const PAGE_WIDTH = 100;

const WEIGHT: Record<Severity, number> = { error: 3, warning: 2, info: 1 };

export const checkCommand: Command = {
  name: 'check',
  summary: 'find what is out of order, missing or left open',
  options: {
    format: { type: 'string', multiple: true },
    'fail-on': { type: 'string' },
    'require-cover': { type: 'string' },
    baseline: { type: 'string' },
    fix: { type: 'boolean' },
    undecided: { type: 'boolean' },
    waived: { type: 'boolean' },
    'as-of': { type: 'string' },
    'stdin-name': { type: 'string' },
    ...COLOUR_OPTION,
  },
  help: `kitproof check [PATHS…]

Reads guides with the vehicles, kits and rule packs they name, works out the state
of every joint, part, line and jack after each step, for every variant at once, and
tells where following the guide would hurt someone, break something or leave a job
unfinished.

PATHS are files, folders (with all below them) or patterns in quotes; without any,
the folder you are in. "-" reads one document from standard input. Of what is found in
folders, files without the key "kitproof" are left alone; one that you name, or whose
name ends as ours do (.install.yaml), must have it.

  --format FORMAT[=FILE]    text for people (the default), json for programs, sarif
                            (2.1.0) for code scanning, junit for build servers, github
                            for annotations of a run there, markdown for a pull request;
                            given several times it writes each, one to the screen
  --fail-on SEVERITY        what makes the exit status 1: error (the default),
                            warning, info, or never
  --require-cover PERCENT   exit status 1 too where fewer of the steps could be checked
  --baseline FILE           tell and count only what an earlier report (sarif or json)
                            does not have; lines may have moved since
  --fix                     first put slips of the pen right in what is checked: names,
                            keys, quotes, units. What adds work, leaves it out or moves
                            it is for a person to choose, in the editor
  --undecided               list what was not decided and what to write for it, and the
                            steps that were not checked
  --waived                  list what is waived, with who accepts it, why and until when
  --as-of DATE              hold waivers against this day, 2026-03-14, not today
  --stdin-name PATH         where standard input would stand, for paths and settings
  --color auto|always|never colour; auto is on at a terminal unless NO_COLOR is set

Examples
  kitproof check
  kitproof check guides/lift.install.yaml --undecided
  kitproof check "guides/**/*.install.yaml" --fail-on warning --require-cover 95
  kitproof check --fix guides
  kitproof check --format json > findings.json
  kitproof check --format text --format sarif=k.sarif --format junit=k.xml
  kitproof check - --stdin-name guides/lift.install.yaml < draft.yaml

Exit status
  0  nothing at or above --fail-on, and cover as required
  1  something is
  2  the command line is wrong
  3  something could not be read, or a file named as ours is none, or there was
     nothing to check (the rest is told of all the same), or Kitproof itself failed

A guide without findings is not certified by anyone: the vehicle maker's data, local
rules and a qualified person come first.
`,
  run,
};

async function run(args: Arguments, io: Io): Promise<Exit> {
  const outputs = outputsOf(args, Object.keys(reporters), 'text');
  const failOn = choiceOf(args, 'fail-on', ['error', 'warning', 'info', 'never'], 'error');
  const cover = coverOf(args.text('require-cover'));
  const today = dayOf(args.text('as-of')) ?? io.today;
  const colours = coloursFor(args, io);
  const { paths, overlay, unnamedInput } = await inputOf(args, io);
  if (args.flag('fix') && overlay.size > 0)
    throw new UsageError('--fix changes files; standard input is none.');
  const baseline = args.text('baseline');
  const known = baseline === undefined ? null : await readBaseline(baseline, io);
  const project = new Project(withOverlay(io.files, overlay), standardPacks());
  const progress = new Progress(io);
  const targets = await targetsOf(
    paths,
    { ...io, files: withOverlay(io.files, overlay) },
    project,
    (done, all, name) => progress.show('Reading', done, all, relativePath(io.folder, name)),
  ).finally(() => progress.end());
  for (const sentence of targets.notOurs) io.err(`kitproof: ${sentence}\n`);
  if (targets.names.length === 0) {
    if (targets.notOurs.length > 0) return EXIT.failed;
    throw new ReadError(
      `There is nothing to check in ${paths.join(', ')}: no document there begins with "kitproof:".`,
    );
  }
  const options = {
    today,
    progress: (done: number, all: number, name: string) =>
      progress.show('Checking', done, all, relativePath(io.folder, name)),
  };
  const mended = args.flag('fix') ? await mendSlips(io.files, targets.names, options) : null;
  const whole = args.flag('fix')
    ? (mended?.check ?? null)
    : await checkDocuments(project, targets.names, options);
  progress.end();
  if (whole === null) return EXIT.failed;
  const { check, before } =
    known === null ? { check: whole, before: null } : withoutKnown(whole, known, io.folder);
  if (mended !== null) await writeMended(mended, io);
  const columns = Math.max(60, Math.min(io.columns ?? PAGE_WIDTH, 140));
  const fails = (severity: Severity): boolean => failOn !== 'never' && WEIGHT[severity] >= WEIGHT[failOn];
  const rules = await rulesOf(project, check);
  const context = {
    folder: io.folder,
    colours,
    columns,
    undecided: args.flag('undecided'),
    waived: args.flag('waived'),
    fixed: mended?.made ?? null,
    before,
    fails,
    rule: (id: string) => rules.get(id),
    version,
  };
  for (const output of outputs) await writeOutput(output, reporters[output.format]!(check, context), io);
  const counts = countsOf(check.findings);
  const failed = (['error', 'warning', 'info'] as const).some(
    (severity) => counts[severity] > 0 && fails(severity),
  );
  const { steps, checkedSteps } = check.coverage;
  const uncovered = cover !== null && checkedSteps * 100 < cover * steps;
  if (uncovered) {
    io.err(
      `kitproof: ${checkedSteps} of ${steps} steps could be checked; --require-cover asks for ${cover} %.\n`,
    );
  }
  if (unnamedInput !== null && missesFiles(check, unnamedInput)) {
    io.err(
      'kitproof: Paths in standard input are looked for from this folder; --stdin-name PATH says where the document would stand.\n',
    );
  }
  if (targets.unread || whole.findings.some(({ rule }) => rule === 'internal-fault')) return EXIT.failed;
  return failed || uncovered ? EXIT.found : EXIT.clean;
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

interface Input {
  readonly paths: readonly string[];
  /** What stands in place of files, by name. */
  readonly overlay: ReadonlyMap<string, string>;
  /** What standard input is known by, where it was not said. */
  readonly unnamedInput: string | null;
}

async function inputOf(args: Arguments, io: Io): Promise<Input> {
  const name = args.text('stdin-name');
  const asked = args.positionals.length === 0 ? ['.'] : args.positionals;
  if (!asked.includes('-')) {
    if (name !== undefined) throw new UsageError('--stdin-name goes with "-", which reads standard input.');
    return { paths: asked, overlay: new Map(), unnamedInput: null };
  }
  const path = name ?? INPUT_NAME;
  const file = resolvePath(io.folder, path);
  const overlay = new Map([[file, await io.readInput()]]);
  const paths = asked.map((one) => (one === '-' ? path : one));
  return { paths, overlay, unnamedInput: name === undefined ? file : null };
}

/** Whether a document names files that are not there. */
function missesFiles({ findings }: ProjectCheck, name: string): boolean {
  return findings.some(({ rule, place }) => rule === 'missing-file' && place.uri === name);
}

function coverOf(written: string | undefined): number | null {
  if (written === undefined) return null;
  const percent = Number(written.replace(/ ?%$/, ''));
  if (written.trim() === '' || !(percent >= 0 && percent <= 100)) {
    throw new UsageError(`--require-cover takes a percentage from 0 to 100; "${written}" is none.`);
  }
  return percent;
}
