import type { TraceStep } from '../check/trace';
import { standardPacks } from '../workspace/packs';
import { relativePath } from '../workspace/paths';
import { Project } from '../workspace/project';
import { traceOfGuide } from '../workspace/trace';
import { COLOUR_CHOICE, COLOUR_OPTION, type Colours, coloursFor } from './colours';
import type { Arguments, Command } from './command';
import { EXIT, type Exit, type Io, UsageError } from './io';
import { guideOf } from './targets';
import { Titles } from './titles';
import { knowing, VARIANT_OPTION, variantInWords, variantOf } from './variant-option';
import { padded, printable, shorten, wrap } from './width';
import { counted, variantsInWords } from './words';

export const traceCommand: Command = {
  name: 'trace',
  summary: 'show what every step changes and what is left open after it',
  options: { ...VARIANT_OPTION, at: { type: 'string' }, ...COLOUR_OPTION },
  choices: { ...COLOUR_CHOICE },
  help: `kitproof trace GUIDE

A ledger of the job: for each step what it changes (joints, parts, lines, what carries
the vehicle) and the open list, that is what is still owed after it and since which
step. Lines that hold for some variants only say which. What the guide is given, or
takes over from the guide it follows, stands before the first step; what is owed since
then is owed since 0.

  --variant NAME=VALUE      show the vehicle with this trait or option only; may be
                            given several times
  --at STEP                 one step only, by its id or its number (2.3)
  --color auto|always|never colour; auto is on at a terminal unless NO_COLOR is set

Examples
  kitproof trace guides/lift.install.yaml
  kitproof trace lift.install.yaml --variant lockers=fitted --variant wheelbase=long
  kitproof trace guides/lift.install.yaml --at springs-out

Exit status
  0  shown, or the step is not done in that variant
  2  the command line is wrong, or the guide has no such step, trait or value
  3  something could not be read, or Kitproof itself failed
`,
  run,
};

async function run(args: Arguments, io: Io): Promise<Exit> {
  const colours = coloursFor(args, io);
  const variant = variantOf(args.texts('variant'));
  const project = new Project(io.files, standardPacks());
  const guide = await guideOf(args.positionals, io, project, 'trace');
  const at = args.text('at');
  const trace = await knowing(traceOfGuide(project, guide, variant, at ?? null));
  const { steps } = trace;
  if (at !== undefined && !trace.known) {
    throw new UsageError(`The guide has no step "${at}"; name it by its id or its number, such as 1.2.`);
  }
  const columns = Math.max(60, Math.min(io.columns ?? 100, 140));
  const fixed = variantInWords(variant);
  const head = [
    `${colours.bold(printable(trace.title))}  ${colours.dim(relativePath(io.folder, guide.uri))}`,
    ...(fixed === '' ? [] : [colours.cyan(`with ${fixed}`)]),
  ];
  const blocks: string[] = [];
  if (at !== undefined && steps.length === 0) {
    const where = fixed === '' ? 'in any variant that the guide covers' : `with ${fixed}`;
    blocks.push(...wrap(printable(`Step ${at} is not done ${where}.`), columns));
  }
  if (at === undefined && trace.given.changes.length > 0)
    blocks.push(
      [colours.bold('Before the first step'), ...ledgerLines(trace.given, colours, columns)].join('\n'),
    );
  const titles = new Titles(trace.model, trace.closure);
  for (const step of steps) {
    // A step that came in by `use` is written in another guide.
    const elsewhere = step.place.uri !== guide.uri;
    const lines = elsewhere ? (await project.open(step.place.uri))?.lines : guide.lines;
    const line = (lines?.positionAt(step.place.span.start).line ?? 0) + 1;
    const where = elsewhere ? `${relativePath(io.folder, step.place.uri)}:${line}` : `line ${line}`;
    blocks.push(stepBlock({ ...step, title: titles.of(step) }, where, colours, columns));
  }
  io.out(`${[head.join('\n'), ...blocks].join('\n\n')}\n`);
  return EXIT.clean;
}

function stepBlock(step: TraceStep, where: string, colours: Colours, columns: number): string {
  const name = step.id === null ? '' : `  ${step.id}`;
  const out = [
    `${colours.bold(step.path)}${name}${colours.dim(`  ${where}`)}`,
    ...wrap(printable(step.title), columns - 6).map((part) => `      ${colours.bold(part)}`),
  ];
  return [...out, ...ledgerLines(step, colours, columns)].join('\n');
}

/** What changed, and what is open. */
function ledgerLines(step: Pick<TraceStep, 'changes' | 'open'>, colours: Colours, columns: number): string[] {
  const out: string[] = [];
  const changes = merged(
    step.changes.map((change) => ({
      item: change.item,
      side: change.side,
      text: `${change.from} → ${change.to}`,
      variants: variantsInWords(change.variants),
    })),
  );
  if (changes.length === 0) out.push(colours.dim('      changes nothing'));
  out.push(...rowsOf(changes, '      ', columns, colours, (text) => text));
  const open = merged(
    step.open.map((owed) => ({
      item: owed.item,
      side: owed.side,
      text: `${owed.rule.replace(/^left-/, '').replaceAll('-', ' ')} since ${owed.since}`,
      variants: variantsInWords(owed.variants),
    })),
  );
  if (open.length === 0) out.push(`      ${colours.green('nothing open')}`);
  else out.push(`      ${colours.yellow(`${counted(open.length, 'item')} open`)}`);
  out.push(...rowsOf(open, '        ', columns, colours, colours.dim));
  return out;
}

interface Row {
  readonly item: string;
  readonly side: string;
  readonly text: string;
  readonly variants: string | null;
}

/** Rows that differ only by the side are one: `front-wheel left, right`. */
function merged(rows: readonly Row[]): Row[] {
  const byKey = new Map<string, Row>();
  for (const row of rows) {
    const key = [row.item, row.text, row.variants].join('\n');
    const known = byKey.get(key);
    byKey.set(
      key,
      known === undefined || known.side === row.side ? row : { ...known, side: `${known.side}, ${row.side}` },
    );
  }
  return [...byKey.values()];
}

const MOST_ITEM = 44;

function rowsOf(
  rows: readonly Row[],
  indent: string,
  columns: number,
  colours: Colours,
  paint: (text: string) => string,
): string[] {
  const names = rows.map((row) => printable(row.side === '' ? row.item : `${row.item} (${row.side})`));
  const width = Math.min(MOST_ITEM, Math.max(0, ...names.map((name) => name.length)));
  return rows.map((row, index) => {
    const room = Math.max(20, columns - indent.length - width - 2);
    const variants = row.variants === null ? '' : colours.cyan(`  ${printable(row.variants)}`);
    return `${indent}${padded(shorten(names[index]!, MOST_ITEM), width)}  ${paint(shorten(printable(row.text), room))}${variants}`;
  });
}
