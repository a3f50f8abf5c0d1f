/**
 * What parts and lines are to each other, looked up from the other side: by what they replace, join, span. Asked at every
 * event, so it is put in order once instead of going through all there is each time. Lists keep the order of declaration.
 */

import type { Line, Part, Thing } from '../model/model';

type Index<K, V> = ReadonlyMap<K, readonly V[]>;

function indexBy<K, V>(all: readonly V[], keysOf: (one: V) => Iterable<K>): Index<K, V> {
  const found = new Map<K, V[]>();
  for (const one of all)
    for (const key of new Set(keysOf(one))) {
      const list = found.get(key);
      if (list === undefined) found.set(key, [one]);
      else list.push(one);
    }
  return found;
}

export class Lookups {
  /** Parts with `limited-by`. */
  readonly limited: readonly Part[];
  /** Arms, of whatever end. */
  readonly arms: readonly Part[];
  /** Hubs. */
  readonly hubs: readonly Part[];
  /** Parts that carry by air, wheels apart. */
  readonly airSprings: readonly Part[];
  /** Springs that an adjuster loads and unloads. */
  readonly adjusted: readonly Part[];
  /** Wheels that no file declares. */
  readonly impliedWheels: readonly Part[];
  private readonly byReplaced: Index<Thing, Part>;
  private readonly byJoined: Index<Part | string, Part>;
  private readonly bySpanned: Index<Part | string, Line>;

  constructor(parts: readonly Part[], lines: readonly Line[]) {
    this.limited = parts.filter(({ limitedBy }) => limitedBy.length > 0);
    this.arms = parts.filter(({ attributes }) => attributes.arm);
    this.hubs = parts.filter(({ attributes }) => attributes.hub);
    this.airSprings = parts.filter(({ attributes }) => attributes.inflates && !attributes.wheel);
    this.adjusted = parts.filter(({ attributes }) => attributes.adjusted);
    this.impliedWheels = parts.filter(({ origin, attributes }) => origin === 'implied' && attributes.wheel);
    this.byReplaced = indexBy(parts, ({ replaces }) => replaces);
    this.byJoined = indexBy(parts, ({ joins }) => joins);
    this.bySpanned = indexBy(lines, ({ spans }) => spans);
  }

  /** The parts that replace this one. */
  replacing(old: Thing): readonly Part[] {
    return this.byReplaced.get(old) ?? [];
  }

  /** The parts that join this one. */
  joining(part: Part): readonly Part[] {
    return this.byJoined.get(part) ?? [];
  }

  /** The lines that span this one. */
  spanning(part: Part): readonly Line[] {
    return this.bySpanned.get(part) ?? [];
  }
}
