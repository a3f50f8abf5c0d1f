import { isDigit } from '../units/number';
import { unitsSpelled } from '../units/table';
import type { Answer, Calculator } from './calc/answer';
import { convert } from './calc/convert';
import { hole } from './calc/hole';
import { hose } from './calc/hose';
import { GRIPS, lift } from './calc/lift';
import { spanner } from './calc/spanner';
import { threadCalculator } from './calc/thread';
import { torque } from './calc/torque';
import { trackbar } from './calc/trackbar';
import { tyre } from './calc/tyre';
import { wrench } from './calc/wrench';
import { COLOUR_CHOICE, COLOUR_OPTION, type Colours, coloursFor } from './colours';
import { type Arguments, type Command, choiceOf, nearestWord, type Options } from './command';
import { EXIT, type Exit, type Io, UsageError } from './io';
import { padded, printable, wrap } from './width';
import { listed } from './words';

/** Every calculator, in the order in which help lists them. */
const calculators: readonly Calculator[] = [
  torque,
  threadCalculator,
  hole,
  spanner,
  wrench,
  tyre,
  lift,
  trackbar,
  hose,
  convert,
];

const OWN_OPTIONS: Options = { format: { type: 'string' }, ...COLOUR_OPTION };
const options: Options = Object.assign({}, OWN_OPTIONS, ...calculators.map((one) => one.options));

/** What is said under every answer. */
const FIRST = "The figure of the vehicle's or kit's maker comes first.";

export const calcCommand: Command = {
  name: 'calc',
  summary: "the trade's arithmetic: torques, threads, holes, tyres, lifts, units",
  options,
  choices: { format: ['text', 'json'], grip: GRIPS, ...COLOUR_CHOICE },
  parts: calculators.map(({ name, summary, options: own }) => ({
    name,
    summary,
    options: [...Object.keys(own), ...Object.keys(OWN_OPTIONS)],
  })),
  help: helpText(),
  words: withUnits,
  run,
};

async function run(args: Arguments, io: Io): Promise<Exit> {
  const [word, ...rest] = args.positionals;
  const found = calculators.find(({ name }) => name === word);
  const names = calculators.map(({ name }) => name);
  if (word === undefined || found === undefined) {
    const near = word === undefined ? undefined : nearestWord(word, names);
    const said = word === undefined ? '' : `; "${word}" is none of them`;
    throw new UsageError(
      `kitproof calc goes on with ${listed(names, 'or')}${said}${near === undefined ? '.' : `; did you mean ${near}?`}`,
    );
  }
  for (const name of Object.keys(options)) {
    if (Object.hasOwn(OWN_OPTIONS, name) || Object.hasOwn(found.options, name)) continue;
    if (args.text(name) === undefined && !args.flag(name)) continue;
    const owners = calculators.filter((one) => Object.hasOwn(one.options, name)).map((one) => one.name);
    throw new UsageError(
      `--${name} goes with kitproof calc ${listed(owners, 'or')}, not with ${found.name}.`,
    );
  }
  const format = choiceOf(args, 'format', ['text', 'json'], 'text');
  const colours = coloursFor(args, io);
  const answer = found.answer(rest, args);
  io.out(format === 'json' ? jsonOf(found, answer) : textOf(answer, colours, io));
  return EXIT.clean;
}

