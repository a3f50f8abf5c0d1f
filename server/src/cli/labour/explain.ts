import { cubesOf } from '../../check/sentences';
import type { Place } from '../../findings/finding';
import type { Amount, Missing, Origin } from '../../labour/amounts';
import { stepLabours } from '../../labour/labour';
import type { StandardTime } from '../../labour/standard-times';
import { type Taken, takenBy } from '../../labour/taken';
import { type ThreePoint, tidyMinutes } from '../../labour/three-point';
import type { BoundOperation, BoundStep, Model } from '../../model/model';
import type { Diagram } from '../../variants/diagram';
import { counted, variantsInWords } from '../words';

/** Some minutes of a step: what for, how they were counted, and where they are written. */
export interface ExplainedMinutes {
  readonly from: 'step' | 'use' | 'standard time' | 'access' | 'waiting' | 'unknown';
  /** `unbolt front-wheel`. */
  readonly what: string;
  readonly time: ThreePoint | null;
  /** `2 min × 2 × 5 bolts`; empty where the minutes stand for themselves. */
  readonly how: string;
  readonly source: { readonly file: string; readonly line: number; readonly entry: string } | null;
  readonly elapsed: number;
  readonly labour: number;
  readonly skill: string | null;
  /** `only with lockers: fitted`; null where the whole step has it. */
  readonly variants: string | null;
  /** The step in which these minutes count, where that is another one. */
  readonly sharedWith: string | null;
}

export interface ExplainedStep {
  readonly path: string;
  readonly id: string | null;
  readonly title: string;
  readonly file: string;
  readonly line: number;
  readonly people: number;
  readonly lowest: number;
  readonly highest: number;
  readonly atLeast: boolean;
  readonly minutes: readonly ExplainedMinutes[];
}

type Locate = (place: Place) => { readonly file: string; readonly line: number };

/**
 * Where every minute of a guide comes from, step by step; a step that no variant has is left out.
 * @param locate the file and line of a place.
 * @param titleOf the words of a step as they are printed.
 */
export function explainedSteps(
  model: Model,
  times: readonly StandardTime[],
  locate: Locate,
  titleOf: (step: BoundStep) => string = ({ title }) => title,
): ExplainedStep[] {
  const labours = new Map(stepLabours(model, times).map((one) => [one.path, one]));
  return takenBy(model, times).flatMap((taken): ExplainedStep[] => {
    const labour = labours.get(taken.step.path);
    if (labour === undefined) return [];
    const { path, lowest, highest, atLeast } = labour;
    const { id, people, place } = taken.step;
    const minutes = minutesOf(model, taken, locate);
    const title = titleOf(taken.step);
    return [{ path, id, title, ...locate(place), people, lowest, highest, atLeast, minutes }];
  });
}

/** The minutes of a step in the variants in which it is done, then what of it is not known. */
function minutesOf(
  model: Model,
  { step, amounts, missing, unknown, uses, timedOutside }: Taken,
  locate: Locate,
): ExplainedMinutes[] {
  const { diagrams } = model.world;
  const within = diagrams.and(step.guard, model.universe);
  const there = ({ set }: { readonly set: Diagram }) => diagrams.intersects(set, within);
  const variantsOf = (set: Diagram) =>
    diagrams.implies(within, set) ? null : variantsInWords(cubesOf({ ...model, universe: within }, set));
  const found = [
    ...amounts.filter(there).map((one) => ({ ...explained(one, locate), variants: variantsOf(one.set) })),
    ...unknownIn(missing.filter(there), variantsOf),
  ];
  if (unknown !== 0 && missing.length === 0) return [...found, { ...NOTHING, what: 'the step itself' }];
  if (found.length > 0) return found;
  if (timedOutside) return [{ ...NOTHING, from: 'use', what: 'in the time of the step that uses it' }];
  return uses ? [{ ...NOTHING, from: 'use', what: 'the steps that it uses follow' }] : [];
}

const NOTHING: ExplainedMinutes = {
  from: 'unknown',
  what: '',
  time: null,
  how: '',
  source: null,
  elapsed: 0,
  labour: 0,
  skill: null,
  variants: null,
  sharedWith: null,
};

