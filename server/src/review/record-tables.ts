/** The tables of a check record, the same for a page and for Markdown. */

import type { Severity } from '../findings/finding';
import { titled } from '../guide/names';
import type { Cell, Table } from '../guide/table';
import { type CheckRecord, dutyInWords, HARMS } from './record';
import { tallyOf } from './record-of';

const table = (title: string, columns: Table['columns'], rows: Table['rows']): Table => ({
  title,
  columns,
  rows,
  byHand: [],
  notes: [],
});

const zeroless = (count: number): Cell => (count === 0 ? '–' : count);

/** Rules by harm and by what came of them, in numbers. */
export function summaryTable(record: CheckRecord): Table {
  return {
    ...table(
      'Rules in force, by what is at stake',
      [
        { key: 'harm', title: 'At stake' },
        { key: 'duties', title: 'Rules asked', numeric: true },
        { key: 'held', title: 'In order', numeric: true },
        { key: 'open', title: 'Open', numeric: true },
        { key: 'undecided', title: 'Undecided', numeric: true },
        { key: 'covered', title: 'By caution', numeric: true },
        { key: 'waived', title: 'Waived', numeric: true },
        { key: 'never', title: 'Never asked', numeric: true },
        { key: 'asked', title: 'Times asked', numeric: true },
        { key: 'findings', title: 'Findings open', numeric: true },
      ],
      tallyOf(record).map((one) => [
        titled(one.harm ?? 'the writing'),
        ...[
          one.rules,
          one.held,
          one.open,
          one.undecided,
          one.covered,
          one.waived,
          one.never,
          one.asked,
          one.findings,
        ].map(zeroless),
      ]),
    ),
    notes: [
      'Each rule that was asked stands in one column from "In order" to "Waived", by the gravest that came of it.',
    ],
  };
}

const SEVERITIES: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'note' };

export function openTable({ open }: CheckRecord): Table {
  return table(
    'Open findings',
    [
      { key: 'where', title: 'Step' },
      { key: 'severity', title: 'As' },
      { key: 'harm', title: 'At stake' },
      { key: 'message', title: 'What was found' },
      { key: 'variants', title: 'Only with' },
      { key: 'place', title: 'Written in' },
    ],
    open.map(({ where, severity, harm, message, variants, place }) => [
      where === place ? '–' : where,
      SEVERITIES[severity],
      harm ?? 'the writing',
      message,
      variants,
      place,
    ]),
  );
}

export function waivedTable({ waived }: CheckRecord): Table {
  return table(
    'Waived',
    [
      { key: 'where', title: 'Step' },
      { key: 'message', title: 'What was found' },
      { key: 'because', title: 'Accepted because' },
      { key: 'by', title: 'By' },
      { key: 'until', title: 'Until' },
      { key: 'written', title: 'Written in' },
    ],
    waived.map(({ where, message, because, by, until, written, variants }) => [
      where,
      variants === null ? message : `${message} (${variants})`,
      because || 'no reason given',
      by || 'nobody named',
      until ?? 'no day named',
      written,
    ]),
  );
}

/** The duties of each harm that anything was asked of; a harm without any has no table. */
export function dutyTables({ duties }: CheckRecord): Table[] {
  return HARMS.flatMap((harm) => {
    const own = duties.filter((duty) => duty.harm === harm);
    if (own.length === 0) return [];
    return [
      table(
        titled(harm),
        [
          { key: 'duty', title: 'Duty or hazard' },
          { key: 'reason', title: 'Why', under: '' },
          { key: 'variants', title: 'Only with', under: 'asked only with ' },
          { key: 'asked', title: 'Asked', numeric: true },
          { key: 'steps', title: 'Steps', numeric: true },
          { key: 'result', title: 'Result' },
        ],
        own.map(({ duty, house, reason, variants, asked, steps, said, results }) => [
          house ? `${duty} (house)` : duty,
          // Of what is grave, or not in order, the reason is said; elsewhere the name is enough.
          harm === 'injury' || results[0] !== 'held' ? reason : null,
          variants,
          asked === 0 ? '–' : (asked ?? 'as written'),
          asked === null || steps === 0 ? '–' : steps,
          said,
        ]),
      ),
    ];
  });
}

/** The checklist: what only a person can judge. */
export function judgingTable({ judging }: CheckRecord): Table {
  return {
    title: 'What only a person can judge',
    columns: [
      { key: 'about', title: 'About' },
      { key: 'step', title: 'Step' },
      { key: 'what', title: 'In this guide' },
    ],
    rows: judging.flatMap(({ about, items }) => items.map(({ step, what }) => [about, step ?? '', what])),
    byHand: [{ title: 'Judged' }, { title: 'Initials', room: true }],
    notes: [],
  };
}

export function filesTable({ files, packs }: CheckRecord): Table {
  const house = new Map(
    packs.flatMap(({ file, on, rules }) => (file === null ? [] : [[file, `${on} of ${rules} rules on`]])),
  );
  return table(
    'Made from',
    [
      { key: 'file', title: 'File' },
      { key: 'kind', title: 'What it is' },
      { key: 'rules', title: 'Rules' },
      { key: 'hash', title: 'SHA-256 of its text, first digits' },
    ],
    files.map(({ file, kind, hash }) => [file, kind, house.get(file) ?? null, hash]),
  );
}

/** `injury: wheel seated before ground, …`. */
export const neverAskedInWords = ({ neverAsked }: CheckRecord): string[] =>
  neverAsked.map(
    ({ harm, rules }) =>
      `${titled(harm)}: ${rules.map((rule) => dutyInWords(rule).toLowerCase()).join(', ')}.`,
  );