function jsonOf({ name }: Calculator, answer: Answer): string {
  const { title, figures, notes, assumptions, sources } = answer;
  const report = {
    version: 1,
    calculator: name,
    of: title,
    figures,
    notes,
    assumptions,
    sources,
    caution: FIRST,
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}

function textOf(answer: Answer, colours: Colours, io: Io): string {
  const columns = Math.max(60, Math.min(io.columns ?? 100, 100));
  const labels = Math.max(0, ...answer.rows.map(([label]) => label.length));
  const rows = answer.rows.flatMap(([label, value]) => {
    const [first, ...more] = wrap(printable(value), columns - labels - 4);
    return [
      `  ${padded(printable(label), labels)}  ${first}`,
      ...more.map((line) => `  ${padded('', labels)}  ${line}`),
    ];
  });
  const list = (title: string, lines: readonly string[]): string[] => [
    colours.dim(title),
    ...lines.flatMap((line) =>
      wrap(printable(line), columns - 4).map((part, index) =>
        colours.dim(`  ${index === 0 ? '-' : ' '} ${part}`),
      ),
    ),
  ];
  const blocks = [
    [colours.bold(printable(answer.title))],
    rows,
    ...(answer.notes.length === 0
      ? []
      : [answer.notes.flatMap((note) => wrap(printable(note), columns)).map((line) => colours.yellow(line))]),
    [...list('Assumed', answer.assumptions), ...list('Sources', answer.sources)],
    [FIRST],
  ];
  return `${blocks.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

/**
 * A figure and its unit as they are typed, without quotes: `--length 400 mm` is one value, and a minus sign before a figure
 * is no option.
 */
function withUnits(words: readonly string[]): string[] {
  const joined: string[] = [];
  for (let at = 0; at < words.length; at++) {
    const word = words[at]!;
    if (word === '--') return [...joined, ...words.slice(at)];
    if (!word.startsWith('--')) {
      joined.push(/^-[\d.]/.test(word) ? `−${word.slice(1)}` : word);
      continue;
    }
    const equals = word.indexOf('=');
    const name = equals < 0 ? word.slice(2) : word.slice(2, equals);
    let value = equals < 0 ? '' : word.slice(equals + 1);
    if (equals < 0) {
      if (options[name]?.type !== 'string' || !isFigure(words[at + 1])) {
        joined.push(word);
        continue;
      }
      value = words[++at]!;
    }
    // `1 1/2 in`
    if (isFigure(value) && /^\d+\/\d+$/.test(words[at + 1] ?? '')) value += ` ${words[++at]}`;
    if (isFigure(value) && isUnit(words[at + 1])) value += ` ${words[++at]}`;
    joined.push(`--${name}=${value}`);
  }
  return joined;
}

const isFigure = (word: string | undefined): boolean => word !== undefined && /^[-−+]?\.?\d/.test(word);

const isUnit = (word: string | undefined): boolean =>
  word !== undefined && !isDigit(word[0]) && unitsSpelled(word).length > 0;

function helpText(): string {
  const width = Math.max(...calculators.map(({ usage }) => usage.length));
  const optionWidth = Math.max(
    ...calculators.flatMap((one) => one.optionsHelp.map(([option]) => option.length)),
    '--color auto|always|never'.length,
  );
  const optionLine = ([option, says]: readonly [string, string]): string =>
    `  ${padded(option, optionWidth)}  ${says}`;
  return `kitproof calc CALCULATOR …

The trade's arithmetic. Each answer says what it assumes and where its figures come
from, and none stands above the vehicle or kit maker's own.

${calculators.map(({ usage, summary }) => `  ${padded(usage, width)}  ${summary}`).join('\n')}

A figure has its unit behind it, any that the trade uses: 90 N·m, 66 lbf·ft, 3/8 in.
Threads are written M12x1.25, M10, 1/2-13 UNC or 3/8-24; classes 8.8, 10.9, 12.9, and
for inch threads grade 2, grade 5, grade 8.

${calculators
  .filter(({ optionsHelp }) => optionsHelp.length > 0)
  .map(({ name, optionsHelp }) => `Options of ${name}\n${optionsHelp.map(optionLine).join('\n')}`)
  .join('\n\n')}

Options of all
${optionLine(['--format text|json', 'text for people (the default), base units for programs'])}
${optionLine(['--color auto|always|never', 'auto is on at a terminal unless NO_COLOR is set'])}

Examples
${calculators.map(({ example }) => `  kitproof calc ${example}`).join('\n')}

Exit status
  0  answered
  2  the command line is wrong, or what it names is not understood
  3  Kitproof itself failed
`;
}
