/** Runs a guide: operations to events, events to effects, with the rules looking on. */

import type { Instance } from '../model/instances';
import type { BoundOperation, BoundStep, Joint, Model, Part, Side, Target } from '../model/model';
import type { Diagram } from '../variants/diagram';
import type { Corner } from './corners';
import { applyEffect, touchGiven } from './effects';
import { freshen, moveJoint } from './effects-joints';
import { movePart } from './effects-parts';
import type { Event, Subject } from './event';
import { applyEntries, forgive } from './given';
import { isSeated, joint as jointItems, part as partItems } from './items';
import { type Question, Simulation } from './simulation';
import { type Spot, spotsOf } from './spots';
import type { Branch } from './state';
import { moveArm, moveSpot } from './support';
import { chosenInstances, jointTargets, presenceOf, subjectsOf } from './targets';
import { type Looking, NOBODY, type Watchers } from './watchers';

const SUPPORT_VERBS = new Set(['raise', 'lower', 'support', 'unsupport']);

/** For the trace and the check record. */
export interface RunObserver {
  /** Called once what is given has its effect, before the first step. */
  given?(sim: Simulation): void;
  /** Called after each pass of each step. */
  step?(sim: Simulation, step: BoundStep, last: boolean): void;
  /** Called after each operation of a pass. */
  operation?(sim: Simulation): void;
  /** Called whenever a rule asks about an item; one question may come in several sets of variants. */
  asked?(question: Question): void;
}

/**
 * Runs the whole guide for all variants at once. A generator that yields after every step, so that whoever drives it may
 * stop or pause; its result holds the final state and the raw findings.
 */
export function* runGuide(
  model: Model,
  watchers: Watchers,
  observer?: RunObserver,
): Generator<undefined, Simulation> {
  const runner = new Runner(model, watchers, observer);
  if (model.follows !== null) applyEntries(runner.sim, model.follows.done, false);
  applyEntries(runner.sim, model.given, false);
  for (const operation of model.givenOperations) runner.silently(operation);
  if (model.follows !== null) applyEntries(runner.sim, model.follows.entries, true);
  observer?.given?.(runner.sim);
  for (const step of model.steps) {
    step.passes.forEach((pass, index) => {
      runner.step(step, pass);
      observer?.step?.(runner.sim, step, index === step.passes.length - 1);
    });
    yield;
  }
  for (const watcher of watchers.ofEnd) watcher.ended!(runner.sim);
  return runner.sim;
}

/** What is being done: one target of one operation, in one pass of its step. */
interface Doing {
  readonly step: BoundStep;
  readonly operation: BoundOperation;
  readonly pass: readonly Side[];
  readonly target: Target;
}

/** The corners that something happened to, with the variants in which it did. */
type CornerSets = Map<Corner, Diagram>;

class Runner {
  readonly sim: Simulation;
  /** Those that look at events of a sort, with the rules that look at all events since they awoke; and how many these are. */
  private readonly withAwake = new Map<Looking, Looking>();
  private awake = 0;
  private watching = true;

  constructor(
    model: Model,
    private readonly watchers: Watchers,
    private readonly observer: RunObserver = {},
  ) {
    this.sim = new Simulation(model, observer.asked?.bind(observer) ?? null);
  }

  step(step: BoundStep, pass: readonly Side[]): void {
    const first = this.sim.events.length;
    for (const operation of step.operations) {
      this.operation(step, operation, pass);
      this.observer.operation?.(this.sim);
    }
    const events = this.sim.events.slice(first);
    for (const watcher of this.watchers.ofSteps) watcher.stepEnded!(this.sim, events);
  }

  /** An operation of `given`: it has its effect, nobody judges it and nothing is owed for it. */
  silently(operation: BoundOperation): void {
    this.watching = false;
    this.operation(givenStep(operation), operation, ['left', 'right']);
    this.watching = true;
    forgive(this.sim);
  }

  private operation(step: BoundStep, operation: BoundOperation, pass: readonly Side[]): void {
    const joints = jointTargets(operation);
    if (joints !== null) {
      const each = joints.flatMap(({ joint, target }) =>
        chosenInstances(joint.part, operation, pass).map((at) => ({
          doing: { step, operation, pass, target },
          joint,
          at,
        })),
      );
      // All of it is started before any of it is tightened.
      if (operation.verb === 'snug' || operation.verb === 'torque')
        for (const { doing, joint, at } of each) this.start(doing, joint, at, operation.verb, 1);
      for (const { doing, joint, at } of each) this.joint(doing, joint, at, operation.verb);
      return;
    }
    const targets = operation.verb === 'apply' ? operation.toTargets : operation.targets;
    for (const target of targets)
      for (const [subject, at] of subjectsOf(target, operation, pass))
        this.one({ step, operation, pass, target }, subject, at);
  }

