import type { Labour, VariantWord } from '../labour/labour';
import { printHours, tidyMinutes } from '../labour/three-point';
import { labourOfGuide } from '../workspace/labour';
import { standardPacks } from '../workspace/packs';
import { relativePath } from '../workspace/paths';
import { Project } from '../workspace/project';
import { COLOUR_OPTION, coloursFor } from './colours';
import { type Arguments, type Command, choiceOf } from './command';
import { EXIT, type Exit, type Io } from './io';
import { guideOf } from './targets';
import { padded, paddedLeft, printable, shorten, wrap } from './width';
import { counted, listed, termInWords } from './words';

const TITLE_WIDTH = 48;

export const labourCommand: Command = {
  name: 'labour',
  summary: 'total the hours of a guide, by section and over its variants',
  options: { format: { type: 'string' }, ...COLOUR_OPTION },
  help: `kitproof labour GUIDE

Totals what a guide takes, by section and as a whole, lowest and highest over the
vehicles and options it covers. Labour is time × people; waiting is on the clock but
is nobody's labour. A time with low, likely and high counts (low + 4 likely + high) / 6.
A step without a time takes its operations' standard times, from the files that
"times:" in kitproof.yaml lists; the most specific entry counts. Where neither knows,
the step is listed and every total is "at least". Each printed total is rounded up
once, to a tenth of an hour unless kitproof.yaml says otherwise.

  --format text|json        hours for people (the default), minutes for programs
  --color auto|always|never colour; auto is on at a terminal unless NO_COLOR is set

Examples
  kitproof labour guides/lift.install.yaml
  kitproof labour guides/lift.install.yaml --format json

Exit status
  0  totalled, be it "at least"
  2  the command line is wrong
  3  something could not be read, or Kitproof itself failed
`,
  run,
};

async function run(args: Arguments, io: Io): Promise<Exit> {
  const format = choiceOf(args, 'format', ['text', 'json'], 'text');
  const colours = coloursFor(args, io);
  const project = new Project(io.files, standardPacks());
  const guide = await guideOf(args.positionals, io, project, 'labour');
  const { labour, hourStep, problems } = await labourOfGuide(project, guide);
  const file = relativePath(io.folder, guide.uri);
  if (problems > 0) {
    io.err(
      `kitproof: ${counted(problems, 'error')} in reading this guide; kitproof check tells. What could be read is totalled.\n`,
    );
  }
  // A step that came in by `use` is written in another guide.
  const unknown = await Promise.all(
    labour.unknown.map(async ({ place, step, title }) => {
      const document = place.uri === guide.uri ? guide : await project.open(place.uri);
      const line = (document?.lines.positionAt(place.span.start).line ?? 0) + 1;
      return { file: relativePath(io.folder, place.uri), line, step, title };
    }),
  );
  if (format === 'json') io.out(jsonOf(labour, file, unknown));
  else {
    const heading = `${colours.bold(printable(labour.title))}  ${colours.dim(file)}`;
    io.out(
      `${[heading, '', ...table(labour, hourStep, colours), ...notes(labour, unknown, colours)].join('\n')}\n`,
    );
  }
  return EXIT.clean;
}

interface Unknown {
  readonly file: string;
  readonly line: number;
  readonly step: string;
  readonly title: string;
}

