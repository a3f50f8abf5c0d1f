/** One version of a guide with all that a comparison reads of it. */

import type { Coverage } from '../check/check';
import type { TraceOpen } from '../check/trace';
import type { WaivedFinding } from '../check/waivers';
import type { Finding } from '../findings/finding';
import type { Labour } from '../labour/labour';
import type { Model } from '../model/model';
import type { OpenDocument } from '../schema/document';

export interface Version {
  readonly model: Model;
  /** A document that the guide leads to, as the schema sees it; null where there is none. */
  readonly opened: (uri: string) => OpenDocument | null;
  /** Of the check, and of reading and structure of the documents that the guide leads to. */
  readonly findings: readonly Finding[];
  readonly waived: readonly WaivedFinding[];
  readonly coverage: Coverage;
  /** What is open after the last step. */
  readonly open: readonly TraceOpen[];
  readonly labour: Labour;
  /** Hours to which printed totals are rounded up. */
  readonly hourStep: number;
}