function unknownIn(
  missing: readonly Missing[],
  variantsOf: (set: Diagram) => string | null,
): ExplainedMinutes[] {
  return missing.map(({ operation, written, set }) => ({
    ...NOTHING,
    what: wordsOf(operation, written),
    variants: variantsOf(set),
  }));
}

function explained({ elapsed, labour, skill, origin }: Amount, locate: Locate): ExplainedMinutes {
  const spent = { ...NOTHING, elapsed, labour: labour.expected, skill };
  switch (origin.type) {
    case 'own':
      return {
        ...spent,
        from: 'step',
        what: origin.sides === null ? 'its own time' : 'its own time, each side',
        time: figuresIn(origin.time),
        how: product(origin.time, [
          origin.sides === null ? null : counted(origin.sides, 'side'),
          peopleIn(origin),
        ]),
      };
    case 'wait':
      return { ...spent, from: 'waiting', what: waitInWords(origin.operation, elapsed) };
    case 'access': {
      const { access, side, sharedWith, byGuide } = origin;
      const place = side === '' ? access.name : `${access.name} (${side})`;
      return {
        ...spent,
        from: 'access',
        what:
          sharedWith === null
            ? `get to ${place} and close it again`
            : byGuide
              ? `${place}: opened in step ${sharedWith}, which takes it off`
              : `${place}: opened in step ${sharedWith}, counted there`,
        time: figuresIn(access.time),
        how: sharedWith === null ? product(access.time, [peopleIn(origin)]) : '',
        source: { ...locate(access.place), entry: 'access' },
        sharedWith,
      };
    }
    case 'standard': {
      const { operation, written, entry, sides, instances, bolts, holes } = origin;
      const more = sides === 0 ? instances : instances / sides;
      const factors = [
        sides < 2 ? null : counted(sides, 'side'),
        more === 1 ? null : String(more),
        bolts === null || bolts === 1 ? null : counted(bolts, holes ? 'hole' : 'bolt'),
        peopleIn(origin),
      ];
      return {
        ...spent,
        from: 'standard time',
        what: wordsOf(operation, written),
        time: figuresIn(entry.time),
        how: product(entry.time, factors),
        source: { ...locate(entry.place), entry: entryInWords(entry) },
      };
    }
  }
}

const figuresIn = ({ low, likely, high }: ThreePoint): ThreePoint => ({
  low: tidyMinutes(low),
  likely: tidyMinutes(likely),
  high: tidyMinutes(high),
});

const peopleIn = ({ people }: Extract<Origin, { people: number }>): string | null =>
  people === 1 ? null : `${people} people`;

/** `2 min × 2 × 5 bolts`, a three-point time with its three figures. */
function product(time: ThreePoint, factors: readonly (string | null)[]): string {
  const times = factors.filter((factor): factor is string => factor !== null);
  return [timeInWords(time), ...times].join(' × ');
}

function timeInWords({ low, likely, high }: ThreePoint): string {
  return low === high ? printMinutes(likely) : `(${[low, likely, high].map(printMinutes).join(' · ')})`;
}

/** What an entry is for, beside its verb: `wheel, M14x1.5, each bolt`. */
function entryInWords({ kinds, thread, hex, per }: StandardTime): string {
  const words = [kinds.join(' or '), thread ?? '', hex ?? '', per === 'bolt' ? 'each bolt' : ''];
  return words.filter((word) => word !== '').join(', ') || 'any';
}

function wordsOf(operation: BoundOperation, written: string): string {
  const [side] = operation.sides;
  const only = operation.sideSaid && operation.sides.length === 1 && side !== '' ? ` (${side})` : '';
  return `${operation.verb} ${written}${only}`;
}

function waitInWords(operation: BoundOperation, elapsed: number): string {
  if (elapsed === 0) return 'waiting, within its own time';
  const why = operation.words.get('for') ?? operation.qualifiers.get('for');
  return typeof why === 'string' ? `waiting for ${why}, nobody's labour` : "waiting, nobody's labour";
}

/** Minutes as they are read: `12.5 min`, `15 s`. */
export function printMinutes(minutes: number): string {
  return minutes > 0 && minutes < 1
    ? `${Number((minutes * 60).toFixed(0))} s`
    : `${Number(minutes.toFixed(1))} min`;
}
