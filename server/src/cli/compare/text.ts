import type { Level } from '../../review/change';
import {
  AS_BEFORE,
  comparedInWords,
  countInWords,
  effectRows,
  groupsOf,
  NOTHING,
  openInWords,
  placeInWords,
  restInWords,
  saidBeside,
  untouchedInWords,
} from '../../review/comparison-words';
import type { ComparedGuide, ComparisonReport, ReportedChange } from '../../review/report';
import type { Colours } from '../colours';
import { padded, paddedLeft, printable, widthOf, wrap } from '../width';
import { CAUTION } from '../words';

/** For people: the changes of each guide, the most dangerous first, then what came of them. */
export function comparisonText(report: ComparisonReport, colours: Colours, columns: number): string {
  const rest = restInWords(report);
  const blocks = [
    ...report.guides.map((guide) => guideBlock(guide, report, colours, columns)),
    ...(report.guides.length === 0 && rest.length === 0 ? [NOTHING] : []),
    ...(rest.length === 0 ? [] : [rest.flatMap((line) => hanging(printable(line), columns, '')).join('\n')]),
    ...(report.guides.length === 0
      ? []
      : [
          wrap(CAUTION, columns)
            .map((line) => colours.dim(line))
            .join('\n'),
        ]),
  ];
  return `${blocks.join('\n\n')}\n`;
}

function guideBlock(
  guide: ComparedGuide,
  report: ComparisonReport,
  colours: Colours,
  columns: number,
): string {
  const { title, before, after, notes, effects } = guide;
  const file = before === after ? `${after}  ${comparedInWords(report)}` : `${before} → ${after}`;
  const head = [
    `${colours.bold(printable(title))}  ${colours.dim(printable(file))}`,
    guide.changes.length === 0 ? NOTHING : `${countInWords(guide)}.`,
    ...[untouchedInWords(guide) ?? []]
      .flat()
      .flatMap((line) => hanging(printable(line), columns, '').map((one) => colours.dim(one))),
    ...notes.flatMap((note) => hanging(printable(note), columns, '').map((line) => colours.yellow(line))),
  ].join('\n');
  const groups = groupsOf(guide).map(({ level, heading, changes }) =>
    [
      paintOf(level, colours)(heading),
      ...changes.flatMap((change) => changeLines(change, colours, columns)),
    ].join('\n'),
  );
  if (guide.changes.length === 0) return head;
  const rows = effectRows(effects);
  const widths = [0, 1, 2].map((at) =>
    Math.max(
      ...[['', 'before', 'now'], ...rows.map(({ name, before, after }) => [name, before, after])].map((row) =>
        widthOf(row[at]!),
      ),
    ),
  );
  const row = (cells: readonly string[]) =>
    `  ${padded(cells[0]!, widths[0]!)}  ${paddedLeft(cells[1]!, widths[1]!)}  ${paddedLeft(cells[2]!, widths[2]!)}`;
  const came = [
    colours.bold('What came of it'),
    ...(rows.length === 0
      ? hanging(AS_BEFORE, columns, '  ')
      : [
          colours.dim(row(['', 'before', 'now'])),
          ...rows.map(({ name, before, after }) => row([name, before, after])),
        ]),
    ...openInWords(effects).flatMap((line) => hanging(printable(line), columns, '  ')),
  ].join('\n');
  return [head, ...groups, came].join('\n\n');
}

function paintOf(level: Level, colours: Colours): (text: string) => string {
  if (level === 'first') return (text) => colours.red(colours.bold(text));
  return level === 'gone' ? (text) => colours.green(colours.bold(text)) : colours.bold;
}

function changeLines(change: ReportedChange, colours: Colours, columns: number): string[] {
  const place = placeInWords(change);
  const variants = change.variants === null ? '' : ` (${change.variants})`;
  const lines = hanging(printable(`${change.sentence}${variants}`), columns, '  ');
  const beside = saidBeside(change);
  if (beside !== null && beside.from !== null)
    lines.push(
      ...hanging(printable(`− ${oneLine(beside.from)}`), columns, '      ').map((line) => colours.red(line)),
    );
  if (beside !== null && beside.to !== null)
    lines.push(
      ...hanging(printable(`+ ${oneLine(beside.to)}`), columns, '      ').map((line) => colours.green(line)),
    );
  const rule = change.rule === null || change.sentence.includes(change.rule) ? '' : change.rule;
  const about = [place, rule].filter(Boolean).join('  ');
  if (about === '') return lines;
  const last = lines.at(-1)!;
  // The place stands behind the sentence where there is room.
  if (beside === null && widthOf(last) + 2 + widthOf(about) <= columns) {
    lines[lines.length - 1] = `${last}  ${colours.dim(printable(about))}`;
  } else lines.push(`      ${colours.dim(printable(about))}`);
  return lines;
}

const oneLine = (text: string): string => text.split(/\s+/).join(' ');

/** A sentence whose further lines stand in by four. */
function hanging(text: string, columns: number, indent: string): string[] {
  const room = Math.max(30, columns - indent.length - 4);
  return wrap(text, room).map((line, index) => `${indent}${index === 0 ? '' : '    '}${line}`);
}