  private one(doing: Doing, subject: Subject, at: Instance): void {
    const { verb } = doing.operation;
    if (SUPPORT_VERBS.has(verb)) this.support(doing, subject, at);
    else if (verb === 'remove' && subject.type === 'joint') this.joint(doing, subject.joint, at, verb);
    else if (verb === 'unbolt' && subject.type === 'part') this.unbolt(doing, subject.part, at);
    else if (verb === 'bolt-up' && subject.type === 'part') this.boltUp(doing, subject.part, at);
    else this.simple(doing, subject, at);
  }

  private joint(doing: Doing, joint: Joint, at: Instance, verb: string): void {
    const event = this.event(doing, { type: 'joint', joint }, at, verb);
    this.watched(event, (branch) => moveJoint(branch, event, joint, at));
  }

  /** Starts a joint where it is out, as a part of another verb. */
  private start(doing: Doing, joint: Joint, at: Instance, within: string, inside: Diagram): void {
    this.jointWhere(doing, joint, at, 'start', within, inside, (position) => position === 'out');
  }

  private jointWhere(
    doing: Doing,
    joint: Joint,
    at: Instance,
    verb: string,
    within: string,
    inside: Diagram,
    is: (position: unknown) => boolean,
  ): void {
    const { state } = this.sim;
    const subject: Subject = { type: 'joint', joint };
    const there = state.diagrams.and(inside, this.guard(doing.operation, subject));
    const event = this.event(
      doing,
      subject,
      at,
      verb,
      within,
      state.where(jointItems.position(joint, at), there, is),
    );
    this.watched(event, (branch) => moveJoint(branch, event, joint, at));
  }

  private unbolt(doing: Doing, part: Part, at: Instance): void {
    const subject: Subject = { type: 'part', part };
    const goes = this.watched(this.event(doing, subject, at, 'unbolt'), (branch) =>
      touchGiven(branch, subject, at),
    );
    for (const joint of part.joints.values())
      this.jointWhere(doing, joint, at, 'remove', 'unbolt', goes, (position) => position !== 'out');
    const event = this.event(doing, subject, at, 'remove', 'unbolt', goes);
    this.watched(event, (branch) => movePart(this.sim, branch, event, part, at));
  }

  private boltUp(doing: Doing, part: Part, at: Instance): void {
    const subject: Subject = { type: 'part', part };
    const { newPieces } = doing.operation;
    const goes = this.watched(this.event(doing, subject, at, 'bolt-up'), (branch) => {
      touchGiven(branch, subject, at);
      for (const joint of part.joints.values()) freshen(branch, joint, at, newPieces);
    });
    const off = this.sim.state.where(partItems.state(part, at), goes, (value) => !isSeated(value));
    const fit = this.event(doing, subject, at, 'fit', 'bolt-up', off);
    this.watched(fit, (branch) => {
      movePart(this.sim, branch, fit, part, at);
      for (const joint of part.joints.values()) freshen(branch, joint, at, newPieces);
    });
    for (const joint of part.joints.values()) this.start(doing, joint, at, 'bolt-up', goes);
  }

  private support(doing: Doing, subject: Subject, at: Instance): void {
    const event = this.event(doing, subject, at, doing.operation.verb);
    const goes = this.watched(event, (branch) => touchGiven(branch, subject, at));
    const landed: CornerSets = new Map();
    const sank: CornerSets = new Map();
    for (const spot of spotsOf(this.sim, subject, at, doing.operation, doing.pass)) {
      this.atSpot(event, spot, goes, landed, sank);
      if (spot.level !== 'part' || !spot.part.attributes.arm) continue;
      for (const corner of this.sim.corners.of(spot.part, spot.at)) {
        this.sim.state.explore(goes, event.run, (branch) => {
          const moved = moveArm(this.sim, branch, event, corner, spot.part);
          branch.whenDone((set) => this.note(sank, corner, moved.sank ? set : 0));
        });
      }
    }
    this.tell(event, landed, sank);
  }

