/** What a candidate for a fix is made from, and what it is. Whether it mends anything is found out by trying it. */

import type { Source } from '../../edit/source';
import { GuideText } from '../../edit/steps';
import { dataOf } from '../../edit/values';
import type { Value } from '../../edit/write';
import type { Edit, Finding } from '../../findings/finding';
import type { BoundOperation, BoundStep, Model, Thing } from '../../model/model';
import type { Rule } from '../../rules/rule';
import type { Rulebook } from '../../rules/rulebook';
import { type Event, nameOf, thingOf } from '../../simulate/event';
import type { RawFinding, Simulation } from '../../simulate/simulation';
import { find } from '../../text/access';
import type { GuideCheck } from '../check';

/** How much of the guide a plan touches, least first: a word of an operation, the order of steps, new work. */
export type PlanKind = 'in place' | 'move' | 'insert';

export interface Plan {
  readonly kind: PlanKind;
  /** A plain sentence without its full stop: what the fix does. */
  readonly title: string;
  /** The same without where, for a sentence that goes on. */
  readonly clause?: string;
  /** It leaves an operation out. */
  readonly takesOut?: boolean;
  readonly edits: readonly Edit[];
  /** Draft steps that it adds. */
  readonly drafts: number;
}

/** Makes plans for the findings of some rules, the likeliest first. One file each, registered in `plans.ts`. */
export type Planner = (fault: Fault) => Iterable<Plan | null>;

/** A finding with all that is known of how it came about. */
export class Fault {
  /** The findings of single sides and variants that it was put together from. */
  readonly raw: readonly RawFinding[];
  readonly rule: Rule | undefined;
  readonly guide: GuideText;

  constructor(
    readonly finding: Finding,
    readonly check: GuideCheck,
    source: Source,
    readonly rulebook: Rulebook,
  ) {
    this.guide = new GuideText(source);
    this.rule = rulebook.rules.get(finding.rule);
    this.raw = check.raw.filter(
      ({ rule, operation, item }) =>
        rule === finding.rule && operation === finding.operation && item === finding.item,
    );
  }

  get simulation(): Simulation {
    return this.check.simulation;
  }

  get model(): Model {
    return this.check.simulation.model;
  }

  /** The event it stands at, where it stands at one. */
  get event(): Event | null {
    return this.raw.find(({ event }) => event !== null)?.event ?? null;
  }

  get operation(): BoundOperation | null {
    return this.event?.operation ?? null;
  }

  fact(name: string): string {
    return this.raw[0]?.facts[name] ?? '';
  }

  /** The step of the guide itself that it stands at, or that uses the section in which it stands; null for none. */
  get step(): string | null {
    return outerStep(this.finding.operation ?? this.event?.step.path ?? '0');
  }

  /** The path of its operation, where that is written in the guide itself. */
  get path(): string | null {
    const path = this.finding.operation ?? '0';
    return path.includes('/') || path.split('.').length !== 3 ? null : path;
  }

  /** The part or line it is about; null for what is neither. */
  get thing(): Thing | null {
    return thingNamed(this.model, this.finding.item ?? '');
  }

  /** The steps of the guide itself that led there, the last first. */
  get causes(): string[] {
    const runs = [...new Set(this.raw.flatMap(({ causes }) => causes))].sort((a, b) => b - a);
    const steps = runs.map((run) => outerStep(this.simulation.events[run]?.step.path ?? '0'));
    return [...new Set(steps.filter((step) => step !== null))];
  }
}

/** `2.3` of `2.3.1/4.1.2`; null for what belongs to no step. */
export function outerStep(path: string): string | null {
  const [section, step] = path.split('/')[0]!.split('.');
  return section === undefined || step === undefined ? null : `${section}.${step}`;
}

/** The part or line that a name (`front-shock.top-nut`) belongs to. */
export function thingNamed(model: Model, name: string): Thing | null {
  return model.things.get(name) ?? model.things.get(name.split('.')[0]!) ?? null;
}

/** The steps of the guide itself in order, as they are written. */
export function stepsInOrder(model: Model): string[] {
  return [...new Set(model.steps.map(({ path }) => outerStep(path)!))];
}

/** The bound step of a path. */
export function boundStep(model: Model, path: string): BoundStep | null {
  return model.steps.find((step) => outerStep(step.path) === path) ?? null;
}

/** Events whose verb is one of some and that act on one of some names, in order. */
export function eventsOn(fault: Fault, verbs: readonly string[], names: readonly string[]): Event[] {
  return fault.simulation.events.filter(
    (event) =>
      verbs.includes(event.verb) &&
      (names.includes(nameOf(event.subject)) || names.includes(thingOf(event.subject)?.name ?? '')),
  );
}

/** What a step says under a key, as it can be written again; null where it says nothing. */
export function saidInStep(guide: GuideText, path: string, key: string): Value {
  const map = guide.step(path) ?? guide.operation(path);
  const entry = map === null ? undefined : find(map, key, guide.source.reading);
  return entry === undefined ? null : dataOf(entry.value, guide.source.reading);
}
