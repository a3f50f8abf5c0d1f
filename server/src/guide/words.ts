/** Sentences that every printed form of a guide has. */

import { counted } from '../findings/words';
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
    : variant.map(({ name, value }) => `${name.replaceAll('-', ' ')}: ${value}`).join(', ');

/** `Revision B · lockers: fitted`, at the head of every page. */
export function aboutLine(guide: PrintedGuide): string {
  const { revision, date, variant } = guide;
  return [
    variant.length === 0 ? 'all variants' : inAllVariants(guide),
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
