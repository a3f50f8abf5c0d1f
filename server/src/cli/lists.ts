import { tableMarkdown } from '../guide/markdown';
import type { GuideLists, PrintedGuide } from '../guide/printed';
import { type Cell, forPrint, type Table, underOf } from '../guide/table';
import { standardPacks } from '../workspace/packs';
import { Project } from '../workspace/project';
import { publishedGuide } from '../workspace/publish';
import { COLOUR_CHOICE, COLOUR_OPTION, type Colours, coloursFor } from './colours';
import { type Arguments, type Command, nearestWord } from './command';
import { csvText } from './csv';
import { EXIT, type Exit, type Io, UsageError } from './io';
import { outputsOf, writeOutput } from './outputs';
import { guideOf } from './targets';
import { knowing, VARIANT_OPTION, variantInWords, variantOf } from './variant-option';
import { padded, paddedLeft, printable, widthOf } from './width';

const LISTS: readonly (keyof GuideLists)[] = [
  'parts',
  'hardware',
  'tools',
  'consumables',
  'torque',
  'checks',
];
const FORMATS = ['text', 'csv', 'json', 'markdown'];

export const listsCommand: Command = {
  name: 'lists',
  summary: 'print the parts, hardware, tools, consumables, torques or checks of a guide',
  options: {
    list: { type: 'string', multiple: true },
    format: { type: 'string', multiple: true },
    ...VARIANT_OPTION,
    ...COLOUR_OPTION,
  },
  choices: { list: LISTS, format: FORMATS, ...COLOUR_CHOICE },
  help: `kitproof lists GUIDE [--list NAME]

Prints the lists of a guide by themselves: parts (what is in the box), hardware, tools
(each once, from the joints, aids, holes and steps), consumables (with the new parts
that no box has), torque (every final torque, in both units) and checks. Without --list
all of them.

  --list NAME               parts, hardware, tools, consumables, torque or checks; may
                            be given several times
  --variant NAME=VALUE      for the vehicle with this trait or option only; may be given
                            several times
  --format FORMAT[=FILE]    text (for people, the default), csv (one list, for
                            spreadsheets), json (for programs) or markdown; with =FILE
                            into a file; may be given several times
  --color auto|always|never colour; auto is on at a terminal unless NO_COLOR is set

Examples
  kitproof lists lift.install.yaml
  kitproof lists lift.install.yaml --list tools --list consumables
  kitproof lists lift.install.yaml --list torque --format csv=torque.csv

Exit status
  0  printed
  2  the command line is wrong, or the guide has no such trait or value
  3  something could not be read or written, or Kitproof itself failed
`,
  run,
};

async function run(args: Arguments, io: Io): Promise<Exit> {
  const outputs = outputsOf(args, FORMATS, 'text');
  const names = listsOf(args.texts('list'));
  if (names.length > 1 && outputs.some(({ format }) => format === 'csv'))
    throw new UsageError('CSV holds one list; say which with --list, such as --list torque.');
  const colours = coloursFor(args, io);
  const variant = variantOf(args.texts('variant'));
  const project = new Project(io.files, standardPacks());
  const document = await guideOf(args.positionals, io, project, 'lists');
  const guide = await knowing(publishedGuide(project, document, variant, io.today));
  const tables = names.map((name): [string, Table] => [name, guide.lists[name]]);
  for (const output of outputs) {
    const text =
      output.format === 'csv'
        ? csvOf(tables[0]![1])
        : output.format === 'json'
          ? jsonOf(guide, tables)
          : output.format === 'markdown'
            ? tables.map(([, table]) => tableMarkdown(table)).join('\n')
            : textOf(guide, tables, variantInWords(variant), colours);
    await writeOutput(output, text, io);
  }
  return EXIT.clean;
}

function listsOf(said: readonly string[]): (keyof GuideLists)[] {
  if (said.length === 0) return [...LISTS];
  for (const word of said) {
    if (LISTS.some((name) => name === word)) continue;
    const near = nearestWord(word, LISTS);
    throw new UsageError(
      `--list takes ${LISTS.join(', ')}; "${word}" is none of them${near === undefined ? '' : `, did you mean ${near}?`}${near === undefined ? '.' : ''}`,
    );
  }
  return LISTS.filter((name) => said.includes(name));
}

const csvOf = ({ columns, rows }: Table): string => csvText([columns.map(({ key }) => key), ...rows]);

/** Rows as maps by the keys of their columns; what a row does not have is null. */
function jsonOf({ title, revision, variant }: PrintedGuide, tables: readonly [string, Table][]): string {
  const report = {
    version: 1,
    guide: title,
    revision,
    ...(variant.length === 0
      ? {}
      : { variant: Object.fromEntries(variant.map(({ name, value }) => [name, value])) }),
    lists: Object.fromEntries(
      tables.map(([name, { columns, rows }]) => [
        name,
        rows.map((row) =>
          Object.fromEntries(columns.map(({ key }, index) => [key, row[index] === '' ? null : row[index]])),
        ),
      ]),
    ),
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}

function textOf(
  guide: PrintedGuide,
  tables: readonly [string, Table][],
  fixed: string,
  colours: Colours,
): string {
  const head =
    colours.bold(printable(guide.title)) + (fixed === '' ? '' : `  ${colours.cyan(`with ${fixed}`)}`);
  const blocks = tables.map(([, table]) => {
    if (table.rows.length === 0) return `${colours.bold(table.title)}\n  ${colours.dim('none')}`;
    return [colours.bold(table.title), ...linesOf(table, colours)].join('\n');
  });
  return `${[head, ...blocks].join('\n\n')}\n`;
}

/** A table in columns; what would make it too wide stands under the row that it belongs to. */
function linesOf(table: Table, colours: Colours): string[] {
  const print = forPrint(table);
  const shown = print.columns.flatMap((column, index) =>
    column.under === undefined ? [{ ...column, index }] : [],
  );
  const cellsOf = (row: readonly Cell[]) =>
    shown.map(({ index }) => printable(row[index] === null ? '' : String(row[index])));
  const cells = print.rows.map(cellsOf);
  const widths = shown.map(({ title }, at) =>
    Math.max(...[title, ...cells.map((row) => row[at]!)].map(widthOf)),
  );
  const line = (row: readonly string[]): string =>
    `  ${row
      .map((cell, at) =>
        shown[at]!.numeric === true ? paddedLeft(cell, widths[at]!) : padded(cell, widths[at]!),
      )
      .join('  ')}`.trimEnd();
  return [
    colours.dim(line(shown.map(({ title }) => title))),
    ...print.rows.flatMap((row, at) => {
      const under = printable(underOf(print, row));
      return [line(cells[at]!), ...(under === '' ? [] : [colours.dim(`    ${under}`)])];
    }),
  ];
}
