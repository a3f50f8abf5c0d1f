import type { BoundOperation, BoundStep, Joint, Model, Side, Target, Thing } from '../model/model';
import type { Diagram } from '../variants/diagram';
import type { Accesses } from './accesses';
import { NO_TIME, type Spread } from './spread';
import { type Access, matchTime, minutesOf, type StandardTime } from './standard-times';
import { expectedOf, type ThreePoint, varianceOf } from './three-point';

/** Minutes that are spent in the variants of a set: on the clock, and of people's time. */
export interface Amount {
  readonly set: Diagram;
  readonly elapsed: number;
  readonly labour: Spread;
  /** Whose time it is; null where nobody is named. */
  readonly skill: string | null;
  readonly origin: Origin;
}

/** Where minutes come from. `people` is how many the time of one is multiplied by. */
export type Origin =
  | {
      readonly type: 'own';
      readonly time: ThreePoint;
      readonly sides: number | null;
      readonly people: number;
    }
  | {
      readonly type: 'standard';
      readonly operation: BoundOperation;
      readonly written: string;
      readonly entry: StandardTime;
      /** How many sides; sides times places times passes; and bolts, where the entry is for each. */
      readonly sides: number;
      readonly instances: number;
      readonly bolts: number | null;
      /** What is counted as bolts are holes. */
      readonly holes: boolean;
      readonly people: number;
    }
  | { readonly type: 'wait'; readonly operation: BoundOperation }
  | {
      readonly type: 'access';
      readonly access: Access;
      readonly side: Side;
      readonly people: number;
      /** The step that opened it and in which it counts; null where it counts here. */
      readonly sharedWith: string | null;
      readonly byGuide: boolean;
    };

/** An operation on something for which no time is known. */
export interface Missing {
  readonly set: Diagram;
  readonly operation: BoundOperation;
  readonly written: string;
}

/** What one step takes. */
export interface StepAmounts {
  readonly amounts: readonly Amount[];
  /** The variants in which some of its time is not known. */
  readonly unknown: Diagram;
  readonly missing: readonly Missing[];
}

/** Verbs that, said of a part, act on each of its joints. */
const JOINT_VERBS = new Set(['loosen', 'start', 'snug', 'torque']);
/** Verbs that act on a part by way of all its joints. */
const WHOLE_VERBS = new Set(['unbolt', 'bolt-up']);

/** A step as it runs: one stretch, or several where it is parted by a `use` or repeated with one. */
export interface StepRun {
  readonly stretches: readonly BoundStep[];
  /** It takes in steps of another section, which have amounts of their own. */
  readonly uses: boolean;
  /** It is taken in by a step that says its own time, which is for all of it. */
  readonly timedOutside: boolean;
  /** The stretches of the steps that it takes in, and of those that they do. */
  readonly inner: readonly BoundStep[];
}

/**
 * What a step takes, by variant: its own time where it says one, else its operations by standard times, with what it
 * takes to get there. Waiting is elapsed time, nobody's labour. The time that a step says itself has its access in it, and
 * its waiting where it is as long as that.
 *
 * @param accesses what the steps before have got to; it goes on with this step.
 */
export function amountsOf(
  model: Model,
  run: StepRun,
  times: readonly StandardTime[],
  accesses: Accesses,
): StepAmounts {
  const { diagrams } = model.world;
  const { time, people, guard, path, skill, skillAround } = run.stretches[0]!;
  const summed = time === null && !run.timedOutside;
  const amounts: Amount[] = [];
  const missing: Missing[] = [];
  const done: Diagram[] = [];
  const shared = new Set<string>();
  let unknown: Diagram = 0;
  for (const step of run.stretches) {
    for (const operation of step.operations) {
      const use = usesOf(model, step, operation);
      done.push(use.set);
      if (operation.verb === 'wait') {
        if (summed) amounts.push(waiting(step, operation));
        continue;
      }
      for (const item of use.items) {
        const entry = matchTime(times, operation.verb, item.kinds, item.joints);
        if (entry?.access) {
          for (const need of accesses.need(entry.access, item.set, item.sides, path)) {
            const { set, side, sharedWith, byGuide } = need;
            // A step shares with itself; and of what it shares with another it is told once.
            const once = `${sharedWith} ${entry.access.name} ${side} ${set}`;
            if (!summed || sharedWith === path || (sharedWith !== null && shared.has(once))) continue;
            shared.add(once);
            const origin: Origin = {
              type: 'access',
              access: entry.access,
              side,
              people,
              sharedWith,
              byGuide,
            };
            const spent = amount(set, entry.access.time, sharedWith === null ? 1 : 0, people, origin);
            amounts.push({ ...spent, skill: skill ?? entry.skill ?? skillAround });
          }
        }
        if (item.whole !== null) accesses.follow(operation, item.whole, item.set, item.sides, path);
        if (!summed) continue;
        if (entry === null) {
          unknown = diagrams.or(unknown, item.set);
          missing.push({ set: item.set, operation, written: item.written });
          continue;
        }
        amounts.push({
          ...standardAmount(entry, operation, item, people),
          skill: skill ?? entry.skill ?? skillAround,
        });
      }
    }
  }
  const bare = !run.uses && run.stretches.every((step) => step.operations.length === 0);
  if (time !== null && !run.timedOutside) {
    // A step none of whose operations a variant has is not done there.
    const set = bare || run.uses ? guard : diagrams.and(guard, union(model, done));
    const sides = time.eachSide ? sidesWorkedOn(run.stretches) : null;
    const origin: Origin = { type: 'own', time, sides, people };
    const own = amount(set, time, sides ?? 1, people, origin);
    const waits = [...run.stretches, ...run.inner].flatMap((step) =>
      step.operations.filter(({ verb }) => verb === 'wait').map((operation) => waiting(step, operation)),
    );
    amounts.push(...beside(model, own, waits), { ...own, skill: skill ?? skillAround });
  } else if (summed && (bare || run.stretches.some((step) => step.lost || step.timeLost))) {
    // Nothing to add up, or something of it could not be read.
    unknown = guard;
  }
  return { amounts, unknown: diagrams.and(unknown, model.universe), missing };
}