function jsonOf(labour: Labour, guide: string, unknown: readonly Unknown[]): string {
  const { total, sections } = labour;
  const report = {
    version: 1,
    guide,
    atLeast: labour.atLeast,
    total: {
      lowest: tidyMinutes(total.lowest),
      highest: tidyMinutes(total.highest),
      elapsed: tidyMinutes(total.elapsed),
    },
    sections: sections.map(({ title, lowest, highest }) => ({
      title,
      lowest: tidyMinutes(lowest),
      highest: tidyMinutes(highest),
    })),
    unknown: unknown.map(({ file, line, step }) => ({ file, line, step })),
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}

function table(labour: Labour, step: number, colours: ReturnType<typeof coloursFor>): string[] {
  const { total, sections } = labour;
  const hours = (minutes: number) => printHours(minutes, step);
  const rows = sections.map((section, index) => ({
    number: `${index + 1}`,
    title: shorten(printable(section.title), TITLE_WIDTH) + (section.atLeast && labour.atLeast ? ' *' : ''),
    cells: [hours(section.lowest), hours(section.highest)],
  }));
  const labourRow = {
    number: '',
    title: labour.atLeast ? 'Labour, at least' : 'Labour',
    cells: [hours(total.lowest), hours(total.highest)],
  };
  const clockTitle = labour.atLeast ? 'On the clock, at least' : 'On the clock';
  const titleWidth = Math.max(
    labourRow.title.length,
    clockTitle.length,
    ...rows.map((row) => row.title.length),
  );
  const cellWidth = Math.max(
    'highest'.length,
    ...[...rows, labourRow].flatMap((row) => row.cells.map((cell) => cell.length)),
  );
  const line = (number: string, title: string, cells: readonly string[]) =>
    `  ${paddedLeft(number, 2)}  ${padded(title, titleWidth)}${cells.map((cell) => `   ${paddedLeft(cell, cellWidth)}`).join('')}`;
  const rule = colours.dim(`  ${'─'.repeat(4 + titleWidth + 2 * (cellWidth + 3))}`);
  return [
    colours.dim(line('', '', ['lowest', 'highest'])),
    ...rows.map((row) => line(row.number, row.title, row.cells)),
    rule,
    colours.bold(line('', labourRow.title, labourRow.cells)),
    line('', clockTitle, ['', hours(total.elapsed)]),
  ];
}

/** Fewer steps than this are listed whole. */
const MOST_UNKNOWN = 40;

function notes(
  labour: Labour,
  unknown: readonly Unknown[],
  colours: ReturnType<typeof coloursFor>,
): string[] {
  const { total } = labour;
  const out: string[] = [''];
  const say = (sentence: string) => out.push(...wrap(printable(sentence), 96).map((line) => `  ${line}`));
  if (total.deviation >= 0.5) {
    say(
      `Give or take ${Math.round(total.deviation)} min on the highest: one standard deviation of the times given as low, likely, high.`,
    );
  }
  if (total.lowestWith.length > 0) say(`Lowest with ${inWords(total.lowestWith)}.`);
  if (total.highestWith.length > 0) say(`Highest with ${inWords(total.highestWith)}.`);
  if (!total.exact)
    say(
      'The conditions are too entangled to be told apart: the true lowest and highest lie within these figures.',
    );
  say(
    'Labour is time × people. On the clock is the longest over the variants, waiting included. ' +
      'Each total is rounded up once, so sections may add up to more.',
  );
  if (unknown.length > 0) {
    out.push('', `  ${colours.yellow(`* ${counted(unknown.length, 'step')} without a known time`)}`);
    const width = Math.max(...unknown.map((one) => `${one.file}:${one.line}`.length));
    for (const one of unknown.slice(0, MOST_UNKNOWN)) {
      out.push(
        `    ${padded(`${one.file}:${one.line}`, width)}  ${shorten(printable(`${one.step}  ${one.title}`), 60)}`,
      );
    }
    if (unknown.length > MOST_UNKNOWN) out.push(`    and ${unknown.length - MOST_UNKNOWN} more`);
  }
  return out;
}

/** Words beyond this many are counted, not listed. */
const MOST_WORDS = 6;

function inWords(words: readonly VariantWord[]): string {
  const shown = words.slice(0, MOST_WORDS).map(({ name, value }) => termInWords(name, [value]));
  return words.length > MOST_WORDS
    ? `${shown.join(', ')} and ${words.length - MOST_WORDS} more`
    : listed(shown);
}
