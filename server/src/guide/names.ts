/** Names of the documents as a fitter reads them. */

import type { BoundOperation, Target } from '../model/model';
import { wordsOf } from '../model/titles';

/** `front-track-bar.axle-bolt` as `front track bar, axle bolt`; a thread in a name and what is written in capitals stay so. */
export const nameInWords = (name: string): string =>
  name
    .replaceAll('.', ', ')
    .replaceAll(/(?<!\b(?:two|four))-/g, ' ')
    .replaceAll(/\bm(?=\d)/g, 'M')
    .replaceAll(/\babs\b/g, 'ABS');

/** With a capital, for the first column of a table. */
export const titled = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What an operation acts on. */
export const targetInWords = (target: Target): string =>
  target.type === 'words' ? target.text.replaceAll('-', ' ') : nameInWords(target.written);

/** An operation as a sentence, for a step that has no text: `Support front axle with pole jacks.` */
export function operationInWords(operation: BoundOperation, side: string | null): string {
  const words = wordsOf(operation, side)
    .replaceAll(/([a-z0-9])\.([a-z])/g, '$1, $2')
    .replaceAll(/([a-z])-(?=[a-z])/g, '$1 ');
  return `${titled(words)}.`;
}

/** The side that an operation says, where it is one. */
export function oneSideOf({ sideSaid, sides }: BoundOperation): string | null {
  const [only] = sides;
  return sideSaid && sides.length === 1 && only !== undefined && only !== '' ? only : null;
}
