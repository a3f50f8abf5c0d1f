import type { Place } from '../findings/finding';
import type { BoundStep, Model } from '../model/model';
import type { Diagram } from '../variants/diagram';
import { type Amount, amountsOf, type StepRun } from './amounts';
import { type Choice, type Extremes, extremesOf, type Term } from './extremes';
import type { StandardTime } from './standard-times';

/** Minutes over the variants of a guide. `deviation` is the standard deviation at the highest. */
export interface Range {
  readonly lowest: number;
  readonly highest: number;
  readonly deviation: number;
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
  readonly total: Range & {
    /** The longest that the job takes on the clock over the variants, waiting included. */
    readonly elapsed: number;
    /** What differs between a variant that takes the lowest and one that takes the highest; empty where all take the same. */
    readonly lowestWith: readonly VariantWord[];
    readonly highestWith: readonly VariantWord[];
  };
  readonly sections: readonly SectionLabour[];
  readonly unknown: readonly UnknownTime[];
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
 */
export function labourOf(model: Model, sections: readonly string[], times: readonly StandardTime[]): Labour {
  const amounts = new Map<number, Amount[]>();
  const unknownIn = new Set<number>();
  const unknown: UnknownTime[] = [];
  for (const run of runsOf(model)) {
    const step = run.stretches[0]!;
    const section = sectionOf(step.path);
    const { amounts: own, unknown: notKnown } = amountsOf(model, run, times);
    amounts.set(section, [...(amounts.get(section) ?? []), ...own]);
    if (notKnown === 0) continue;
    unknownIn.add(section);
    unknown.push({ place: step.place, step: step.id ?? step.path, title: step.title });
  }
  const all = [...amounts.values()].flat();
  const total = labourRange(model, all);
  const elapsed = extremesOf(
    model.world.diagrams,
    all.map((amount) => ({ set: amount.set, amount: amount.elapsed, variance: 0 })),
    model.universe,
  );
  const [lowestAt, highestAt] = differing(total.lowestAt, total.highestAt);
  return {
    uri: model.uri,
    title: model.title,
    atLeast: unknown.length > 0,
    total: {
      ...rangeOf(total),
      exact: total.exact && elapsed.exact,
      elapsed: elapsed.highest,
      lowestWith: wordsOf(model, lowestAt),
      highestWith: wordsOf(model, highestAt),
    },
    sections: sections.map((title, index) => ({
      title,
      section: index + 1,
      ...rangeOf(labourRange(model, amounts.get(index + 1) ?? [])),
      atLeast: unknownIn.has(index + 1),
    })),
    unknown,
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
  return runsOf(model).flatMap((run): StepLabour[] => {
    const { path, guard } = run.stretches[0]!;
    const within = diagrams.and(guard, model.universe);
    if (within === 0) return [];
    const { amounts, unknown } = amountsOf(model, run, times);
    const labour = extremesOf(
      diagrams,
      amounts.map(({ set, labour, variance }) => ({ set, amount: labour, variance })),
      within,
    );
    const clock = extremesOf(
      diagrams,
      amounts.map(({ set, elapsed }) => ({ set, amount: elapsed, variance: 0 })),
      within,
    );
    const atLeast = diagrams.and(unknown, within) !== 0;
    return [{ path, lowest: labour.lowest, highest: labour.highest, elapsed: clock.highest, atLeast }];
  });
}

/** The steps as they run, each once: a `use` parts a step into stretches and takes in steps of another section. */
function runsOf(model: Model): StepRun[] {
  const stretches = new Map<string, BoundStep[]>();
  const using = new Set<string>();
  for (const step of model.steps) {
    const known = stretches.get(step.path);
    if (known === undefined) stretches.set(step.path, [step]);
    else known.push(step);
    for (const outer of outerSteps(step.path)) using.add(outer);
  }
  return [...stretches].map(([path, own]) => ({
    stretches: own,
    uses: using.has(path),
    timedOutside: outerSteps(path).some((outer) => (stretches.get(outer)?.[0]?.time ?? null) !== null),
  }));
}

/** The steps whose `use` takes in the step of a path: of `1.2.3/4.5.6/7.8` these are `1.2` and `1.2.3/4.5`. */
function outerSteps(path: string): string[] {
  const outer: string[] = [];
  for (let slash = path.indexOf('/'); slash >= 0; slash = path.indexOf('/', slash + 1)) {
    outer.push(path.slice(0, path.lastIndexOf('.', slash)));
  }
  return outer;
}

/** A step's section, from 1: a path begins with it, also inside a `use`. */
function sectionOf(path: string): number {
  return Number.parseInt(path, 10);
}

function labourRange(model: Model, amounts: readonly Amount[]): Extremes {
  const terms: Term[] = amounts.map(({ set, labour, variance }) => ({ set, amount: labour, variance }));
  return extremesOf(model.world.diagrams, terms, model.universe as Diagram);
}

function rangeOf(extremes: Extremes): Range {
  const { lowest, highest, varianceAtHighest, exact } = extremes;
  return { lowest, highest, deviation: Math.sqrt(varianceAtHighest), exact };
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
