import type { Place } from '../findings/finding';
import type { Model } from '../model/model';
import type { Diagram } from '../variants/diagram';
import { type Allowance, factorOf, NO_ALLOWANCE } from './allowance';
import type { Amount } from './amounts';
import { type Choice, type Extremes, extremesOf, holdingAt, type Term } from './extremes';
import { addSpreads, type Figures, figuresOf, NO_TIME, scaled } from './spread';
import type { StandardTime } from './standard-times';
import { type Taken, takenBy } from './taken';

/** Minutes over the variants of a guide: the expected ones, and all that is known of them in a variant that takes least, or most. */
export interface Range {
  readonly lowest: number;
  readonly highest: number;
  readonly atLowest: Figures;
  readonly atHighest: Figures;
  /** False where conditions were too entangled: the true figures then lie within these. */
  readonly exact: boolean;
}

export interface SectionLabour extends Range {
  readonly title: string;
  /** Place among the guide's sections, from 1. */
  readonly section: number;
  /** Some step of it has no known time. */
  readonly atLeast: boolean;
}

export interface SkillLabour extends Range {
  /** Null for what nobody is named for. */
  readonly skill: string | null;
  /** Some step for this skill has no known time. */
  readonly atLeast: boolean;
}

/** A step without a known time, in some variant at least. */
export interface UnknownTime {
  readonly place: Place;
  /** Its id, else its path. */
  readonly step: string;
  readonly title: string;
}

export interface Labour {
  readonly uri: string;
  readonly title: string;
  /** Some step has no known time: every total is "at least". */
  readonly atLeast: boolean;
  /** The working time, without what is added to it. */
  readonly total: Range & {
    /** The longest that the job takes on the clock over the variants, waiting included. */
    readonly elapsed: number;
    /** What differs between a variant that takes the lowest and one that takes the highest; empty where all take the same. */
    readonly lowestWith: readonly VariantWord[];
    readonly highestWith: readonly VariantWord[];
  };
  readonly allowance: Allowance;
  /** The working time with the allowance; on the clock the work is longer by it, and waiting is not. */
  readonly quoted: Range & { readonly elapsed: number };
  /** Working time. */
  readonly sections: readonly SectionLabour[];
  /** Working time by who may do it, in the order in which they come; empty where nobody is named anywhere. */
  readonly skills: readonly SkillLabour[];
  readonly unknown: readonly UnknownTime[];
  /** Steps that take somebody's time, as far as it is known, and those of them with a low and a high. */
  readonly timed: number;
  readonly ranged: number;
}

export interface VariantWord {
  readonly name: string;
  readonly value: string;
}

/**
 * What a guide takes, in minutes: labour is time × people, waiting is elapsed time only. Lowest and highest run over
 * every variant the guide covers, optional steps and found branches among them.
 *
 * @param sections titles of the guide's sections in order.
 * @param times standard times for steps that say none, nearest file first.
 * @param allowance what is added to the working time before it is quoted.
 */
export function labourOf(
  model: Model,
  sections: readonly string[],
  times: readonly StandardTime[],
  allowance: Allowance = NO_ALLOWANCE,
): Labour {
  const taken = takenBy(model, times);
  const all = taken.flatMap(({ amounts }) => amounts);
  const total = extremesOf(model.world.diagrams, termsOf(all), model.universe);
  const elapsed = clockOf(model, all, 1);
  const unknown = taken.filter((one) => one.unknown !== 0);
  const unknownIn = new Set(unknown.map(({ section }) => section));
  const factor = factorOf(allowance);
  const [lowestAt, highestAt] = differing(total.lowestAt, total.highestAt);
  const working = rangeOf(model, all, total);
  const timed = taken.filter(({ amounts }) => amounts.some((one) => counts(model, one)));
  return {
    uri: model.uri,
    title: model.title,
    atLeast: unknown.length > 0,
    total: {
      ...working,
      exact: total.exact && elapsed.exact,
      elapsed: elapsed.highest,
      lowestWith: wordsOf(model, lowestAt),
      highestWith: wordsOf(model, highestAt),
    },
    allowance,
    quoted: { ...scaledRange(working, factor), elapsed: clockOf(model, all, factor).highest },
    sections: sections.map((title, index) => ({
      title,
      section: index + 1,
      ...rangeOf(
        model,
        taken.flatMap(({ section, amounts }) => (section === index + 1 ? amounts : [])),
      ),
      atLeast: unknownIn.has(index + 1),
    })),
    skills: skillsOf(model, taken),
    unknown: unknown.map(({ step }) => ({
      place: step.place,
      step: step.id ?? step.path,
      title: step.title,
    })),
    timed: timed.length,
    ranged: timed.filter(({ amounts }) =>
      amounts.some((one) => counts(model, one) && one.labour.most > one.labour.least),
    ).length,
  };
}

