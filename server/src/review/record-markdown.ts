import { headed } from '../guide/markdown-table';
import { emphasis, heading, list, markdownOf, paragraph, quote, strong, text } from '../guide/mdast';
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

/** A check record as Markdown, with boxes to tick as a repository shows them. */
export function recordMarkdown(record: CheckRecord): string {
  const lines = (all: readonly string[]) => list(all.map((line) => ({ line: [text(line)] })));
  return markdownOf([
    heading(1, `Check record: ${record.title}`),
    paragraph(emphasis(aboutRecord(record))),
    quote([strong(CERTIFIES_NOTHING)]),
    paragraph(strong(verdictOf(record))),
    list(factsOf(record).map(([name, value]) => ({ line: [strong(`${name}:`), text(` ${value}`)] }))),
    ...headed(summaryTable(record)),
    ...headed(filesTable(record)),
    ...headed(openTable(record)),
    ...headed(waivedTable(record)),
    ...gapsOf(record).flatMap(({ title, lines: said }) => [heading(2, title), lines(said)]),
    heading(2, 'What was asked, and what came of it'),
    ...dutyTables(record).flatMap((table) => headed(table, 3)),
    heading(3, 'Never asked'),
    paragraph(text(NEVER_ASKED)),
    ...(record.neverAsked.length === 0 ? [] : [lines(neverAskedInWords(record))]),
    heading(3, 'Other rules'),
    lines(restOfRules(record)),
    ...headed(judgingTable(record)),
    heading(2, 'Signatures'),
    paragraph(text(SIGNING)),
    list(
      ['Written by', 'Reviewed by'].map((who) => ({
        line: [text(`${who}: …………………… Signature: …………………… Date: …………`)],
      })),
    ),
    paragraph(emphasis(CERTIFIES_NOTHING)),
  ]);
}