  private atSpot(event: Event, spot: Spot, goes: Diagram, landed: CornerSets, sank: CornerSets): void {
    const looking = this.looking(event);
    this.sim.state.explore(goes, event.run, (branch) => {
      for (const watcher of looking.atSpot) watcher.atSpot!(this.sim, branch, event, spot);
      const moved = moveSpot(this.sim, branch, event, spot);
      for (const watcher of looking.afterSpot) watcher.afterSpot!(this.sim, branch, event, spot);
      if (spot.level === 'part') return;
      branch.whenDone((set) => {
        this.note(landed, spot.corner, moved.landed ? set : 0);
        this.note(sank, spot.corner, moved.sank ? set : 0);
      });
    });
  }

  private note(sets: CornerSets, corner: Corner, set: Diagram): void {
    sets.set(corner, this.sim.state.diagrams.or(sets.get(corner) ?? 0, set));
  }

  /** Tells the rules of corners that came down on their wheels, and of those that hang lower. */
  private tell(event: Event, landed: CornerSets, sank: CornerSets): void {
    if (!this.watching) return;
    for (const watcher of this.watchers.ofCorners) {
      if (watcher.landed !== undefined)
        for (const [corner, set] of landed) if (set !== 0) watcher.landed(this.sim, event, corner, set);
      if (watcher.sank !== undefined)
        for (const [corner, set] of sank) if (set !== 0) watcher.sank(this.sim, event, corner, set);
    }
  }

  /** Every other verb: one event, one effect. */
  private simple(doing: Doing, subject: Subject, at: Instance): void {
    const event = this.event(doing, subject, at, doing.operation.verb);
    const goes = this.watched(event, (branch) => applyEffect(this.sim, branch, event));
    if (event.verb === 'move')
      this.tell(event, new Map(this.sim.corners.all.map((corner) => [corner, goes])), new Map());
  }

  /** Shows an event to the rules and does its effect where none stopped it; gives the variants where it was done. */
  private watched(event: Event, effect: (branch: Branch) => void): Diagram {
    const looking = this.looking(event);
    const { state } = this.sim;
    let done: Diagram = 0;
    state.explore(event.guard, event.run, (branch) => {
      if (event.subject.type === 'joint')
        freshen(branch, event.subject.joint, event.at, event.operation.newPieces);
      for (const watcher of looking.before) if (watcher.before!(this.sim, branch, event) === 'stop') return;
      effect(branch);
      for (const watcher of looking.after) watcher.after!(this.sim, branch, event);
      branch.whenDone((set) => {
        done = state.diagrams.or(done, set);
      });
    });
    return done;
  }

  private looking(event: Event): Looking {
    if (!this.watching) return NOBODY;
    const { awake } = this.sim;
    const looking = this.watchers.of(event);
    if (awake.size === 0) return looking;
    if (awake.size !== this.awake) this.withAwake.clear();
    this.awake = awake.size;
    const found = this.withAwake.get(looking) ?? this.watchers.with(looking, awake);
    this.withAwake.set(looking, found);
    return found;
  }

  private event(
    doing: Doing,
    subject: Subject,
    at: Instance,
    verb: string,
    within: string | null = null,
    guard: Diagram = this.guard(doing.operation, subject),
  ): Event {
    const { step, operation, pass, target } = doing;
    const run = this.sim.events.length;
    const event: Event = { run, verb, subject, at, operation, step, pass, target, within, guard };
    this.sim.events.push(event);
    return event;
  }

  /** The operation's variants in which the subject exists. */
  private guard(operation: BoundOperation, subject: Subject): Diagram {
    const { diagrams } = this.sim.state;
    const inUniverse = diagrams.and(operation.guard, this.sim.model.universe);
    return diagrams.and(inUniverse, presenceOf(diagrams, subject));
  }
}

/** The operations of `given` belong to no step: path `0`. */
function givenStep(operation: BoundOperation): BoundStep {
  return {
    path: '0',
    id: null,
    place: operation.place,
    uses: [],
    title: '',
    guard: operation.guard,
    passes: [],
    operations: [operation],
    time: null,
    timeLost: false,
    skill: null,
    skillAround: null,
    people: 1,
    hasCaution: false,
    covered: new Set(),
    checked: true,
    lost: false,
    section: 0,
  };
}
