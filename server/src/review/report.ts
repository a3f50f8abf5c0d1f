/** A comparison as it is printed: places as file and line, guides that came and went beside those that changed. */

import type { Change } from './change';
import type { Effects } from './effects';

export interface Spot {
  readonly file: string;
  /** From 1. */
  readonly line: number;
}

export type ReportedChange = Omit<Change, 'before' | 'after'> & {
  readonly before: Spot | null;
  readonly after: Spot | null;
};

/** One guide of both versions. */
export interface ComparedGuide {
  readonly title: string;
  /** As seen from the folder that was asked from. */
  readonly before: string;
  readonly after: string;
  readonly changes: readonly ReportedChange[];
  readonly effects: Effects;
  /** How many things changed in the vehicle's data that are nothing to this guide. */
  readonly untouched: number;
  /** What could not be compared, in sentences: mistakes of reading in one of them. */
  readonly notes: readonly string[];
}

/** A guide that only one version has. */
export interface LoneGuide {
  readonly title: string;
  readonly file: string;
  readonly steps: number;
  readonly errors: number;
  readonly warnings: number;
}

export interface ComparisonReport {
  /** What the versions are called: `main`, `HEAD`, `the files as they are`, a file. */
  readonly before: string;
  readonly after: string;
  readonly guides: readonly ComparedGuide[];
  readonly added: readonly LoneGuide[];
  readonly removed: readonly LoneGuide[];
  /** Guides that were looked at and are the same in meaning. */
  readonly unchanged: number;
}
