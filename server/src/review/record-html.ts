import { type Content, h, htmlPage } from '../guide/page/html';
import { type Paper, styleOf } from '../guide/page/style';
import { htmlTable } from '../guide/page/table';
import { CERTIFIES_NOTHING, type CheckRecord } from './record';
import {
  dutyTables,
  filesTable,
  judgingTable,
  neverAskedInWords,
  openTable,
  summaryTable,
  waivedTable,
} from './record-tables';
import { aboutRecord, factsOf, gapsOf, NEVER_ASKED, restOfRules, SIGNING, verdictOf } from './record-words';

/** A check record as one HTML file, in the look of the guide: for the screen, and to be printed and signed. */
export function recordPage(record: CheckRecord, paper: Paper): string {
  const title = `Check record: ${record.title}`;
  const about = aboutRecord(record);
  const open = [...part(htmlTable(openTable(record), {})), ...part(htmlTable(waivedTable(record)))];
  const body = h('main', { className: ['record'] }, [
    h('div', { className: ['running'] }, [h('b', title), h('span', about)]),
    h('p', { className: ['kicker'] }, 'Check record'),
    h('h1', record.title),
    h('div', { className: ['stop'] }, [h('p', CERTIFIES_NOTHING)]),
    h('p', { className: ['lead'] }, h('b', verdictOf(record))),
    h(
      'dl',
      { className: ['facts'] },
      factsOf(record).flatMap(([name, value]) => [h('dt', name), h('dd', value)]),
    ),
    ...part(htmlTable(summaryTable(record))),
    ...part(htmlTable(filesTable(record))),
    ...open,
    ...gapsOf(record).flatMap(({ title: heading, lines }) =>
      part([
        h('h3', heading),
        h(
          'ul',
          { className: ['notes'] },
          lines.map((line) => h('li', line)),
        ),
      ]),
    ),
    h('section', { className: ['block', 'page', 'duties'] }, [
      h('h2', 'What was asked, and what came of it'),
      h(
        'p',
        { className: ['about'] },
        'Asked counts each thing once for a side and an operation. In order means that it was asked and nothing was found, in all variants unless it says otherwise.',
      ),
      ...dutyTables(record).flatMap((table) => part(htmlTable(table))),
      h('h3', 'Never asked'),
      h('p', { className: ['small'] }, NEVER_ASKED),
      ...neverAskedInWords(record).map((line) => h('p', { className: ['small'] }, line)),
      h('h3', 'Other rules'),
      ...restOfRules(record).map((line) => h('p', { className: ['small'] }, line)),
    ]),
    h('section', { className: ['block', 'page', 'judging'] }, [
      h('h2', 'What only a person can judge'),
      h(
        'p',
        { className: ['about'] },
        'Made from this guide. No program can tell these; tick what you have judged and put your initials beside it.',
      ),
      ...htmlTable(judgingTable(record), { grouped: true, headed: true }),
    ]),
    h('section', { className: ['signing'] }, [
      h('p', SIGNING),
      ...['Written by', 'Reviewed by'].map((who) =>
        h('div', { className: ['sign'] }, [
          h('div', `${who}, name`),
          h('div', 'Signature'),
          h('div', 'Date'),
        ]),
      ),
      h('p', { className: ['small'] }, CERTIFIES_NOTHING),
    ]),
  ]);
  return htmlPage(title, `${styleOf({ paper, title, about, foot: CERTIFIES_NOTHING })}${STYLE}`, [body]);
}

const part = (content: readonly Content[]): Content[] =>
  content.length === 0 ? [] : [h('div', { className: ['block'] }, [...content])];

/** Smaller than a guide: it is read at a desk. */
const STYLE = `.record caption{break-after:avoid}.record thead,.record thead+tbody tr:first-child{break-before:avoid}.record thead,.record tbody tr:first-child,.record tbody tr:nth-child(2):not(:last-child){break-after:avoid}
.record h1{font-size:24pt}.record .lead{font-size:12pt;margin:0 0 4mm}.record .facts{font-size:9.6pt;gap:.8mm 5mm;margin:0 0 5mm}
.record .stop{margin:0 0 4mm;padding:2.4mm 4mm;font-size:10.5pt}.record .block{margin:0 0 5mm}.record h3{font-size:11pt;margin:3mm 0 .8mm}
.record table{font-size:8.8pt}.record caption{font-size:11pt}.record td{padding-top:.8mm;padding-bottom:.8mm}.record tbody th{padding-top:.8mm;padding-bottom:.8mm}
.record .duties tbody th small{font-size:7.6pt}.record .duties td:last-child{width:44mm}.record .duties .n{width:14mm}.record .duties td,.record .duties tbody th{padding-top:.5mm;padding-bottom:.5mm;line-height:1.22}.record .duties .block{margin-bottom:3mm}.record .duties .small{font-size:8pt;line-height:1.28;margin-bottom:1mm}.record .small,.record .notes{font-size:8.8pt;line-height:1.35}.record .notes{margin-top:.6mm}
.record .judging tbody th[scope=rowgroup]{width:36mm}.record .judging td{padding-top:1mm;padding-bottom:1mm;line-height:1.25}.record .judging td:nth-last-child(4){width:24mm}.record .judging .hand{width:15mm}.record .judging .room{width:22mm!important}
.record .box{width:3.2mm;height:3.2mm;vertical-align:-.4mm}.signing{break-inside:avoid;margin-top:7mm;font-size:10pt}.signing .sign{margin-top:13mm}.signing .small{margin-top:7mm}
`;
