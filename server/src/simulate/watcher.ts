/** How a rule looks on while a guide runs. A rule implements what it needs; all of it reads state through a branch. */

import type { Diagram } from '../variants/diagram';
import type { Corner } from './corners';
import { type Event, nameOf, type Subject } from './event';
import type { Simulation } from './simulation';
import type { Spot } from './spots';
import type { Branch } from './state';

/** What can be told of an event without the state, and of many events alike. */
export interface Sort {
  readonly verb: string;
  readonly type: Subject['type'];
  /** Of the part or line that it acts on, none where it is neither. */
  readonly kinds: readonly string[];
}

export interface Watcher {
  readonly rule: string;
  /** Verbs it looks at; `*` is all. */
  readonly verbs: readonly string[];
  /** Of these verbs, the sorts of events it has to do with; all where it does not say. After `Simulation.rouse` it sees all events. */
  concerns?(sort: Sort): boolean;
  /** Before the effect of an event. `stop`: the event has no effect and no later rule sees it. */
  before?(sim: Simulation, branch: Branch, event: Event): 'stop' | undefined;
  /** Before the effect of a support verb at one of its spots. */
  atSpot?(sim: Simulation, branch: Branch, event: Event, spot: Spot): void;
  /** After that effect. */
  afterSpot?(sim: Simulation, branch: Branch, event: Event, spot: Spot): void;
  /** After the effect of an event. */
  after?(sim: Simulation, branch: Branch, event: Event): void;
  /** A corner came to stand on its wheel in these variants. */
  landed?(sim: Simulation, event: Event, corner: Corner, set: Diagram): void;
  /** A corner hangs lower than before in these variants. */
  sank?(sim: Simulation, event: Event, corner: Corner, set: Diagram): void;
  /** A step (one pass of it) is over; these are its events. */
  stepEnded?(sim: Simulation, events: readonly Event[]): void;
  /** The guide is over. */
  ended?(sim: Simulation): void;
}

/**
 * Notes that a rule asks about an item at an event, whatever it then finds: where the operation and the item are of the sort
 * that the rule is about. Costs nothing where nobody counts.
 * @param item what the event acts on, where it is not said.
 */
export function ask(
  sim: Simulation,
  branch: Branch,
  event: Event,
  rule: string,
  item?: string,
  side: string = event.at.label,
): void {
  if (!sim.isCounted) return;
  branch.whenDone((set) => sim.asks(rule, event, item ?? nameOf(event.subject), side, set));
}

/** Reports a finding for the final set of a branch. */
export function flag(
  sim: Simulation,
  branch: Branch,
  event: Event,
  rule: string,
  item: string,
  more: {
    side?: string;
    causes?: (set: Diagram) => readonly number[];
    facts?: Readonly<Record<string, string>>;
  } = {},
): void {
  branch.whenDone((set) => {
    sim.report({
      rule,
      operation: event.operation.path,
      item,
      side: more.side ?? event.at.label,
      set,
      event,
      causes: more.causes?.(set) ?? [],
      facts: more.facts ?? {},
    });
  });
}
