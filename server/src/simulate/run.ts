/** Runs a guide: operations to events, events to effects, with the rules looking on. */

import type { Instance } from '../model/instances';
import type { BoundOperation, BoundStep, Joint, Model, Part, Side, Target } from '../model/model';
import type { Diagram } from '../variants/diagram';
import type { Corner } from './corners';
import { freshen, moveJoint } from './effects-joints';
import { fromGiven, movePart } from './effects-parts';
import { endsOf, moveEnd, moveLine, moveNamed, workMetal } from './effects-rest';
import { ALONE, type Event, type Subject } from './event';
import { applyEntries, forgive } from './given';
import { corner as cornerItems, joint as jointItems, line as lineItems, part as partItems } from './items';
import { Simulation } from './simulation';
import { type Spot, spotsOf } from './spots';
import type { Branch } from './state';
import { moveArm, moveSpot } from './support';
import type { Watcher } from './watcher';

const JOINT_VERBS = new Set(['loosen', 'start', 'snug', 'torque']);
const SUPPORT_VERBS = new Set(['raise', 'lower', 'support', 'unsupport']);

/** Called after each pass of each step, for the trace. */
export type StepObserver = (sim: Simulation, step: BoundStep, last: boolean) => void;

/**
 * Runs the whole guide for all variants at once. A generator that yields after every step, so that whoever drives it may
 * stop or pause; its result holds the final state and the raw findings.
 */
export function* runGuide(
  model: Model,
  watchers: readonly Watcher[],
  observe?: StepObserver,
): Generator<undefined, Simulation> {
  const runner = new Runner(model, watchers);
  applyEntries(runner.sim, model.given, false);
  for (const operation of model.givenOperations) runner.silently(operation);
  if (model.follows !== null) applyEntries(runner.sim, model.follows.entries, true);
  for (const step of model.steps) {
    step.passes.forEach((pass, index) => {
      runner.step(step, pass);
      observe?.(runner.sim, step, index === step.passes.length - 1);
    });
    yield;
  }
  for (const watcher of watchers) watcher.ended?.(runner.sim);
  return runner.sim;
}

class Runner {
  readonly sim: Simulation;
  private readonly byVerb = new Map<string, Watcher[]>();
  private watching = true;

  constructor(
    model: Model,
    private readonly watchers: readonly Watcher[],
  ) {
    this.sim = new Simulation(model);
  }

  step(step: BoundStep, pass: readonly Side[]): void {
    const first = this.sim.events.length;
    for (const operation of step.operations) this.operation(step, operation, pass);
    const events = this.sim.events.slice(first);
    for (const watcher of this.watchers) watcher.stepEnded?.(this.sim, events);
  }

  /** An operation of `given`: it has its effect, nobody judges it and nothing is owed for it. */
  silently(operation: BoundOperation): void {
    this.watching = false;
    this.operation({ ...NO_STEP, guard: operation.guard, operations: [operation] }, operation, [
      'left',
      'right',
    ]);
    this.watching = true;
    forgive(this.sim);
  }

  private operation(step: BoundStep, operation: BoundOperation, pass: readonly Side[]): void {
    const verb = operation.verb;
    if (verb === 'apply') {
      for (const target of operation.toTargets)
        for (const [subject, at] of this.subjects(target, operation, pass))
          this.simple(step, operation, pass, target, subject, at);
      return;
    }
    const joints = this.jointTargets(operation);
    if (joints !== null) {
      const each = joints.flatMap(({ joint, target }) =>
        this.instances(joint.part, operation, pass).map((at) => ({ joint, target, at })),
      );
      if (verb === 'snug' || verb === 'torque') {
        for (const { joint, target, at } of each) {
          const out = this.sim.state.where(
            jointItems.position(joint, at),
            this.guard(operation, joint),
            (value) => value === 'out',
          );
          const event = this.event(
            step,
            operation,
            pass,
            target,
            { type: 'joint', joint },
            at,
            'start',
            verb,
            out,
          );
          this.watched(event, (branch) => moveJoint(branch, event, joint, at));
        }
      }
      for (const { joint, target, at } of each) {
        const event = this.event(step, operation, pass, target, { type: 'joint', joint }, at, verb);
        this.watched(event, (branch) => moveJoint(branch, event, joint, at));
      }
      return;
    }
    for (const target of operation.targets)
      for (const [subject, at] of this.subjects(target, operation, pass))
        this.one(step, operation, pass, target, subject, at);
  }

