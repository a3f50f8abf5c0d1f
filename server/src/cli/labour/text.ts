import type { Figures } from '../../labour/spread';
import { printHours } from '../../labour/three-point';
import type { Colours } from '../colours';
import { variantInWords } from '../variant-option';
import { padded, paddedLeft, printable, shorten, widthOf, wrap } from '../width';
import { counted } from '../words';
import { type ExplainedMinutes, type ExplainedStep, printMinutes } from './explain';
import { type LabourReport, type SummaryRow, sentencesOf, summaryOf, variesIn } from './report';

/** The report for people: the table, what it means, what is not known; with `--explain` every step before it. */
export function reportText(report: LabourReport, colours: Colours, terminal: number | null): string {
  const columns = Math.max(60, Math.min(terminal ?? 100, 100));
  const { labour, file, variant, steps } = report;
  const fixed = variantInWords(variant);
  const head = `${colours.bold(printable(labour.title))}  ${colours.dim(file)}`;
  const blocks = [
    [head, ...(fixed === '' ? [] : [colours.cyan(printable(`with ${fixed}`))])],
    ...(steps ?? []).map((step) => stepBlock(step, file, colours, columns)),
    ...tables(report, colours, columns),
    sentencesOf(labour, steps !== null).flatMap((sentence) => hanging(sentence, columns - 4)),
    ...unknownBlock(report, colours, columns),
  ];
  return `${blocks.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

/** A sentence whose further lines stand in a little; a figure keeps its % sign beside it. */
function hanging(sentence: string, width: number): string[] {
  return wrap(printable(sentence.replaceAll(' %', '\u00a0%')), width).map(
    (line, index) => `  ${index === 0 ? '' : '  '}${line.replaceAll('\u00a0', ' ')}`,
  );
}

function tables({ labour, hourStep }: LabourReport, colours: Colours, columns: number): string[][] {
  const rows = summaryOf(labour);
  const both = variesIn(rows);
  const hours = (figures: Figures | null) =>
    figures === null ? ['', ''] : [figures.at50, figures.at90].map((one) => printHours(one, hourStep));
  const cellsOf = ({ sort, lowest, highest }: SummaryRow): string[] => {
    const last = sort === 'on the clock' ? [hours(highest)[0]!, ''] : hours(highest);
    return both ? [...hours(lowest), ...last] : last;
  };
  const cells = rows.map(cellsOf);
  const cellWidth = Math.max(6, ...cells.flat().map((cell) => cell.length)) + 2;
  const count = both ? 4 : 2;
  const room = Math.max(20, Math.min(48, columns - 6 - count * cellWidth));
  const titles = rows.map((row) => titleOf(row, labour.atLeast, room));
  const width = Math.max(...titles.map(widthOf));
  const line = (number: string, title: string, all: readonly string[]) =>
    `  ${paddedLeft(number, 2)}  ${padded(title, width)}${all.map((cell) => paddedLeft(cell, cellWidth)).join('')}`.trimEnd();
  const shares = ['50 %', '90 %'];
  const pair = (word: string) => paddedLeft(word, 2 * cellWidth);
  const heads = [
    ...(both ? [`      ${padded('', width)}${pair('lowest')}${pair('highest')}`] : []),
    line('', '', both ? [...shares, ...shares] : shares),
  ].map(colours.dim);
  const rule = colours.dim(`  ${'─'.repeat(4 + width + count * cellWidth)}`);
  const quoted = rows.some(({ sort }) => sort === 'quoted');
  const of = (...sorts: SummaryRow['sort'][]) =>
    rows.flatMap(({ sort, number }, index) => {
      if (!sorts.includes(sort)) return [];
      const printed = line(number, titles[index]!, cells[index]!);
      return [sort === (quoted ? 'quoted' : 'working time') ? colours.bold(printed) : printed];
    });
  const main = [
    ...heads,
    ...of('section'),
    rule,
    ...of('working time', 'allowance', 'quoted'),
    ...of('on the clock'),
  ];
  const skills = of('skill');
  return skills.length === 0
    ? [main]
    : [main, [colours.dim(line('', quoted ? 'Quoted, by skill' : 'By skill', [])), ...skills]];
}

/** A section or a skill of which something is not known has a star; the totals say it in words. */
function titleOf({ sort, title, atLeast }: SummaryRow, anywhere: boolean, room: number): string {
  const least = atLeast && anywhere;
  const total = sort !== 'section' && sort !== 'skill';
  const mark = !least ? '' : total ? ', at least' : ' *';
  return `${shorten(printable(title), room - mark.length)}${mark}`;
}

/** Fewer steps than this are listed whole. */
const MOST_UNKNOWN = 40;

function unknownBlock({ unknown }: LabourReport, colours: Colours, columns: number): string[][] {
  if (unknown.length === 0) return [];
  const shown = unknown.slice(0, MOST_UNKNOWN);
  const width = Math.max(...shown.map((one) => `${one.file}:${one.line}`.length));
  return [
    [
      `  ${colours.yellow(`* ${counted(unknown.length, 'step')} without a known time`)}`,
      ...shown.map(({ file, line, step, title }) => {
        const room = Math.max(20, Math.min(60, columns - width - 6));
        return `    ${padded(`${file}:${line}`, width)}  ${shorten(printable(`${step}  ${title}`), room)}`;
      }),
      ...(unknown.length > MOST_UNKNOWN ? [`    and ${unknown.length - MOST_UNKNOWN} more`] : []),
    ],
  ];
}

function stepBlock(step: ExplainedStep, guide: string, colours: Colours, columns: number): string[] {
  const where = step.file === guide ? `line ${step.line}` : `${step.file}:${step.line}`;
  const range =
    printMinutes(step.lowest) === printMinutes(step.highest)
      ? printMinutes(step.highest)
      : `${printMinutes(step.lowest)} to ${printMinutes(step.highest)}`;
  const total = step.atLeast ? colours.yellow(`at least ${range}`) : colours.bold(range);
  const name = step.id === null ? '' : `  ${printable(step.id)}`;
  return [
    `${colours.bold(step.path)}${name}  ${total}${colours.dim(`  ${where}`)}`,
    colours.dim(`      ${shorten(printable(step.title), columns - 6)}`),
    ...step.minutes.flatMap((one) => minutesLines(one, colours, columns)),
  ];
}

/** The minutes, what they are for, how they were counted; where they are written stands on the line if it has room. */
function minutesLines(one: ExplainedMinutes, colours: Colours, columns: number): string[] {
  const unknown = one.from === 'unknown';
  const quiet =
    one.sharedWith !== null || one.from === 'use' || (one.from === 'waiting' && one.elapsed === 0);
  const figure = unknown
    ? '?'
    : quiet
      ? '–'
      : printMinutes(one.from === 'waiting' ? one.elapsed : one.labour);
  const words = unknown ? `${one.what}: no time is known` : one.what;
  const how = one.how === '' ? '' : `: ${one.how}`;
  const source = one.source === null ? '' : `${one.source.file}:${one.source.line} (${one.source.entry})`;
  const notes = [source, one.skill ?? '', one.variants ?? ''].filter((part) => part !== '');
  const indent = ' '.repeat(18);
  const text = wrap(printable(`${words}${how}`), columns - indent.length);
  const paint = unknown ? colours.yellow : quiet ? colours.dim : (line: string) => line;
  const lines = text.map(
    (line, index) => `${index === 0 ? `      ${paddedLeft(figure, 10)}  ` : `${indent}  `}${paint(line)}`,
  );
  const note = printable(notes.join(' · '));
  if (note === '') return lines;
  const last = widthOf(text.at(-1)!) + indent.length;
  if (last + 2 + widthOf(note) <= columns && text.length === 1) return [`${lines[0]}  ${colours.dim(note)}`];
  return [
    ...lines,
    ...wrap(note, columns - indent.length - 2).map((line) => `${indent}  ${colours.dim(line)}`),
  ];
}
