/** Sentences that every printed form of a guide has. */

import { counted, listed } from '../findings/words';
import type { PrintedGuide } from './printed';

/** At the foot of every page. */
export const FOOT =
  "The vehicle maker's data, local rules and qualified people come before this guide. Nothing here certifies a vehicle.";

/** `only with lockers: fitted`, `only if split bush found`. */
export const onlyWith = (when: string): string =>
  `only ${/(found|done)$/.test(when) ? 'if' : 'with'} ${when}`;

/** `all variants, with marks`, or the variant. */
export const inAllVariants = ({ variant }: PrintedGuide): string =>
  variant.length === 0
    ? 'all of these; steps for some of them alone are marked'
    : `${variantLine(variant)}; steps for others are left out, and numbers are those of the whole guide`;

const variantLine = (variant: PrintedGuide['variant']): string =>
  variant.map(({ name, value }) => `${name.replaceAll('-', ' ')}: ${value}`).join(', ');

/** `Revision B · lockers: fitted`, at the head of every page. */
export function aboutLine(guide: PrintedGuide): string {
  const { revision, date, variant } = guide;
  return [
    variant.length === 0 ? 'all variants' : variantLine(variant),
    ...(revision === null ? [] : [`revision ${revision}`]),
    ...(date === null ? [] : [date]),
  ].join(' · ');
}

/** Why a guide should not go out as it is; nothing where nothing speaks against it. */
export function stateInWords({ cover }: PrintedGuide): string[] {
  const { error, warning } = cover.findings;
  const open = [
    ...(error > 0 ? [counted(error, 'error')] : []),
    ...(warning > 0 ? [counted(warning, 'warning')] : []),
  ];
  return [
    ...(open.length === 0
      ? []
      : [
          `Not for issue: ${open.join(' and ')} ${error + warning === 1 ? 'stands' : 'stand'} open in this guide.`,
        ]),
    ...(cover.drafts.length === 0
      ? []
      : [
          `Not for issue: nobody has read ${cover.drafts.length === 1 ? 'step' : 'steps'} ${cover.drafts.join(', ')} yet.`,
        ]),
  ];
}

/** What was not checked, in whole sentences; never an empty list. */
export function coverInWords({ cover }: PrintedGuide): string[] {
  const { steps, checkedSteps, unchecked, undecided, waived, waivers, findings } = cover;
  const kinds = undecided.map(({ property, items }) => {
    const some = items.slice(0, 6).map((item) => item.replaceAll('-', ' '));
    return `${property.replaceAll('-', ' ')} of ${some.join(', ')}${items.length > 6 ? ` and ${items.length - 6} more` : ''}`;
  });
  return [
    `${checkedSteps} of ${counted(steps, 'step')} ${checkedSteps === 1 ? 'has' : 'have'} operations that could be followed; what the words say beyond these was not checked.`,
    ...(unchecked.length === 0
      ? []
      : [
          `Not checked, or not wholly: ${unchecked.length === 1 ? 'step' : 'steps'} ${unchecked.join(', ')}.`,
        ]),
    ...(kinds.length === 0 ? [] : [`Not decided, as nobody says: ${kinds.join('; ')}.`]),
    ...(waived > 0
      ? [
          `Found and accepted by name: ${waivers.length === 0 ? counted(waived, 'finding') : waivers.join('; ')}.`,
        ]
      : []),
    ...(findings.info > 0
      ? [`${counted(findings.info, 'note')} ${findings.info === 1 ? 'stands' : 'stand'} open.`]
      : []),
    'Whether parts, figures and data are right for a vehicle was not and cannot be checked from what is written.',
  ];
}

/** Before the first step, in every form. */
export const READ_FIRST: readonly string[] = [
  "Work on suspension, steering, brakes and wiring is for qualified people with the equipment for it. Where the vehicle maker's data, local rules or the maker of an aid say otherwise than this guide, they come first.",
  'Read the whole guide before the first step, and do the steps in their order. Never work beneath a vehicle that a jack alone holds. Wear eye protection and gloves. Stop when anything differs from what is written here, and ask.',
];

/** Whose work it is. */
export const doneBy = ({ skills }: PrintedGuide): string =>
  skills.length === 0
    ? 'people trained for work on vehicles'
    : `${listed(skills)}, trained for work on vehicles`;

/** What it takes. */
export function hoursLine({
  lowestPrinted,
  highestPrinted,
  highestAt90,
  atLeast,
  highest,
  elapsedPrinted,
}: PrintedGuide['hours']): string {
  const range = lowestPrinted === highestPrinted ? lowestPrinted : `${lowestPrinted} to ${highestPrinted}`;
  if (atLeast && highest === 0) return 'hours are not known';
  return `${atLeast ? 'at least ' : ''}${range}, nine jobs in ten within ${highestAt90}; ${elapsedPrinted} on the clock`;
}