  private one(
    step: BoundStep,
    operation: BoundOperation,
    pass: readonly Side[],
    target: Target,
    subject: Subject,
    at: Instance,
  ): void {
    const { verb } = operation;
    if (SUPPORT_VERBS.has(verb)) this.support(step, operation, pass, target, subject, at);
    else if (verb === 'remove' && subject.type === 'joint') {
      const event = this.event(step, operation, pass, target, subject, at, verb);
      this.watched(event, (branch) => moveJoint(branch, event, subject.joint, at));
    } else if (verb === 'unbolt' && subject.type === 'part')
      this.unbolt(step, operation, pass, target, subject.part, at);
    else if (verb === 'bolt-up' && subject.type === 'part')
      this.boltUp(step, operation, pass, target, subject.part, at);
    else this.simple(step, operation, pass, target, subject, at);
  }

  private unbolt(
    step: BoundStep,
    operation: BoundOperation,
    pass: readonly Side[],
    target: Target,
    part: Part,
    at: Instance,
  ): void {
    const subject: Subject = { type: 'part', part };
    const whole = this.event(step, operation, pass, target, subject, at, 'unbolt');
    const goes = this.watched(whole, () => {});
    for (const joint of part.joints.values()) {
      const { state } = this.sim;
      const there = state.diagrams.and(goes, joint.presence);
      const in_ = state.where(jointItems.position(joint, at), there, (value) => value !== 'out');
      const event = this.event(
        step,
        operation,
        pass,
        target,
        { type: 'joint', joint },
        at,
        'remove',
        'unbolt',
        in_,
      );
      this.watched(event, (branch) => moveJoint(branch, event, joint, at));
    }
    const event = this.event(step, operation, pass, target, subject, at, 'remove', 'unbolt', goes);
    this.watched(event, (branch) => movePart(this.sim, branch, event, part, at));
  }

  private boltUp(
    step: BoundStep,
    operation: BoundOperation,
    pass: readonly Side[],
    target: Target,
    part: Part,
    at: Instance,
  ): void {
    const subject: Subject = { type: 'part', part };
    const whole = this.event(step, operation, pass, target, subject, at, 'bolt-up');
    const goes = this.watched(whole, (branch) => {
      for (const joint of part.joints.values()) freshen(branch, joint, at, operation.newPieces);
    });
    const { state } = this.sim;
    const off = state.where(partItems.state(part, at), goes, (value) => value !== 'fitted');
    const fit = this.event(step, operation, pass, target, subject, at, 'fit', 'bolt-up', off);
    this.watched(fit, (branch) => {
      movePart(this.sim, branch, fit, part, at);
      for (const joint of part.joints.values()) freshen(branch, joint, at, operation.newPieces);
    });
    for (const joint of part.joints.values()) {
      const there = state.diagrams.and(goes, joint.presence);
      const out = state.where(jointItems.position(joint, at), there, (value) => value === 'out');
      const event = this.event(
        step,
        operation,
        pass,
        target,
        { type: 'joint', joint },
        at,
        'start',
        'bolt-up',
        out,
      );
      this.watched(event, (branch) => moveJoint(branch, event, joint, at));
    }
  }

  private support(
    step: BoundStep,
    operation: BoundOperation,
    pass: readonly Side[],
    target: Target,
    subject: Subject,
    at: Instance,
  ): void {
    const event = this.event(step, operation, pass, target, subject, at, operation.verb);
    const goes = this.watched(event, () => {});
    const landed = new Map<Corner, Diagram>();
    const sank = new Map<Corner, Diagram>();
    for (const spot of spotsOf(this.sim, subject, at, operation, pass)) {
      this.atSpot(event, spot, goes, landed, sank);
      if (spot.level !== 'part' || !spot.part.attributes.arm) continue;
      for (const corner of this.sim.corners.of(spot.part, spot.at)) {
        this.sim.state.explore(goes, event.run, (branch) => {
          const moved = moveArm(this.sim, branch, event, corner);
          branch.whenDone((set) => this.note(sank, corner, moved.sank ? set : 0));
        });
      }
    }
    this.told(event, landed, sank);
  }

  private atSpot(
    event: Event,
    spot: Spot,
    goes: Diagram,
    landed: Map<Corner, Diagram>,
    sank: Map<Corner, Diagram>,
  ): void {
    const looking = this.lookers(event);
    this.sim.state.explore(goes, event.run, (branch) => {
      for (const watcher of looking) watcher.atSpot?.(this.sim, branch, event, spot);
      const moved = moveSpot(this.sim, branch, event, spot);
      for (const watcher of looking) watcher.afterSpot?.(this.sim, branch, event, spot);
      if (spot.level === 'part') return;
      branch.whenDone((set) => {
        this.note(landed, spot.corner, moved.landed ? set : 0);
        this.note(sank, spot.corner, moved.sank ? set : 0);
      });
    });
  }

