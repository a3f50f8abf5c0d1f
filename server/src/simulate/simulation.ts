/** What one run through a guide carries: the state, where things are, what was done, what was found. */

import type { Model } from '../model/model';
import type { Diagram } from '../variants/diagram';
import { Corners } from './corners';
import type { Event } from './event';
import { Lookups } from './lookups';
import { State } from './state';

/** A finding before it is put into words: one rule, one item, one set of variants. */
export interface RawFinding {
  readonly rule: string;
  /** Path of the operation it stands at; `0` for the guide itself. */
  readonly operation: string;
  readonly item: string;
  /** Label of the instance: `left`, `front/left`, or nothing. */
  readonly side: string;
  readonly set: Diagram;
  /** The event it stands at, where it stands at one. */
  readonly event: Event | null;
  /** Runs that led there, oldest first. */
  readonly causes: readonly number[];
  /** What the sentence of the rule may name, beside the item. */
  readonly facts: Readonly<Record<string, string>>;
  /** A lesser harm than its rule's, where there is less to it. */
  readonly harm?: import('../findings/finding').Harm;
  /** Where it stands, when it is not the operation: an entry of `leaves`, the kit, a condition. */
  readonly place?: import('../findings/finding').Place;
}

/** Something a rule could not decide for want of a property. */
export interface RawUndecided {
  readonly rule: string;
  readonly item: string;
  readonly property: string;
}

/** That a rule asked about an item: at an event, or at the end where there is none; in these variants. */
export interface Question {
  readonly rule: string;
  readonly item: string;
  readonly side: string;
  readonly event: Event | null;
  readonly set: Diagram;
}

export class Simulation {
  readonly state: State;
  readonly corners: Corners;
  readonly lookups: Lookups;
  /** Every event in running order; an event's `run` is its place here. */
  readonly events: Event[] = [];
  readonly findings: RawFinding[] = [];
  /** Rules that look at all events from now on, of whatever sort. */
  readonly awake = new Set<string>();
  private readonly undecidedKeys = new Map<string, RawUndecided>();

  /** @param counts is told what rules ask; an ordinary run has none and notes nothing. */
  constructor(
    readonly model: Model,
    private readonly counts: ((question: Question) => void) | null = null,
  ) {
    this.state = new State(model.world.diagrams);
    this.corners = new Corners(model);
    this.lookups = new Lookups(this.corners.everyPart, this.corners.everyLine);
  }

  get undecided(): readonly RawUndecided[] {
    return [...this.undecidedKeys.values()];
  }

  /** Whether anyone counts what rules ask. */
  get isCounted(): boolean {
    return this.counts !== null;
  }

  /** A rule asks about an item, whatever the answer is. */
  asks(rule: string, event: Event | null, item: string, side: string, set: Diagram): void {
    if (this.counts === null) return;
    const within = this.model.world.diagrams.and(set, this.model.universe);
    if (within !== 0) this.counts({ rule, item, side, event, set: within });
  }

  report(finding: RawFinding): void {
    const set = this.model.world.diagrams.and(finding.set, this.model.universe);
    if (set === 0) return;
    this.asks(finding.rule, finding.event, finding.item, finding.side, set);
    this.findings.push(set === finding.set ? finding : { ...finding, set });
  }

  /** Has a rule shown every event to come: what it keeps in mind may end with any of them. */
  rouse(rule: string): void {
    this.awake.add(rule);
  }

  leaveUndecided(rule: string, item: string, property: string): void {
    this.undecidedKeys.set(`${rule}|${item}|${property}`, { rule, item, property });
  }
}
