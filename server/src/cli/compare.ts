import picocolors from 'picocolors';
import type { Severity } from '../findings/finding';
import { comparisonPage } from '../review/comparison-html';
import { comparisonMarkdown } from '../review/comparison-markdown';
import type { ComparisonReport } from '../review/report';
import { comparedGuide, versionAt } from '../workspace/compare';
import { compareSides, type Side } from '../workspace/compare-revisions';
import { standardPacks } from '../workspace/packs';
import { relativePath, resolvePath } from '../workspace/paths';
import { Project } from '../workspace/project';
import { RevisionError, repositoryAt } from '../workspace/revisions';
import { dayOf } from './as-of';
import { FAIL_ON } from './check-asked';
import { COLOUR_CHOICE, COLOUR_OPTION, type Colours, coloursFor } from './colours';
import { type Arguments, type Command, choiceOf } from './command';
import { comparisonJson } from './compare/json';
import { comparisonText } from './compare/text';
import { EXIT, type Exit, type Io, ReadError, UsageError } from './io';
import { outputsOf, writeOutput } from './outputs';
import { Progress } from './progress';
import { guideOf } from './targets';

/** Every format that `compare --format` takes. */
const formats: Readonly<
  Record<string, (report: ComparisonReport, colours: Colours, columns: number) => string>
> = {
  text: comparisonText,
  json: comparisonJson,
  markdown: comparisonMarkdown,
  html: (report) => comparisonPage(report),
};

/** Cells across where there is no terminal. */
const PAGE_WIDTH = 100;
const AS_THEY_ARE = 'the files as they are';

export const compareCommand: Command = {
  name: 'compare',
  summary: 'tell what changed in meaning between two versions of a guide',
  options: {
    from: { type: 'string' },
    to: { type: 'string' },
    format: { type: 'string', multiple: true },
    'fail-on': { type: 'string' },
    'as-of': { type: 'string' },
    ...COLOUR_OPTION,
  },
  choices: { format: Object.keys(formats), 'fail-on': FAIL_ON, ...COLOUR_CHOICE },
  help: `kitproof compare OLD NEW
kitproof compare --from REVISION [--to REVISION] [PATHS…]

Tells what changed in meaning, the most dangerous first: what is no longer held or
secured, cautions, torques, whom the guide covers, steps and operations that came, went
or moved, conditions, sides, parts, data of the vehicle and the kit beneath, then words
and times; and what that did to the findings, the open list, the cover of the check and
the hours. Layout, comments, the order of keys and the numbers of steps are no change.

OLD and NEW are two files. With --from they are two revisions of the git repository you
are in, and PATHS are guides, folders or patterns in quotes; without any, all guides in
the folder you are in. A kit or a vehicle stands for the guides that use it. A guide
counts as changed where anything that it reads did.

  --from REVISION           the old version: a branch, a tag, HEAD~2, an id
  --to REVISION             the new one; without it, the files as they are
  --format FORMAT[=FILE]    text for people (the default), markdown for a pull request,
                            json for programs, html as one file without scripts; given
                            several times it writes each, one to the screen
  --fail-on SEVERITY        the exit status is 1 where a finding of this severity or
                            worse is new, or holds for more variants: error (the
                            default), warning, info (notes too), or never
  --as-of DATE              hold waivers of both against this day, 2026-03-14, not today
  --color auto|always|never colour; auto is on at a terminal unless NO_COLOR is set

Examples
  kitproof compare lift-a.install.yaml lift-b.install.yaml
  kitproof compare --from main
  kitproof compare --from v1.4 --to v1.5 guides/lift.install.yaml
  kitproof compare --from HEAD~1 --format html=changes.html --format markdown

Exit status
  0  compared, and no new finding at or above --fail-on
  1  there is one
  2  the command line is wrong
  3  something could not be read or written, there was no guide to compare, or
     Kitproof itself failed

That nothing changed in meaning certifies nothing: neither version was approved by it.
`,
  run,
};

const WEIGHT: Record<Severity, number> = { error: 3, warning: 2, info: 1 };

async function run(args: Arguments, io: Io): Promise<Exit> {
  const outputs = outputsOf(args, Object.keys(formats), 'text');
  const failOn = choiceOf(args, 'fail-on', FAIL_ON, 'error');
  const today = dayOf(args.text('as-of')) ?? io.today;
  const colours = coloursFor(args, io);
  const from = args.text('from');
  const to = args.text('to');
  if (from === undefined && to !== undefined)
    throw new UsageError('--to goes with --from, which says what is compared with it.');
  const report =
    from === undefined
      ? await ofFiles(args.positionals, io, today)
      : await ofRevisions(from, to, args.positionals, io, today);
  const columns = Math.max(60, Math.min(io.columns ?? PAGE_WIDTH, 140));
  for (const output of outputs)
    await writeOutput(
      output,
      formats[output.format]!(
        report,
        output.file === null ? colours : picocolors.createColors(false),
        columns,
      ),
      io,
    );
  const fails = (severity: Severity) => failOn !== 'never' && WEIGHT[severity] >= WEIGHT[failOn];
  return (['error', 'warning', 'info'] as const).some(
    (severity) => fails(severity) && newIn(report, severity) > 0,
  )
    ? EXIT.found
    : EXIT.clean;
}

