/** A comparison as a page: one file without scripts. */

import { CAUTION } from '../findings/words';
import { type Content, h, htmlPage } from '../guide/page/html';
import { IN_EDITOR, STYLE } from './comparison-style';
import {
  AS_BEFORE,
  comparedInWords,
  countInWords,
  effectRows,
  groupsOf,
  NOTHING,
  openInWords,
  piecesOf,
  placeInWords,
  restInWords,
  saidBeside,
  untouchedInWords,
} from './comparison-words';
import type { ComparedGuide, ComparisonReport, ReportedChange } from './report';

/** @param inEditor in the colours that an editor gives its pages. */
export function comparisonPage(report: ComparisonReport, inEditor = false): string {
  const rest = restInWords(report);
  const main = h('main', [
    h('h1', `What changed in meaning: ${comparedInWords(report)}`),
    ...report.guides.flatMap(guideContent),
    ...(report.guides.length === 0 && rest.length === 0 ? [h('p', NOTHING)] : []),
    ...(rest.length === 0
      ? []
      : [
          h('h3', report.guides.length === 0 ? 'Guides' : 'Other guides'),
          h(
            'ol',
            rest.map((line) => h('li', [h('p', line)])),
          ),
        ]),
    h('p', { className: ['foot'] }, CAUTION),
  ]);
  const [only, ...more] = report.guides;
  const title =
    only !== undefined && more.length === 0 ? `${only.title}: what changed` : 'What changed in meaning';
  return htmlPage(title, inEditor ? STYLE + IN_EDITOR : STYLE, [main]);
}

function guideContent(guide: ComparedGuide): Content[] {
  const { title, before, after, effects, notes } = guide;
  const rows = effectRows(effects);
  const nothing = guide.changes.length === 0;
  return [
    h('h2', title),
    h('p', { className: ['about'] }, [
      h('span', { className: ['place'] }, before === after ? after : `${before} → ${after}`),
      ` · ${nothing ? NOTHING : countInWords(guide)}`,
    ]),
    ...[untouchedInWords(guide) ?? []].flat().map((line) => h('p', { className: ['about'] }, line)),
    ...notes.map((note) => h('p', { className: ['note'] }, note)),
    ...groupsOf(guide).flatMap(({ level, heading, changes }) => [
      h('h3', { className: [level] }, [
        `${heading} `,
        h('span', { className: ['n'] }, `(${changes.length})`),
      ]),
      h('ol', changes.map(itemOf)),
    ]),
    ...(nothing
      ? []
      : [
          h('h3', 'What came of it'),
          ...(rows.length === 0 ? [h('p', AS_BEFORE)] : [effectTable(rows)]),
          ...openInWords(effects).map((line) => h('p', line)),
        ]),
  ];
}

const effectTable = (rows: ReturnType<typeof effectRows>): Content =>
  h('table', [
    h('thead', [h('tr', [h('td'), h('th', { scope: 'col' }, 'before'), h('th', { scope: 'col' }, 'now')])]),
    h(
      'tbody',
      rows.map(({ name, before, after }) =>
        h('tr', [h('th', { scope: 'row' }, name), h('td', before), h('td', after)]),
      ),
    ),
  ]);

function itemOf(change: ReportedChange): Content {
  const place = placeInWords(change);
  const beside = saidBeside(change);
  return h('li', { className: [change.level] }, [
    h('p', [
      change.sentence,
      ...(change.variants === null ? [] : [h('span', { className: ['when'] }, ` (${change.variants})`)]),
    ]),
    ...(beside === null ? [] : [h('p', { className: ['said'] }, wordsOf(beside.from, beside.to))]),
    ...(place === '' && change.rule === null
      ? []
      : [
          h(
            'p',
            { className: ['place'] },
            [place, change.sentence.includes(change.rule ?? '') ? null : change.rule]
              .filter(Boolean)
              .join('  '),
          ),
        ]),
  ]);
}

function wordsOf(from: string | null, to: string | null): (Content | string)[] {
  if (from === null || to === null) return [from === null ? h('ins', to ?? '') : h('del', from)];
  return piecesOf(from, to).map(({ text, how }) =>
    how === 'same' ? text : h(how === 'gone' ? 'del' : 'ins', text),
  );
}
