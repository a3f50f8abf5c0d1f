import type { BoundStep, Model } from '../model/model';
import { Accesses } from './accesses';
import { amountsOf, type StepAmounts, type StepRun } from './amounts';
import type { StandardTime } from './standard-times';

/** A step with what it takes. */
export interface Taken extends StepAmounts {
  readonly step: BoundStep;
  /** Of the guide, from 1: also for a step that came in by `use`. */
  readonly section: number;
  /** It takes in steps of another section, which follow it. */
  readonly uses: boolean;
  /** The step that uses it says a time, which is for all of it. */
  readonly timedOutside: boolean;
}

/** What every step takes, in the order in which they run, each once. */
export function takenBy(model: Model, times: readonly StandardTime[]): Taken[] {
  const accesses = new Accesses(model);
  return runsOf(model).map((run) => {
    const step = run.stretches[0]!;
    const section = sectionOf(step.path);
    const { uses, timedOutside } = run;
    return { step, section, uses, timedOutside, ...amountsOf(model, run, times, accesses) };
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
    inner: using.has(path) ? model.steps.filter((step) => outerSteps(step.path).includes(path)) : [],
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
