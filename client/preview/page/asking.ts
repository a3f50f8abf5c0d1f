/** What the parts of the page have in common: what they ask for, and how findings are signed. */

import type { Spot } from '../messages';

/** What the page can be asked for by a click. */
export interface Asking {
  open(spot: Spot): void;
  scrollTo(section: number): void;
  choose(name: string, value: string | null): void;
}

export const SEVERITY = { error: 'Error', warning: 'Warning', info: 'Note' } as const;
export const SIGN = { error: '✕', warning: '▲', info: '●' } as const;
