/** The guide as it goes into the box: plain data with all words made, for every form it is printed in. */

import type { Severity } from '../findings/finding';
import type { Hours } from './hours';
import type { Table } from './table';
import type { Words } from './text-in-words';

/** The signal words of ANSI Z535.6, the gravest first. */
export const SIGNALS = ['danger', 'warning', 'caution', 'notice'] as const;
export type Signal = (typeof SIGNALS)[number];

export interface PrintedCaution {
  readonly signal: Signal;
  readonly text: readonly Words[];
}

export interface PrintedFigure {
  /** What the file is known by, and its path as it is written. */
  readonly name: string;
  readonly file: string;
  readonly caption: string | null;
  readonly alt: string | null;
}

/** What stands beside a step, to be found at a glance. */
export interface Callout {
  /** A torque now; one that comes later, in another step; the size of a tool or drill; what becomes of a part. */
  readonly sort: 'torque' | 'later' | 'size' | 'fate';
  readonly label: string;
  /** `90 N·m`, the figure that is printed large. */
  readonly figure: string | null;
  /** `66 lbf·ft`, `then 90°`, `4 bolts, star pattern`. */
  readonly details: readonly string[];
  /** `lockers: fitted`; null where the step's own mark says all. */
  readonly when: string | null;
}

export interface PrintedStep {
  readonly path: string;
  readonly number: string;
  readonly id: string | null;
  readonly text: readonly Words[];
  /** `left and right`; null for what has no sides. */
  readonly sides: string | null;
  /** `lockers: fitted`; null where it is done in every variant printed. */
  readonly when: string | null;
  readonly optional: boolean;
  readonly draft: boolean;
  readonly people: number;
  readonly skill: string | null;
  readonly cautions: readonly PrintedCaution[];
  readonly figures: readonly PrintedFigure[];
  readonly callouts: readonly Callout[];
}

export interface PrintedSection {
  readonly number: number;
  readonly title: string;
  /** `46 min · two people for step 3.7 · 13 mm, 18 mm`. */
  readonly about: readonly string[];
  readonly steps: readonly PrintedStep[];
}

export interface PrintedGuide {
  readonly title: string;
  readonly revision: string | null;
  /** Of the revision, as written. */
  readonly date: string | null;
  /** The names of vehicle and kits. */
  readonly vehicle: string | null;
  readonly kits: readonly string[];
  /** What it is for: trait or option with its values. */
  readonly covers: readonly { readonly name: string; readonly values: readonly string[] }[];
  /** The one variant that it was printed for; empty for all. */
  readonly variant: readonly { readonly name: string; readonly value: string }[];
  /** `The vehicle stands on the lift.`: how it starts where that is not as the vehicle arrives. */
  readonly starts: readonly string[];
  readonly signals: readonly Signal[];
  readonly skills: readonly string[];
  readonly mostPeople: number;
  readonly sections: readonly PrintedSection[];
  readonly lists: GuideLists;
  readonly settings: readonly Table[];
  /** The torques once more, those that wait for ride height apart. */
  readonly torques: { readonly anywhere: Table; readonly rideHeight: Table };
  readonly beforeDriving: Table;
  readonly handover: Table;
  /** What it leaves undone on purpose. */
  readonly leaves: readonly string[];
  readonly hours: Hours;
  readonly hoursTable: Table;
  readonly cover: PrintedCover;
}

/** The lists that can be had alone. */
export interface GuideLists {
  readonly parts: Table;
  readonly hardware: Table;
  readonly tools: Table;
  readonly consumables: Table;
  readonly torque: Table;
  readonly checks: Table;
}

/** What was checked of the guide, and what was not. */
export interface PrintedCover {
  readonly findings: Readonly<Record<Severity, number>>;
  readonly steps: number;
  readonly checkedSteps: number;
  /** Numbers of the steps that were not checked, or not all of them. */
  readonly unchecked: readonly string[];
  readonly drafts: readonly string[];
  /** What is accepted by name, each with the step that it stands at: `torque-differs in step 3.7, by A. Fitter until 2027-01-31`. */
  readonly waivers: readonly string[];
  readonly waived: number;
  /** What a rule could not decide, counted by the property that is missing: `mass of 3 parts`. */
  readonly undecided: readonly { readonly property: string; readonly items: readonly string[] }[];
}
