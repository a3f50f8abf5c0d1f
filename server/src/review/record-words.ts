/** Sentences that every form of a check record has. */

import { counted, listed } from '../findings/words';
import { type CheckRecord, dutyInWords } from './record';

/** `Revision A · as of 2026-03-14 · all variants`. */
export function aboutRecord({ revision, date, asOf, variant }: CheckRecord): string {
  return [
    revision === null ? 'no revision said' : `revision ${revision}`,
    ...(date === null ? [] : [date]),
    ofVariants(variant),
    `as of ${asOf}`,
  ].join(' · ');
}

const ofVariants = (variant: CheckRecord['variant']): string =>
  variant.length === 0
    ? 'all variants'
    : variant.map(({ name, value }) => `${name.replaceAll('-', ' ')}: ${value}`).join(', ');

/** What the record is of, name and words. */
export function factsOf(record: CheckRecord): [string, string][] {
  const { vehicle, kits, covers, variant, packs, version, steps } = record;
  const standard = packs.filter(({ file }) => file === null);
  const house = packs.filter(({ file }) => file !== null);
  const on = packs.reduce((sum, pack) => sum + pack.on, 0);
  return [
    [
      'Guide',
      [
        record.title,
        record.revision === null ? 'no revision said' : `revision ${record.revision}`,
        ...(record.date === null ? [] : [record.date]),
      ].join(' · '),
    ],
    [
      'Kit and vehicle',
      kits.length === 0 && vehicle === null
        ? 'no file of either'
        : `${kits.length === 0 ? 'no kit file' : listed(kits)}, ${vehicle === null ? 'no vehicle file' : `for the ${vehicle}`}`,
    ],
    ...(covers.length === 0
      ? []
      : [
          [
            'Covers',
            covers
              .map(({ name, values }) => `${name.replaceAll('-', ' ')}: ${listed(values, 'or')}`)
              .join('; '),
          ] as [string, string],
        ]),
    ['Record of', variant.length === 0 ? 'all that it covers, at once' : `${ofVariants(variant)} alone`],
    [
      'Steps',
      `${steps.checked} of ${steps.all} checked${record.drafts.length === 0 ? '' : `, ${counted(record.drafts.length, 'draft')}`}`,
    ],
    ['Made by', `Kitproof ${version}, waivers held against ${record.asOf}`],
    [
      'Rules in force',
      `${on}, of the standard packs ${listed(standard.filter((pack) => pack.on > 0).map(({ pack }) => pack))}${house.length === 0 ? '' : ` and the house's own: ${listed(house.map(({ pack }) => pack))}`}`,
    ],
  ];
}

/** What it comes to, in one sentence, for who reads no further. */
export function verdictOf({ open, drafts, unchecked, undecided, waived }: CheckRecord): string {
  const grave = open.filter(({ severity }) => severity !== 'info').length;
  const notes = open.length - grave;
  const parts = [
    ...(grave > 0 ? [`${counted(grave, 'finding')} open`] : []),
    ...(notes > 0 ? [`${counted(notes, 'note')} open`] : []),
    ...(drafts.length > 0 ? [`${counted(drafts.length, 'draft')} that nobody has read`] : []),
    ...(unchecked.length > 0 ? [`${counted(unchecked.length, 'step')} not checked, or not wholly`] : []),
    ...(undecided.length > 0
      ? [
          `${counted(
            undecided.reduce((sum, { items }) => sum + items.length, 0),
            'question',
          )} undecided`,
        ]
      : []),
    ...(waived.length > 0 ? [`${counted(waived.length, 'finding')} waived`] : []),
  ];
  return parts.length === 0
    ? 'Nothing is open: all that was asked is in order. What only a person can judge is left to do.'
    : `${titledList(parts)}.`;
}

const titledList = (parts: readonly string[]): string => {
  const words = listed(parts);
  return words.charAt(0).toUpperCase() + words.slice(1);
};

/** Under the duties: what was never asked and why that is no proof of anything. */
export const NEVER_ASKED =
  'Nothing of the kind is done in this guide, so these rules in force had nothing to ask and say nothing of it:';

/** What is said of rules that are not in the tables. */
export function restOfRules({ reading, off, notChosen }: CheckRecord): string[] {
  const names = (rules: readonly string[]) => listed(rules.map((rule) => dutyInWords(rule).toLowerCase()));
  return [
    ...(reading.length === 0
      ? []
      : [`The writing as a whole was read, with nothing found, for: ${names(reading)}.`]),
    off.length === 0
      ? 'The house switched off no rule that is on by itself.'
      : `The house switched off ${counted(off.length, 'rule')} that ${off.length === 1 ? 'is' : 'are'} on by ${off.length === 1 ? 'itself' : 'themselves'}, so nothing was asked: ${off.map(({ rule, harm }) => `${dutyInWords(rule).toLowerCase()} (${harm})`).join(', ')}.`,
    ...(notChosen === 0
      ? []
      : [
          `${counted(notChosen, 'rule')} that ${notChosen === 1 ? 'is' : 'are'} a house's to choose ${notChosen === 1 ? 'was' : 'were'} not chosen (kitproof rules list).`,
        ]),
  ];
}

/** What cautions cover, steps not checked, drafts and what was not decided, each in a sentence. */
export function gapsOf(record: CheckRecord): { readonly title: string; readonly lines: readonly string[] }[] {
  const { covered, undecided, unchecked, drafts } = record;
  return [
    {
      title: 'Covered by a caution',
      lines: covered.map(
        ({ where, rule, items }) =>
          `Step ${where}: ${dutyInWords(rule).toLowerCase()}, for ${listed(items)}.`,
      ),
    },
    {
      title: 'Not decided, as nobody says it',
      lines: undecided.map(
        ({ said, rules }) =>
          `${said.charAt(0).toUpperCase()}${said.slice(1)}. Waits for it: ${listed(rules.map((rule) => (rule === '' ? 'all rules' : dutyInWords(rule).toLowerCase())))}.`,
      ),
    },
    {
      title: 'Steps not checked, or not wholly',
      lines: unchecked.map(({ step, why }) => `Step ${step}: ${why}.`),
    },
    {
      title: 'Drafts',
      lines:
        drafts.length === 0
          ? []
          : [`Nobody has read ${drafts.length === 1 ? 'step' : 'steps'} ${listed(drafts)} yet.`],
    },
    { title: 'Taken for granted', lines: record.assumptions },
  ].filter(({ lines }) => lines.length > 0);
}

/** Before the signatures. */
export const SIGNING =
  'Who signs has read the guide, judged what stands in the list above, and answers for it. The record of the program answers for nothing.';