/** Findings of a severity that only the new version has, or that hold for more variants there. */
function newIn({ guides, added }: ComparisonReport, severity: Severity): number {
  const known = guides.reduce(
    (sum, { effects }) => sum + effects.newFindings[severity] + effects.worseFindings[severity],
    0,
  );
  const lone = { error: 'errors', warning: 'warnings', info: null } as const;
  const key = lone[severity];
  return known + (key === null ? 0 : added.reduce((sum, guide) => sum + guide[key], 0));
}

async function ofFiles(paths: readonly string[], io: Io, today: string): Promise<ComparisonReport> {
  const [old, now, ...more] = paths;
  if (old === undefined || now === undefined || more.length > 0) {
    throw new UsageError(
      paths.length === 1
        ? `kitproof compare takes two files, or "--from REVISION": "kitproof compare --from HEAD ${old}" compares with the last commit.`
        : 'kitproof compare takes two files, such as "kitproof compare old.install.yaml new.install.yaml", or "--from REVISION".',
    );
  }
  await notRevisions(old, now, io);
  const names = [old, now].map((path) => resolvePath(io.folder, path));
  if (names[0] === names[1])
    throw new UsageError(`${old} and ${now} are one file; there is nothing to compare.`);
  const project = new Project(io.files, standardPacks());
  const before = await versionAt(project, await guideOf([old], io, project, 'compare'), today);
  const after = await versionAt(project, await guideOf([now], io, project, 'compare'), today);
  const guide = comparedGuide(before!, after!, io.folder);
  const seen = (path: string) => relativePath(io.folder, resolvePath(io.folder, path));
  return { before: seen(old), after: seen(now), guides: [guide], added: [], removed: [], unchanged: 0 };
}

/** Who writes two revisions as git takes them is told how they are said here. */
async function notRevisions(old: string, now: string, io: Io): Promise<void> {
  for (const path of [old, now]) {
    if ((await io.files.kind(resolvePath(io.folder, path))) !== null) continue;
    const like = path.endsWith('.yaml') || path.endsWith('.yml');
    const range = path.split(/\.{2,3}/);
    const [from, to] = range.length === 2 && range[0] !== '' ? range : [old, now];
    throw new ReadError(
      `Cannot read ${path}: there is no such file.${like ? '' : ` Two revisions are compared by "kitproof compare --from ${from}${to === undefined || to === '' ? '' : ` --to ${to}`}".`}`,
    );
  }
}

async function ofRevisions(
  from: string,
  to: string | undefined,
  paths: readonly string[],
  io: Io,
  today: string,
): Promise<ComparisonReport> {
  const progress = new Progress(io);
  const opened: { close(): void }[] = [];
  try {
    const repository = await repositoryAt(io.folder);
    const filesAt = async (revision: string) => {
      const files = await (await repository.revision(revision)).files();
      opened.push(files);
      return files;
    };
    const side = (files: Side['files']): Side => ({ files, project: new Project(files, standardPacks()) });
    const before = side(await filesAt(from));
    const after = side(to === undefined ? io.files : await filesAt(to));
    const asked = (paths.length === 0 ? ['.'] : paths).map((path) => resolvePath(io.folder, path));
    const compared = await compareSides(before, after, asked, {
      folder: io.folder,
      today,
      progress: (done, all, name) => progress.show('Checking', done, all, relativePath(io.folder, name)),
    });
    if ('missing' in compared)
      throw new ReadError(`Neither version has ${relativePath(io.folder, compared.missing)}.`);
    const { guides, added, removed, unchanged } = compared;
    if (guides.length + added.length + removed.length + unchanged === 0)
      throw new ReadError(
        `There is no guide to compare in ${paths.length === 0 ? 'this folder' : paths.join(', ')}, in either version: a guide begins with "kitproof: install/1".`,
      );
    return { before: from, after: to ?? AS_THEY_ARE, ...compared };
  } catch (error) {
    if (error instanceof RevisionError) throw new ReadError(error.message);
    throw error;
  } finally {
    progress.end();
    for (const files of opened) files.close();
  }
}
