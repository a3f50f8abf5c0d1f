import type { GuideView, LedgerView } from '../../server/src/lsp/guide-view-types';

/** Where in a document something stands; both from 0. */
export interface Spot {
  readonly uri: string;
  readonly line: number;
  readonly character: number;
}

/** From the extension to the page. */
export type ToPage =
  | { readonly type: 'guide'; readonly guide: GuideView }
  /** What is open beside the steps of the guide that was last sent. */
  | { readonly type: 'ledger'; readonly ledger: LedgerView }
  /** There is nothing to show, and why. */
  | { readonly type: 'empty'; readonly text: string }
  /** The cursor stands in a step; null where it stands in none. */
  | { readonly type: 'here'; readonly path: string | null };

/** From the page to the extension. */
export type FromPage =
  | { readonly type: 'ready' }
  | ({ readonly type: 'open' } & Spot)
  /** A trait or option is fixed; null lets it be anything. */
  | { readonly type: 'choose'; readonly name: string; readonly value: string | null };
