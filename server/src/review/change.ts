/** One change of meaning between two versions of a guide, and how much there is to it. */

import type { Place } from '../findings/finding';
import type { StepAccount } from './account';

/** What sort of change it is; these words are stable, programs read them. */
export type ChangeKind =
  | 'finding-new'
  | 'finding-gone'
  | 'finding-changed'
  | 'step-added'
  | 'step-removed'
  | 'step-moved'
  | 'section-added'
  | 'section-removed'
  | 'section-changed'
  | 'operation-added'
  | 'operation-removed'
  | 'operation-moved'
  | 'operation-changed'
  | 'order'
  | 'torque'
  | 'aid'
  | 'condition'
  | 'side'
  | 'people'
  | 'time'
  | 'caution-added'
  | 'caution-removed'
  | 'caution-changed'
  | 'waiver-added'
  | 'waiver-removed'
  | 'waiver-changed'
  | 'covers'
  | 'given'
  | 'leaves'
  | 'owes'
  | 'files'
  | 'data'
  | 'parts'
  | 'hardware'
  | 'renamed'
  | 'settings'
  | 'words'
  | 'undecided'
  | 'step-changed';

/** Where a reviewer looks first, what he then reads of the work, and what is only words, times and papers; last what was put right. */
export type Level = 'first' | 'work' | 'words' | 'gone';

export const LEVELS: readonly Level[] = ['first', 'work', 'words', 'gone'];

export interface Change {
  readonly kind: ChangeKind;
  readonly level: Level;
  /** Within a level: the lower, the more there is to it. */
  readonly rank: number;
  /** One plain sentence, without the variants. */
  readonly sentence: string;
  /** The variants that it concerns, in words; null for all. */
  readonly variants: string | null;
  /** What it was and what it is, where both are words or figures that a reader wants to see side by side. */
  readonly from: string | null;
  readonly to: string | null;
  /** The step it is in: of the later version, of a removed one the earlier. */
  readonly step: { readonly number: string; readonly id: string | null } | null;
  /** Where it stands in either version. */
  readonly before: Place | null;
  readonly after: Place | null;
  /** What a new or gone finding is of. */
  readonly rule: string | null;
}

type Told = Pick<Change, 'kind' | 'level' | 'rank' | 'sentence'> & Partial<Change>;

export function change(told: Told): Change {
  return {
    variants: null,
    from: null,
    to: null,
    step: null,
    before: null,
    after: null,
    rule: null,
    ...told,
  };
}

/** A change that stands in a step of both versions. */
export function changeIn(before: StepAccount, after: StepAccount, told: Told): Change {
  return change({ step: after, before: before.place, after: after.place, ...told });
}

/** The first letter of a sentence. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** By what there is to it, then in the order of the guide, then by words: never by how it was found. */
export function compareChanges(a: Change, b: Change): number {
  return (
    LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level) ||
    a.rank - b.rank ||
    placeIn(a) - placeIn(b) ||
    (a.sentence < b.sentence ? -1 : a.sentence > b.sentence ? 1 : 0)
  );
}

const placeIn = ({ after, before }: Change): number => (after ?? before)?.span.start ?? -1;