  private told(event: Event, landed: ReadonlyMap<Corner, Diagram>, sank: ReadonlyMap<Corner, Diagram>): void {
    if (!this.watching) return;
    for (const watcher of this.watchers) {
      if (watcher.landed !== undefined)
        for (const [corner, set] of landed) if (set !== 0) watcher.landed(this.sim, event, corner, set);
      if (watcher.sank !== undefined)
        for (const [corner, set] of sank) if (set !== 0) watcher.sank(this.sim, event, corner, set);
    }
  }

  private note(sets: Map<Corner, Diagram>, corner: Corner, set: Diagram): void {
    sets.set(corner, this.sim.state.diagrams.or(sets.get(corner) ?? 0, set));
  }

  /** Every other verb: one event, one effect. */
  private simple(
    step: BoundStep,
    operation: BoundOperation,
    pass: readonly Side[],
    target: Target,
    subject: Subject,
    at: Instance,
  ): void {
    const event = this.event(step, operation, pass, target, subject, at, operation.verb);
    const goes = this.watched(event, (branch) => this.effect(branch, event));
    if (event.verb === 'move') {
      const landed = new Map(this.sim.corners.all.map((corner) => [corner, goes] as const));
      this.told(event, landed, new Map());
    }
  }

  private effect(branch: Branch, event: Event): void {
    const { subject, at, verb, operation } = event;
    switch (verb) {
      case 'chock':
      case 'unchock':
        for (const corner of this.cornersOf(subject, at))
          branch.put(cornerItems.chocked(corner), verb === 'chock');
        return;
      case 'free':
      case 'seat':
        moveEnd(branch, event, at);
        return;
      case 'renew':
        if (subject.type === 'piece') freshen(branch, subject.joint, at, [subject.piece]);
        else if (subject.type === 'joint')
          freshen(branch, subject.joint, at, [...subject.joint.singleUse.keys(), 'pin']);
        return;
    }
    this.touchGiven(branch, subject, at);
    if (subject.type === 'line') moveLine(branch, event, subject.line, subject.end, at);
    if (subject.type === 'part') {
      movePart(this.sim, branch, event, subject.part, at);
      if (verb === 'fit')
        for (const joint of subject.part.joints.values()) freshen(branch, joint, at, operation.newPieces);
    }
    moveNamed(this.sim, branch, event, at);
    workMetal(branch, event, at);
  }

  /** What `given` says is off or disconnected owes from the first operation on it. */
  private touchGiven(branch: Branch, subject: Subject, at: Instance): void {
    const thing = subject.type === 'part' ? subject.part : subject.type === 'line' ? subject.line : null;
    if (thing === null || branch.get(fromGiven(`${thing.name}${at.key}`)) !== true) return;
    branch.put(fromGiven(`${thing.name}${at.key}`), false);
    if (thing.type === 'part') {
      if (branch.get(partItems.state(thing, at)) === 'off') branch.put(partItems.owed(thing, at), true);
      return;
    }
    for (const name of endsOf(thing))
      if (branch.get(lineItems.connected(thing, name, at)) !== true)
        branch.put(lineItems.owed(thing, name, at), true);
  }

  private cornersOf(subject: Subject, at: Instance): readonly Corner[] {
    if (subject.type === 'built-in')
      return subject.name === 'front' || subject.name === 'rear'
        ? this.sim.corners.atEnd(subject.name)
        : this.sim.corners.all;
    return subject.type === 'part' ? this.sim.corners.of(subject.part, at) : [];
  }

  /** Shows an event to the rules and does its effect where none stopped it; gives the variants where it was done. */
  private watched(event: Event, effect: (branch: Branch) => void): Diagram {
    const looking = this.lookers(event);
    const { state } = this.sim;
    let done = 0;
    state.explore(event.guard, event.run, (branch) => {
      if (event.subject.type === 'joint')
        freshen(branch, event.subject.joint, event.at, event.operation.newPieces);
      for (const watcher of looking) if (watcher.before?.(this.sim, branch, event) === 'stop') return;
      effect(branch);
      for (const watcher of looking) watcher.after?.(this.sim, branch, event);
      branch.whenDone((set) => {
        done = state.diagrams.or(done, set);
      });
    });
    return done;
  }

  private lookers(event: Event): readonly Watcher[] {
    if (!this.watching) return [];
    const known = this.byVerb.get(event.verb);
    if (known !== undefined) return known;
    const found = this.watchers.filter(({ verbs }) => verbs.includes(event.verb) || verbs.includes('*'));
    this.byVerb.set(event.verb, found);
    return found;
  }

