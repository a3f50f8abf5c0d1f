/** What the preview and the status bar are told: plain data, all words already made. */

import type { Range } from 'vscode-languageserver/lib/common/api.js';
import type { OpenSort } from '../check/stretches';
import type { Severity } from '../findings/finding';
import type { Hours } from '../guide/hours';
import type { Words } from '../guide/text-in-words';

export type { Words };

/** Asked of nothing in particular: checks everything afresh. */
export const CHECK_REQUEST = 'kitproof/checkWorkspace';

export interface CheckedView {
  readonly documents: number;
  readonly findings: Readonly<Record<Severity, number>>;
}

/** Asked of nothing in particular: the guides that are checked. */
export const OVERVIEW_REQUEST = 'kitproof/overview';

export interface OverviewView {
  readonly guides: readonly {
    readonly uri: string;
    readonly title: string;
    readonly findings: Readonly<Record<Severity, number>>;
  }[];
}

/** Asked of a guide by its uri; null where it is none, or is not known yet. */
export const GUIDE_REQUEST = 'kitproof/guide';
export const LABOUR_REQUEST = 'kitproof/labour';
/** What is open beside the steps; it takes longer than the guide, which is shown without waiting for it. */
export const LEDGER_REQUEST = 'kitproof/ledger';

export interface UriParams {
  readonly uri: string;
}

/** Of a guide, for the variants that have what is chosen: trait or option to value. */
export interface VariantParams extends UriParams {
  readonly variant?: Readonly<Record<string, string>>;
}

export type LabourView = Hours;

export interface FindingView {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  /** `only with lockers: fitted`; null for all variants. */
  readonly variants: string | null;
  readonly uri: string;
  readonly range: Range;
}

/** What is accepted, and by whom: never silently. */
export interface WaiverView {
  readonly rule: string;
  readonly because: string;
  readonly by: string;
  readonly until: string;
}

export interface CautionView {
  readonly signal: string;
  readonly text: readonly Words[];
}

export interface StepView {
  /** `2.3`; with a `/` where another guide's or section's step is used. */
  readonly path: string;
  readonly id: string | null;
  readonly text: readonly Words[];
  /** `lockers: fitted`; null where it is done in every variant. */
  readonly when: string | null;
  readonly optional: boolean;
  readonly draft: boolean;
  readonly people: number;
  readonly cautions: readonly CautionView[];
  /** Each in the trade's words: `support front-axle with pole-jacks`. Empty where the text is these words. */
  readonly operations: readonly string[];
  /** Minutes of people's time; null where nothing is known. */
  readonly labour: { readonly lowest: number; readonly highest: number; readonly atLeast: boolean } | null;
  /** Minutes of people's time from the start to the end of this step, over the variants. */
  readonly running: { readonly lowest: number; readonly highest: number };
  readonly findings: readonly FindingView[];
  /** At the step and at its operations. */
  readonly waivers: readonly WaiverView[];
  readonly uri: string;
  readonly range: Range;
}

export interface SectionView {
  readonly title: string;
  readonly lowest: number;
  readonly highest: number;
  readonly atLeast: boolean;
  readonly steps: readonly StepView[];
  readonly range: Range;
}

/** One thing, or several that go together, open from one step to another. */
export interface LedgerLine {
  readonly sort: OpenSort;
  /** `front-wheel, rear-wheel: off`. */
  readonly label: string;
  /** Path of the step that opens it; null where it was so before the first. */
  readonly opened: string | null;
  /** Path of the step that closes it; null where it is open at the end. */
  readonly closed: string | null;
  /** `only with lockers: fitted`; null for all variants. */
  readonly variants: string | null;
}

export interface LedgerView {
  readonly uri: string;
  readonly lines: readonly LedgerLine[];
  /** How many things are open after a step, by path; a step with none is left out. */
  readonly open: Readonly<Record<string, number>>;
}

export interface GuideView {
  readonly uri: string;
  readonly title: string;
  readonly revision: string | null;
  /** The names of its vehicle and kits, as their documents say them. */
  readonly fits: readonly string[];
  /** What it covers: `lockers: none or fitted`; a numeric trait of which nothing is left out is `any`. */
  readonly covers: readonly { readonly name: string; readonly values: readonly string[] }[];
  /** Traits and options of which one value may be chosen, and what was. */
  readonly choices: readonly { readonly name: string; readonly values: readonly string[] }[];
  readonly chosen: Readonly<Record<string, string>>;
  readonly steps: number;
  readonly checkedSteps: number;
  /** How many waivers stand in it, those of sections from elsewhere too. */
  readonly waivers: number;
  readonly findings: Readonly<Record<Severity, number>>;
  readonly labour: LabourView;
  readonly sections: readonly SectionView[];
  /** Findings that stand at no step. */
  readonly elsewhere: readonly FindingView[];
}
