import type { BoundOperation, BoundStep, Joint, Model, Side, Target, Thing } from '../model/model';
import type { Diagram } from '../variants/diagram';
import { matchTime, minutesOf, type StandardTime } from './standard-times';
import { expectedOf, type ThreePoint, varianceOf } from './three-point';

/** Minutes that are spent in the variants of a set: on the clock, and of people's time. */
export interface Amount {
  readonly set: Diagram;
  readonly elapsed: number;
  readonly labour: number;
  /** Of the labour, in square minutes. */
  readonly variance: number;
}

/** What one step takes. */
export interface StepAmounts {
  readonly amounts: readonly Amount[];
  /** The variants in which some of its time is not known. */
  readonly unknown: Diagram;
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
}

/**
 * What a step takes, by variant: its own time where it says one, else its operations by standard times.
 * Waiting counts beside either: elapsed, nobody's labour.
 */
export function amountsOf(model: Model, run: StepRun, times: readonly StandardTime[]): StepAmounts {
  const { diagrams } = model.world;
  const { time, people, guard } = run.stretches[0]!;
  const summed = time === null && !run.timedOutside;
  const amounts: Amount[] = [];
  const done: Diagram[] = [];
  let unknown: Diagram = 0;
  for (const step of run.stretches) {
    for (const operation of step.operations) {
      const use = usesOf(model, step, operation);
      done.push(use.set);
      if (operation.verb === 'wait') {
        const elapsed = (waitOf(operation) ?? 0) * passesOf(step, operation);
        amounts.push({ set: operation.guard, elapsed, labour: 0, variance: 0 });
      } else if (summed) {
        for (const item of use.items) {
          const entry = matchTime(times, operation.verb, item.kinds, item.joints);
          if (entry === null) unknown = diagrams.or(unknown, item.set);
          else amounts.push(standardAmount(entry, item, people));
        }
      }
    }
  }
  const bare = !run.uses && run.stretches.every((step) => step.operations.length === 0);
  if (time !== null && !run.timedOutside) {
    // A step none of whose operations a variant has is not done there.
    const set = bare || run.uses ? guard : diagrams.and(guard, union(model, done));
    amounts.push(amount(set, time, time.eachSide ? sidesWorkedOn(run.stretches) : 1, people));
  } else if (summed && (bare || run.stretches.some((step) => step.lost))) {
    // Nothing to add up, or something of it could not be read.
    unknown = guard;
  }
  return { amounts, unknown: diagrams.and(unknown, model.universe) };
}

/** One item that an operation acts on, in the variants of `set`, `instances` times with `bolts` each. */
interface Use {
  readonly set: Diagram;
  readonly kinds: readonly string[];
  readonly joints: readonly Joint[];
  readonly instances: number;
  readonly bolts: number;
}

function standardAmount(entry: StandardTime, item: Use, people: number): Amount {
  const times = item.instances * (entry.per === 'bolt' ? item.bolts : 1);
  return amount(item.set, entry.time, times, Math.max(people, entry.people ?? 1));
}

/** `times` repeats of a time: their means add, and so do their variances; people multiply both. */
function amount(set: Diagram, time: ThreePoint, times: number, people: number): Amount {
  const elapsed = expectedOf(time) * times;
  return { set, elapsed, labour: elapsed * people, variance: varianceOf(time) * times * people ** 2 };
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
  const once = (
    kinds: readonly string[],
    instances: number,
    presence: Diagram,
    joints: readonly Joint[],
    bolts: number,
  ): Use => ({
    set: diagrams.and(operation.guard, presence),
    kinds,
    joints,
    instances,
    bolts,
  });
  const ofJoint = (joint: Joint): Use =>
    once(
      joint.part.kinds,
      instancesOf(step, operation, joint.part),
      diagrams.and(joint.part.presence, joint.presence),
      [joint],
      Math.max(1, joint.bolts),
    );
  switch (target.type) {
    case 'joint':
    case 'piece':
      return [ofJoint(target.joint)];
    case 'part': {
      const joints = [...target.part.joints.values()];
      if (JOINT_VERBS.has(operation.verb) && joints.length > 0) return joints.map(ofJoint);
      const whole = WHOLE_VERBS.has(operation.verb) ? joints : [];
      const bolts = whole.reduce((sum, joint) => sum + Math.max(1, joint.bolts), 0);
      return [
        once(
          target.part.kinds,
          instancesOf(step, operation, target.part),
          target.part.presence,
          whole,
          Math.max(1, bolts),
        ),
      ];
    }
    case 'end':
      return [
        once(
          target.end.part.kinds,
          instancesOf(step, operation, target.end.part),
          target.end.part.presence,
          [],
          1,
        ),
      ];
    case 'hole': {
      const { part, count } = target.hole;
      return [once(part.kinds, instancesOf(step, operation, part), part.presence, [], Math.max(1, count))];
    }
    case 'face':
      return [
        once(
          target.face.part.kinds,
          instancesOf(step, operation, target.face.part),
          target.face.part.presence,
          [],
          1,
        ),
      ];
    case 'line':
      return target.lines.map((line) =>
        once(line.kinds, instancesOf(step, operation, line), line.presence, [], 1),
      );
    default:
      return [once([], passesOf(step, operation), 1, [], 1)];
  }
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