function waiting(step: BoundStep, operation: BoundOperation): Amount {
  const elapsed = (waitOf(operation) ?? 0) * passesOf(step, operation);
  return { set: operation.guard, elapsed, labour: NO_TIME, skill: null, origin: { type: 'wait', operation } };
}

/** What is waited in a step beside the time that it says for all of it. A time that is as long as a wait has it within; a shorter one cannot have. */
function beside(
  { world: { diagrams } }: Model,
  own: Omit<Amount, 'skill'>,
  waits: readonly Amount[],
): Amount[] {
  let within = [{ set: own.set, left: own.elapsed }];
  return waits.flatMap((wait) => {
    const told: Amount[] = [];
    const outside = diagrams.minus(wait.set, own.set);
    if (outside !== 0) told.push({ ...wait, set: outside });
    within = within.flatMap(({ set, left }) => {
      const both = diagrams.and(set, wait.set);
      if (both === 0) return [{ set, left }];
      const holds = left >= wait.elapsed;
      told.push({ ...wait, set: both, elapsed: holds ? 0 : wait.elapsed });
      const rest = diagrams.minus(set, both);
      const after = { set: both, left: holds ? left - wait.elapsed : left };
      return rest === 0 ? [after] : [after, { set: rest, left }];
    });
    return told;
  });
}

/** One item that an operation acts on, in the variants of `set`, `instances` times with `bolts` each. */
interface Use {
  readonly set: Diagram;
  readonly kinds: readonly string[];
  readonly joints: readonly Joint[];
  readonly instances: number;
  readonly bolts: number;
  readonly holes: boolean;
  readonly sides: readonly Side[];
  /** The part, where the operation is on it and not on something of it. */
  readonly whole: Thing | null;
  readonly written: string;
}

function standardAmount(
  entry: StandardTime,
  operation: BoundOperation,
  item: Use,
  stepPeople: number,
): Omit<Amount, 'skill'> {
  const bolts = entry.per === 'bolt' ? item.bolts : null;
  const people = Math.max(stepPeople, entry.people ?? 1);
  const { instances, written, holes } = item;
  // What has no sides, a battery, is done once, whatever sides its step is for.
  const sides = Math.min(item.sides.length, instances);
  const origin: Origin = {
    type: 'standard',
    operation,
    written,
    entry,
    sides,
    instances,
    bolts,
    holes,
    people,
  };
  return amount(item.set, entry.time, instances * (bolts ?? 1), people, origin);
}

/** `times` repeats of a time: their means add, and so do their variances; people multiply both. */
function amount(
  set: Diagram,
  time: ThreePoint,
  times: number,
  people: number,
  origin: Origin,
): Omit<Amount, 'skill'> {
  const elapsed = expectedOf(time) * times;
  const labour: Spread = {
    expected: elapsed * people,
    variance: varianceOf(time) * times * people ** 2,
    least: time.low * times * people,
    most: time.high * times * people,
  };
  return { set, elapsed, labour, origin };
}

function usesOf(model: Model, step: BoundStep, operation: BoundOperation): { set: Diagram; items: Use[] } {
  const items: Use[] = [];
  for (const target of operation.targets) items.push(...usesOfTarget(model, step, operation, target));
  const set =
    items.length === 0
      ? operation.guard
      : union(
          model,
          items.map((item) => item.set),
        );
  return { set, items };
}