  private event(
    step: BoundStep,
    operation: BoundOperation,
    pass: readonly Side[],
    target: Target,
    subject: Subject,
    at: Instance,
    verb: string,
    within: string | null = null,
    guard: Diagram = this.guard(operation, subject.type === 'joint' ? subject.joint : subject),
  ): Event {
    const event: Event = {
      run: this.sim.events.length,
      verb,
      subject,
      at,
      operation,
      step,
      target,
      within,
      pass,
      guard,
    };
    this.sim.events.push(event);
    return event;
  }

  /** The operation's variants in which the subject exists. */
  private guard(operation: BoundOperation, subject: Subject | Joint): Diagram {
    const { diagrams } = this.sim.state;
    const inUniverse = diagrams.and(operation.guard, this.sim.model.universe);
    return diagrams.and(inUniverse, this.presence(subject));
  }

  private presence(subject: Subject | Joint): Diagram {
    const { diagrams } = this.sim.state;
    const ofJoint = (joint: Joint) => diagrams.and(joint.part.presence, joint.presence);
    if ('full' in subject) return ofJoint(subject);
    switch (subject.type) {
      case 'part':
        return subject.part.presence;
      case 'joint':
      case 'piece':
        return ofJoint(subject.joint);
      case 'end':
        return subject.end.part.presence;
      case 'hole':
        return subject.hole.part.presence;
      case 'face':
        return subject.face.part.presence;
      case 'line':
        return subject.line.presence;
      default:
        return 1;
    }
  }

  /** For verbs of joints: the joints named, a part standing for all of its own; null for other verbs. */
  private jointTargets(operation: BoundOperation): { joint: Joint; target: Target }[] | null {
    if (!JOINT_VERBS.has(operation.verb)) return null;
    return operation.targets.flatMap((target): { joint: Joint; target: Target }[] => {
      if (target.type === 'joint') return [{ joint: target.joint, target }];
      if (target.type === 'piece') return [{ joint: target.joint, target }];
      if (target.type === 'part') return [...target.part.joints.values()].map((joint) => ({ joint, target }));
      return [];
    });
  }

  private instances(
    part: { instances: readonly Instance[]; places: { key: string } | null },
    operation: BoundOperation,
    pass: readonly Side[],
  ): Instance[] {
    const stations = part.places === null ? undefined : operation.stations.get(part.places.key);
    const there = part.instances.filter(
      (at) =>
        (at.side === '' || (operation.sides.includes(at.side) && pass.includes(at.side))) &&
        (stations === undefined || stations.includes(at.place)),
    );
    return (['', 'left', 'right'] as const).flatMap((side) => there.filter((at) => at.side === side));
  }

  /** What a target means, instance by instance in running order. */
  private subjects(target: Target, operation: BoundOperation, pass: readonly Side[]): [Subject, Instance][] {
    const each = (part: Part, make: () => Subject): [Subject, Instance][] =>
      this.instances(part, operation, pass).map((at) => [make(), at]);
    switch (target.type) {
      case 'part':
        if (operation.verb === 'free' || operation.verb === 'seat')
          return [...target.part.ends.values()].flatMap((end) =>
            each(target.part, () => ({ type: 'end', end })),
          );
        return each(target.part, () => ({ type: 'part', part: target.part }));
      case 'joint':
        return each(target.joint.part, () => ({ type: 'joint', joint: target.joint }));
      case 'piece':
        return each(target.joint.part, () => ({ type: 'piece', joint: target.joint, piece: target.piece }));
      case 'end':
        return each(target.end.part, () => ({ type: 'end', end: target.end }));
      case 'hole':
        return each(target.hole.part, () => ({ type: 'hole', hole: target.hole }));
      case 'face':
        return each(target.face.part, () => ({ type: 'face', face: target.face }));
      case 'line':
        return target.lines.flatMap((line) =>
          this.instances(line, operation, pass).map((at): [Subject, Instance] => [
            { type: 'line', line, end: target.end },
            at,
          ]),
        );
      case 'built-in':
        return [[{ type: 'built-in', name: target.name }, ALONE]];
      case 'words':
        return [[{ type: 'words', text: target.text }, ALONE]];
    }
  }
}

const NO_STEP: BoundStep = {
  path: '0',
  id: null,
  place: { uri: '', span: { start: 0, end: 0 } },
  title: '',
  guard: 1,
  passes: [],
  operations: [],
  people: 1,
  covered: new Set(),
  checked: true,
  section: 0,
} as unknown as BoundStep;
