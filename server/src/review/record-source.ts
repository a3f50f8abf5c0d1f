/** What a check record is made from: all of it handed in. */

import type { Asked } from '../check/asked';
import type { GuideCheck } from '../check/check';
import type { WaivedFinding } from '../check/waivers';
import type { Finding, Place } from '../findings/finding';
import type { PrintedGuide } from '../guide/printed';
import type { Model } from '../model/model';
import type { Rulebook } from '../rules/rulebook';
import type { RawFinding } from '../simulate/simulation';
import type { RecordFile, RecordPack } from './record';

export interface RecordSource {
  /** The guide bound, for the variants that the record is of. */
  readonly model: Model;
  readonly printed: PrintedGuide;
  readonly rulebook: Rulebook;
  readonly asked: ReadonlyMap<string, Asked>;
  /** What cautions cover. */
  readonly covered: readonly RawFinding[];
  /** All that is open, in the guide and in what it leads to. */
  readonly findings: readonly Finding[];
  readonly waived: readonly WaivedFinding[];
  readonly coverage: GuideCheck['coverage'];
  readonly files: readonly RecordFile[];
  readonly packs: readonly RecordPack[];
  readonly asOf: string;
  readonly version: string;
  /** Whether a rule's pack is the house's own. */
  isHouses(rule: string): boolean;
  /** `lift.install.yaml:12`. */
  lineOf(place: Place): string;
}
