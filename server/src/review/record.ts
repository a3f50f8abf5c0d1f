/** The check record of one guide: plain data with all words made, for every form it is printed in. It certifies nothing. */

import type { Harm, Severity } from '../findings/finding';

export const HARMS: readonly Harm[] = ['injury', 'damage', 'rework', 'paperwork'];

/** What came of a duty: `held` where it was asked and nothing was found. A duty may have several results beside it. */
export type Result = 'held' | 'open' | 'covered' | 'waived' | 'undecided';

/** A rule in force that was asked in this guide, and what came of it. */
export interface Duty {
  readonly rule: string;
  /** `Support axle before shock removal`. */
  readonly duty: string;
  readonly reason: string;
  readonly harm: Harm;
  /** Of the house's own pack, or of the standard house rules that it has chosen. */
  readonly house: boolean;
  /** How often it was asked, once for an item on one side at one operation; null for what is told of the writing as a whole. */
  readonly asked: number | null;
  /** In how many steps. */
  readonly steps: number;
  /** `lockers: fitted`; null where it was asked in all variants of the record. */
  readonly variants: string | null;
  readonly results: readonly Result[];
  /** The results in words: `2 open, steps 3.4 and 5.1`. */
  readonly said: string;
}

/** Something found, and where: the number of a step, or a file and a line. */
export interface Told {
  readonly rule: string;
  readonly harm: Harm | null;
  readonly severity: Severity;
  readonly where: string;
  /** Where it is written, `lift.install.yaml:12`. */
  readonly place: string;
  readonly message: string;
  /** `lockers: fitted`; null for all that the record covers. */
  readonly variants: string | null;
}

export interface WaivedTold extends Told {
  readonly by: string;
  readonly because: string;
  readonly until: string | null;
  /** Where the waiver itself is written, `lift.install.yaml:12`. */
  readonly written: string;
}

/** What a caution of a step stands in for, by its own word. */
export interface CoveredTold {
  readonly rule: string;
  readonly where: string;
  readonly items: readonly string[];
}

/** What could not be decided: what to write so that it can, for which things, and what of it hangs. */
export interface UndecidedTold {
  readonly property: string;
  readonly items: readonly string[];
  readonly rules: readonly string[];
  readonly said: string;
}

export interface RecordFile {
  readonly file: string;
  readonly kind: string;
  /** The first hexadecimal digits of the SHA-256 of its text. */
  readonly hash: string;
}

export interface RecordPack {
  readonly pack: string;
  /** Null for a standard one. */
  readonly file: string | null;
  readonly rules: number;
  readonly on: number;
}

/** What only a person can judge, under one heading. */
export interface Judgement {
  readonly about: string;
  readonly items: readonly { readonly step: string | null; readonly what: string }[];
}

export interface CheckRecord {
  readonly title: string;
  readonly revision: string | null;
  readonly date: string | null;
  readonly vehicle: string | null;
  readonly kits: readonly string[];
  readonly covers: readonly { readonly name: string; readonly values: readonly string[] }[];
  /** The variant that it is of alone; empty for all that the guide covers. */
  readonly variant: readonly { readonly name: string; readonly value: string }[];
  /** The day that waivers were held against. */
  readonly asOf: string;
  readonly version: string;
  readonly files: readonly RecordFile[];
  readonly packs: readonly RecordPack[];
  readonly steps: { readonly all: number; readonly checked: number };
  /** In the order of their harm, what is not in order first, then as their packs have them. */
  readonly duties: readonly Duty[];
  /** Rules in force that nothing in the guide is about, by harm. */
  readonly neverAsked: readonly { readonly harm: Harm; readonly rules: readonly string[] }[];
  /** Rules in force on the writing as a whole, with nothing found. */
  readonly reading: readonly string[];
  /** Rules that are on by themselves and that the house switched off. */
  readonly off: readonly { readonly rule: string; readonly harm: Harm }[];
  /** How many standard rules are a house's to choose, and were not chosen. */
  readonly notChosen: number;
  readonly open: readonly Told[];
  readonly waived: readonly WaivedTold[];
  readonly covered: readonly CoveredTold[];
  readonly undecided: readonly UndecidedTold[];
  readonly unchecked: readonly { readonly step: string; readonly why: string }[];
  readonly drafts: readonly string[];
  readonly assumptions: readonly string[];
  readonly judging: readonly Judgement[];
}

/** At the head of a record and at the foot of every page of it. */
export const CERTIFIES_NOTHING =
  "This record says what a program read and asked. It certifies nothing: the vehicle maker's data, local rules and qualified people come first.";

/** `Support axle before shock removal`, from the id of a rule. */
export const dutyInWords = (rule: string): string => {
  const words = rule.replaceAll('-', ' ').replaceAll(/\b(abs)\b/g, 'ABS');
  return words.charAt(0).toUpperCase() + words.slice(1);
};
