/** What a client asks to have a guide compared with an earlier version, and what it is given. */
import type { UriParams } from './guide-view-types';

export const COMPARE_REQUEST = 'kitproof/compare';

export interface CompareParams extends UriParams {
  /** A revision of the repository: `HEAD`, a branch, a tag, an id. */
  readonly revision: string;
}

/** A page that shows itself in the editor's colours; or one sentence that says why there is none. */
export type CompareAnswer = { readonly page: string } | { readonly problem: string };
