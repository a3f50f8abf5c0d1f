/** The rules that look on, and which of them look at what: told from the sort of an event, once for all events of that sort. */

import { type Event, thingOf } from './event';
import type { Sort, Watcher } from './watcher';

/** Those that look at an event, in order, by when they do. */
export interface Looking {
  readonly all: readonly Watcher[];
  readonly before: readonly Watcher[];
  readonly after: readonly Watcher[];
  readonly atSpot: readonly Watcher[];
  readonly afterSpot: readonly Watcher[];
}

const NO_KINDS: readonly string[] = [];

export class Watchers {
  /** Those that are told of corners that came down or hang lower. */
  readonly ofCorners: readonly Watcher[];
  readonly ofSteps: readonly Watcher[];
  readonly ofEnd: readonly Watcher[];
  /** By verb and type of subject, then by kinds: a kind's line of kinds is one object for all things of it. */
  private readonly bySort = new Map<string, WeakMap<readonly string[], Looking>>();

  /** @param all in the order in which they look. */
  constructor(readonly all: readonly Watcher[]) {
    this.ofCorners = all.filter(({ landed, sank }) => landed !== undefined || sank !== undefined);
    this.ofSteps = all.filter(({ stepEnded }) => stepEnded !== undefined);
    this.ofEnd = all.filter(({ ended }) => ended !== undefined);
  }

  /** Those that look at events of this one's sort. */
  of({ verb, subject }: Event): Looking {
    const kinds = thingOf(subject)?.kinds ?? NO_KINDS;
    const key = `${verb} ${subject.type}`;
    const byKinds = this.bySort.get(key) ?? new WeakMap<readonly string[], Looking>();
    this.bySort.set(key, byKinds);
    const found = byKinds.get(kinds) ?? this.chosen({ verb, type: subject.type, kinds });
    byKinds.set(kinds, found);
    return found;
  }

  /** These, and rules that look at every event, whatever it is of. */
  with({ all }: Looking, awake: ReadonlySet<string>): Looking {
    const looking = new Set(all);
    return byTime(this.all.filter((watcher) => looking.has(watcher) || awake.has(watcher.rule)));
  }

  private chosen(sort: Sort): Looking {
    return byTime(
      this.all.filter(
        ({ verbs, concerns }) =>
          (verbs.includes(sort.verb) || verbs.includes('*')) && concerns?.(sort) !== false,
      ),
    );
  }
}

const byTime = (all: readonly Watcher[]): Looking => ({
  all,
  before: all.filter(({ before }) => before !== undefined),
  after: all.filter(({ after }) => after !== undefined),
  atSpot: all.filter(({ atSpot }) => atSpot !== undefined),
  afterSpot: all.filter(({ afterSpot }) => afterSpot !== undefined),
});

/** Nobody looks. */
export const NOBODY: Looking = byTime([]);