function usesOfTarget(model: Model, step: BoundStep, operation: BoundOperation, target: Target): Use[] {
  const { diagrams } = model.world;
  const { written } = target;
  const of = (
    thing: Thing,
    joints: readonly Joint[] = [],
    more: {
      readonly presence?: Diagram;
      readonly bolts?: number;
      readonly holes?: boolean;
      readonly whole?: boolean;
    } = {},
  ): Use => ({
    set: diagrams.and(operation.guard, diagrams.and(thing.presence, more.presence ?? 1)),
    kinds: thing.kinds,
    joints,
    instances: instancesOf(step, operation, thing),
    bolts: Math.max(1, more.bolts ?? 1),
    holes: more.holes === true,
    sides: thing.sided ? sidesOf(step, operation) : [''],
    whole: more.whole === true ? thing : null,
    written,
  });
  const ofJoint = (joint: Joint): Use => ({
    ...of(joint.part, [joint], { presence: joint.presence, bolts: joint.bolts }),
    written: joint.full,
  });
  switch (target.type) {
    case 'joint':
    case 'piece':
      return [ofJoint(target.joint)];
    case 'part': {
      const joints = [...target.part.joints.values()];
      if (JOINT_VERBS.has(operation.verb) && joints.length > 0) return joints.map(ofJoint);
      const whole = WHOLE_VERBS.has(operation.verb) ? joints : [];
      const bolts = whole.reduce((sum, joint) => sum + Math.max(1, joint.bolts), 0);
      return [of(target.part, whole, { bolts, whole: true })];
    }
    case 'end':
      return [of(target.end.part)];
    case 'hole':
      return [of(target.hole.part, [], { bolts: target.hole.count, holes: true })];
    case 'face':
      return [of(target.face.part)];
    case 'line':
      return target.lines.map((line) => of(line));
    default: {
      const instances = passesOf(step, operation);
      const item = {
        kinds: [],
        joints: [],
        instances,
        bolts: 1,
        holes: false,
        sides: sidesOf(step, operation),
      };
      return [{ ...item, set: operation.guard, whole: null, written }];
    }
  }
}

/** The sides that an operation is done on, over all passes of its step. */
function sidesOf(step: BoundStep, operation: BoundOperation): Side[] {
  return [...new Set(step.passes.flatMap((pass) => [...narrowed(operation.sides, pass)]))];
}

/** How often an operation is done on a thing: its sides times its places, in every pass of the step. */
function instancesOf(step: BoundStep, operation: BoundOperation, thing: Thing): number {
  const sides = thing.sided
    ? step.passes.reduce((sum, pass) => sum + narrowed(operation.sides, pass).length, 0)
    : passesOf(step, operation);
  if (thing.places === null) return sides;
  const named = operation.stations.get(thing.places.key);
  const places =
    named === undefined ? thing.places.values : thing.places.values.filter((place) => named.includes(place));
  return sides * places.length;
}

/** How many passes of a step an operation runs in, whatever it acts on. */
function passesOf(step: BoundStep, operation: BoundOperation): number {
  return step.passes.filter((pass) => narrowed(operation.sides, pass).length > 0).length;
}

/** The sides of an operation within a pass. A pass or an operation without named sides narrows nothing. */
function narrowed(sides: readonly Side[], pass: readonly Side[]): readonly Side[] {
  if (pass.every((side) => side === '')) return sides;
  if (sides.every((side) => side === '')) return pass;
  return sides.filter((side) => pass.includes(side));
}

/** The sides for which `time: { each-side: … }` counts: those of its operations on sided things, else those of the step. */
function sidesWorkedOn(stretches: readonly BoundStep[]): number {
  const sides = new Set<Side>();
  for (const step of stretches) {
    for (const operation of step.operations) {
      if (!operation.sideSaid && !operation.targets.some(isSided)) continue;
      for (const pass of step.passes) for (const side of narrowed(operation.sides, pass)) sides.add(side);
    }
  }
  if (sides.size === 0) {
    for (const step of stretches) for (const pass of step.passes) for (const side of pass) sides.add(side);
  }
  return Math.max(1, sides.size);
}

function isSided(target: Target): boolean {
  switch (target.type) {
    case 'part':
      return target.part.sided;
    case 'joint':
    case 'piece':
      return target.joint.part.sided;
    case 'end':
      return target.end.part.sided;
    case 'hole':
      return target.hole.part.sided;
    case 'face':
      return target.face.part.sided;
    case 'line':
      return target.lines.some((line) => line.sided);
    default:
      return false;
  }
}

/** Minutes of a `wait`: the time it names, wherever the binder put it. */
function waitOf(operation: BoundOperation): number | null {
  for (const target of operation.targets) {
    const minutes = minutesOf(target.type === 'words' ? target.text : target.written);
    if (minutes !== null) return minutes.nominal;
  }
  const figure = operation.to ?? operation.by;
  return figure?.dimension === 'time' ? figure.nominal : null;
}

function union(model: Model, sets: readonly Diagram[]): Diagram {
  return sets.reduce((all, set) => model.world.diagrams.or(all, set), 0);
}
