/** A comparison as Markdown, for a pull request. */

import type { BlockContent, RootContent } from 'mdast';
import { CAUTION } from '../findings/words';
import { code, emphasis, heading, list, markdownOf, paragraph, strong, table, text } from '../guide/mdast';
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
} from './comparison-words';
import type { ComparedGuide, ComparisonReport, ReportedChange } from './report';

/** More than this of one sort nobody reads; the rest is counted. */
const MOST_OF_A_SORT = 100;

export function comparisonMarkdown(report: ComparisonReport): string {
  const rest = restInWords(report);
  return markdownOf([
    heading(2, 'What changed in meaning'),
    paragraph(emphasis(`Compared: ${comparedInWords(report)}`)),
    ...report.guides.flatMap(guideBlocks),
    ...(report.guides.length === 0 && rest.length === 0 ? [paragraph(text(NOTHING))] : []),
    ...(rest.length === 0 ? [] : [list(rest.map((line) => ({ line: [text(line)] })))]),
    paragraph(emphasis(CAUTION)),
  ]);
}

function guideBlocks(guide: ComparedGuide): RootContent[] {
  const { title, before, after, effects, notes } = guide;
  const rows = effectRows(effects);
  return [
    heading(3, title),
    paragraph(
      code(before === after ? after : `${before} → ${after}`),
      text(guide.changes.length === 0 ? ` ${NOTHING}` : ` ${countInWords(guide)}`),
    ),
    ...[untouchedInWords(guide) ?? []].flat().map((line) => paragraph(text(line))),
    ...notes.map((note) => paragraph(strong(note))),
    ...groupsOf(guide).flatMap(({ heading: title, changes }): RootContent[] => [
      heading(4, title),
      list(changes.slice(0, MOST_OF_A_SORT).map(itemOf)),
      ...(changes.length > MOST_OF_A_SORT
        ? [paragraph(text(`And ${changes.length - MOST_OF_A_SORT} more.`))]
        : []),
    ]),
    ...(guide.changes.length === 0
      ? []
      : [
          heading(4, 'What came of it'),
          ...(rows.length === 0
            ? [paragraph(text(AS_BEFORE))]
            : [
                table(
                  ['', 'before', 'now'],
                  rows.map((row) => [row.name, row.before, row.after]),
                  [null, 'right', 'right'],
                ),
              ]),
          ...openInWords(effects).map((line) => paragraph(text(line))),
        ]),
  ];
}

function itemOf(change: ReportedChange) {
  const place = placeInWords(change);
  const beside = saidBeside(change);
  const said: BlockContent[] =
    beside === null
      ? []
      : [
          list([
            ...(beside.from === null ? [] : [{ line: [emphasis('was:'), text(` ${beside.from}`)] }]),
            ...(beside.to === null ? [] : [{ line: [emphasis('now:'), text(` ${beside.to}`)] }]),
          ]),
        ];
  return {
    line: [
      text(change.sentence),
      ...(change.variants === null ? [] : [text(' '), emphasis(`(${change.variants})`)]),
      ...(place === '' ? [] : [text(' '), code(place)]),
      ...(change.rule === null || change.sentence.includes(change.rule)
        ? []
        : [text(' '), code(change.rule)]),
    ],
    below: said,
  };
}
