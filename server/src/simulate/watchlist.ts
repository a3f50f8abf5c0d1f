/** Which of many items have a value that somebody looks for, kept up as they change: asking costs what changed, not what there is. */

import type { Value } from './state';

export class Watchlist {
  private readonly stirred = new Set<number>();
  private found = new Set<number>();
  private sorted: readonly number[] | null = null;

  /**
   * @param count how many items there are; they are known by their place, 0 and up.
   * @param mayBe whether the item at a place has the value looked for in any variant.
   */
  constructor(
    count: number,
    private readonly mayBe: (place: number) => boolean,
  ) {
    for (let place = 0; place < count; place++) this.stirred.add(place);
  }

  /** The item at a place changed. */
  stir(place: number): void {
    this.stirred.add(place);
  }

  /** The places of those that have it now, in any variant, in order. */
  now(): readonly number[] {
    for (const place of this.stirred) {
      const is = this.mayBe(place);
      if (is === this.found.has(place)) continue;
      if (is) this.found.add(place);
      else this.found.delete(place);
      this.sorted = null;
    }
    this.stirred.clear();
    this.sorted ??= [...this.found].sort((a, b) => a - b);
    return this.sorted;
  }
}

/** What somebody looks for. */
export type Holds = (value: Value) => boolean;
