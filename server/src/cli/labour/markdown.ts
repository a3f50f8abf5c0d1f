import type { Figures } from '../../labour/spread';
import { printHours } from '../../labour/three-point';
import { variantInWords } from '../variant-option';
import { printable } from '../width';
import { counted } from '../words';
import { printMinutes } from './explain';
import { type LabourReport, type SummaryRow, sentencesOf, summaryOf, variesIn } from './report';

/** The report as Markdown: the tables of the terminal, to be put into a quote or an issue. */
export function reportMarkdown(report: LabourReport): string {
  const { labour, hourStep, variant, unknown, steps } = report;
  const rows = summaryOf(labour);
  const main = rows.filter(({ sort }) => sort !== 'skill');
  const skills = rows.filter(({ sort }) => sort === 'skill');
  const hours = (figures: Figures | null, key: 'at50' | 'at90') =>
    figures === null ? '' : printHours(figures[key], hourStep);
  const both = variesIn(rows);
  const heads = both ? ['lowest 50 %', 'lowest 90 %', 'highest 50 %', 'highest 90 %'] : ['50 %', '90 %'];
  const table = (first: string, list: readonly SummaryRow[]): string[] => [
    line([first, ...heads]),
    `| --- |${' ---: |'.repeat(heads.length)}`,
    ...list.map(({ sort, number, title, atLeast, lowest, highest }) => {
      const strong =
        sort === 'quoted' || (sort === 'working time' && !list.some((one) => one.sort === 'quoted'));
      const words = `${number === '' ? '' : `${number}. `}${plain(title)}${atLeast ? ', at least' : ''}`;
      const clock = sort === 'on the clock';
      const cells = [
        strong ? `**${words}**` : words,
        ...(both ? [hours(lowest, 'at50'), hours(lowest, 'at90')] : []),
        hours(highest, 'at50'),
        clock ? '' : hours(highest, 'at90'),
      ];
      return line(cells);
    }),
  ];
  const fixed = variantInWords(variant);
  const blocks: string[][] = [
    [`# ${plain(labour.title)}`],
    ...(fixed === '' ? [] : [[`With ${plain(fixed)}.`]]),
    table('Labour', main),
    ...(skills.length === 0 ? [] : [table('By skill', skills)]),
    ...sentencesOf(labour, steps !== null).map((sentence) => [plain(sentence)]),
  ];
  if (unknown.length > 0)
    blocks.push(
      [`${counted(unknown.length, 'step')} without a known time:`],
      unknown.map(({ file, line, step, title }) => `- ${plain(`${file}:${line} ${step} ${title}`)}`),
    );
  if (steps !== null)
    blocks.push([
      line(['Step', 'From', 'How', 'Written in', 'Labour']),
      '| --- | --- | --- | --- | ---: |',
      ...steps.flatMap(({ path, id, minutes }) =>
        minutes.map((one) =>
          line([
            plain(id === null ? path : `${path} ${id}`),
            plain([one.what, one.variants].filter((part) => part !== null).join(', ')),
            plain(one.how),
            one.source === null ? '' : plain(`${one.source.file}:${one.source.line}`),
            one.from === 'unknown' ? 'not known' : printMinutes(one.labour),
          ]),
        ),
      ),
    ]);
  return `${blocks.map((block) => block.join('\n')).join('\n\n')}\n`;
}

const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;

/** Text of a document as it reads: what Markdown would take for its own has a backslash before it. */
function plain(text: string): string {
  return printable(text.replaceAll(/\s+/g, ' ').trim()).replaceAll(/[\\`*_{}[\]<>#|~&]/g, '\\$&');
}