/** Every figure of a range with an allowance's factor. */
export function scaledRange({ exact, ...range }: Range, factor: number): Range {
  return {
    lowest: range.lowest * factor,
    highest: range.highest * factor,
    atLowest: scaled(range.atLowest, factor),
    atHighest: scaled(range.atHighest, factor),
    exact,
  };
}

/** What one step takes, in minutes, over the variants in which it is done. */
export interface StepLabour {
  /** As of `BoundStep`. */
  readonly path: string;
  readonly lowest: number;
  readonly highest: number;
  /** The longest on the clock, waiting included. */
  readonly elapsed: number;
  /** Some of its time is not known. */
  readonly atLeast: boolean;
}

/** What every step takes, in the order in which they run. A step that no variant has is left out. */
export function stepLabours(model: Model, times: readonly StandardTime[]): StepLabour[] {
  const { diagrams } = model.world;
  return takenBy(model, times).flatMap(({ step, amounts, unknown }): StepLabour[] => {
    const within = diagrams.and(step.guard, model.universe);
    if (within === 0) return [];
    const labour = extremesOf(diagrams, termsOf(amounts), within);
    const clock = extremesOf(
      diagrams,
      amounts.map(({ set, elapsed }) => ({ set, amount: elapsed, variance: 0 })),
      within,
    );
    const atLeast = diagrams.and(unknown, within) !== 0;
    const { lowest, highest } = labour;
    return [{ path: step.path, lowest, highest, elapsed: clock.highest, atLeast }];
  });
}

/** The hours of each skill. A step whose time is not known counts for whom it, or what stands around it, names. */
function skillsOf(model: Model, taken: readonly Taken[]): SkillLabour[] {
  const bySkill = new Map<string | null, { amounts: Amount[]; atLeast: boolean }>();
  const entryOf = (skill: string | null) => {
    const entry = bySkill.get(skill) ?? { amounts: [], atLeast: false };
    bySkill.set(skill, entry);
    return entry;
  };
  for (const { step, amounts, unknown } of taken) {
    for (const one of amounts) if (counts(model, one)) entryOf(one.skill).amounts.push(one);
    if (unknown !== 0) entryOf(step.skill ?? step.skillAround).atLeast = true;
  }
  if (![...bySkill.keys()].some((skill) => skill !== null)) return [];
  return [...bySkill]
    .sort(([a], [b]) => Number(a === null) - Number(b === null))
    .map(([skill, { amounts, atLeast }]) => ({ skill, ...rangeOf(model, amounts), atLeast }));
}

/** It takes somebody's time in some variant. */
function counts({ world, universe }: Model, { set, labour }: Amount): boolean {
  return labour.most > 0 && world.diagrams.intersects(set, universe);
}

function termsOf(amounts: readonly Amount[]): Term[] {
  return amounts.map(({ set, labour }) => ({ set, amount: labour.expected, variance: labour.variance }));
}

/** On the clock: what is worked with a factor, what is waited as it is. */
function clockOf(model: Model, amounts: readonly Amount[], factor: number): Extremes {
  const terms = amounts.map(({ set, elapsed, origin }) => ({
    set,
    amount: origin.type === 'wait' ? elapsed : elapsed * factor,
    variance: 0,
  }));
  return extremesOf(model.world.diagrams, terms, model.universe as Diagram);
}

function rangeOf(
  model: Model,
  amounts: readonly Amount[],
  extremes = extremesOf(model.world.diagrams, termsOf(amounts), model.universe),
): Range {
  const sets = amounts.map(({ set }) => set);
  const at = (end: 'lowest' | 'highest'): Figures => {
    const holds = holdingAt(model.world.diagrams, sets, model.universe, extremes, end);
    return figuresOf(
      amounts.reduce((sum, { labour }, index) => (holds[index] ? addSpreads(sum, labour) : sum), NO_TIME),
    );
  };
  const { lowest, highest, exact } = extremes;
  return { lowest, highest, atLowest: at('lowest'), atHighest: at('highest'), exact };
}

/** The choices at levels where two variants differ, in their order. */
function differing(a: Choice, b: Choice): [Choice, Choice] {
  const valueIn = (choice: Choice, level: number) => choice.find((one) => one.level === level)?.value;
  return [
    a.filter(({ level, value }) => valueIn(b, level) !== value),
    b.filter(({ level, value }) => valueIn(a, level) !== value),
  ];
}

function wordsOf(model: Model, choice: Choice): VariantWord[] {
  return choice.map(({ level, value }) => {
    const variable = model.world.variableAt(level);
    return { name: variable.name, value: variable.values[value]! };
  });
}
