/** A version of a guide as a comparison sees it: plain data, with names that hold in other versions too. */

import type { Place } from '../findings/finding';
import type { BoundTime } from '../model/model';
import type { Quantity } from '../units/quantity';
import type { Variants } from './variants-told';

export interface GuideAccount {
  readonly title: string;
  readonly place: Place;
  /** What the head of the guide says, by key, each with where it stands. */
  readonly head: ReadonlyMap<string, Said>;
  /** What each trait or option may be, in words. */
  readonly covers: ReadonlyMap<string, CoverAccount>;
  readonly sections: readonly SectionAccount[];
  /** In the order in which they run, those of used sections among them. */
  readonly steps: readonly StepAccount[];
}

export interface Said {
  /** Alike for all ways to write it. */
  readonly key: string;
  readonly shown: string;
  readonly place: Place;
}

export interface CoverAccount {
  readonly values: readonly string[];
  /** Where the guide says it; where it says nothing, its head. */
  readonly place: Place;
  readonly key: string;
}

export interface SectionAccount {
  /** From 1, as written. */
  readonly number: number;
  readonly title: string;
  readonly id: string | null;
  readonly condition: ConditionAccount;
  readonly side: string;
  readonly skill: string | null;
  readonly note: string | null;
  readonly place: Place;
}

/** A `when:` as it is written, and what it comes to with all that stands around it. */
export interface ConditionAccount {
  /** Alike for all ways to write it; empty where nothing is written. */
  readonly written: string;
  readonly shown: string;
  readonly variants: Variants;
}

export interface CautionAccount {
  readonly signal: string;
  readonly text: string;
  /** Rules that it says it answers. */
  readonly covers: readonly string[];
  readonly place: Place;
}

export interface StepAccount {
  /** Its id, with the uses that brought it in; null where it has none. */
  readonly key: string | null;
  readonly id: string | null;
  /** The number it has in print. */
  readonly number: string;
  /** The number of its section. */
  readonly section: number;
  readonly path: string;
  readonly place: Place;
  /** As written, with its braces; empty where its operations are printed. */
  readonly text: string;
  /** As printed. */
  readonly title: string;
  readonly operations: readonly OperationAccount[];
  readonly cautions: readonly CautionAccount[];
  readonly condition: ConditionAccount;
  readonly side: string;
  /** The sides that are left of it. */
  readonly sides: string;
  readonly people: number;
  readonly time: BoundTime | null;
  readonly optional: boolean;
  readonly draft: boolean;
  /** Keys that are lists or words beside all this, by key: tools, skill, note, figure. */
  readonly beside: ReadonlyMap<string, Said>;
}

/** One verb on one thing. */
export interface OperationAccount {
  readonly verb: string;
  /** As its file calls it: `front-shock.lower-bolt`. */
  readonly item: string;
  /** In the words of the trade, with all it says. */
  readonly words: string;
  readonly side: string;
  readonly sides: string;
  readonly condition: ConditionAccount;
  /** `with:`, where it names aids or things. */
  readonly aids: readonly string[];
  readonly figures: FigureAccount | null;
  /** What else it says, by key. */
  readonly qualifiers: ReadonlyMap<string, Said>;
  readonly place: Place;
  /** The written operation it is part of. */
  readonly path: string;
  /** What may hurt where this is wrong. */
  readonly weight: Weight;
}

/** The torque that an operation says. */
export interface FigureAccount {
  readonly key: string;
  /** In both units, by variant. */
  readonly shown: string;
  /** The one figure, where it is one and is a figure. */
  readonly only: Quantity | null;
}

export interface Weight {
  /** It holds up, holds back, or makes safe. */
  readonly holds: boolean;
  /** What it leaves right is not seen again: a final torque, a bleed, a check. */
  readonly secures: boolean;
  /** It lifts or lets down. */
  readonly lifts: boolean;
  /** It works on a joint or a part that the vehicle's life hangs on: structure, suspension, steering, brakes, wheels. */
  readonly vital: boolean;
}

/** `step 3.7 "front-axle-carried"`, or by its first words. */
export function nameOfStep({ number, id, title }: StepAccount): string {
  return id === null ? `step ${number} ("${shortened(title)}")` : `step ${number} "${id}"`;
}

const MOST_SHOWN = 48;

/** The beginning of a text, parted between words. */
export function shortened(text: string, most = MOST_SHOWN): string {
  const line = text.trim().split(/\s+/).join(' ');
  if (line.length <= most) return line;
  const cut = line.lastIndexOf(' ', most);
  return `${line.slice(0, cut > most / 2 ? cut : most).replace(/[,.;:]$/, '')}…`;
}
