/** Settings that the next one always takes the place of. */

import type { Place } from '../findings/finding';
import type { Diagram } from '../variants/diagram';
import type { BoundOperation } from './model';
import type { OperationScope } from './scope';

/** Where these set a thing twice, the second setting alone counts. */
export const LAST_COUNTS: ReadonlySet<string> = new Set(['set', 'adjust', 'inflate', 'deflate', 'switch']);

/** An operation with what it sets, as written, and the variants in which it is done. */
interface Setting {
  readonly guard: Diagram;
  readonly setting: string;
}

/** A setting with nothing else done to the thing since. */
interface Standing extends Setting {
  readonly verb: string;
  readonly place: Place;
  readonly path: string;
}

/** Follows the settings of each thing through a section. */
export class ReplacedSettings {
  private standing = new Map<string, Standing[]>();

  constructor(private readonly scope: OperationScope) {}

  /**
   * Reports the settings that stand and that this one replaces wherever they were made, and elsewhere too: where they are written.
   * @param byRange whether it is one of a choice by a figure, which is judged as such.
   */
  operation(
    key: string,
    thing: string,
    { verb, place, path }: BoundOperation,
    { guard, setting, byRange }: Setting & { readonly byRange: boolean },
  ): void {
    const { diagrams } = this.scope.world;
    const before = this.standing.get(key) ?? [];
    const settles = setting.startsWith('to ');
    if (settles && !byRange && LAST_COUNTS.has(verb))
      for (const earlier of before)
        if (
          earlier.verb === verb &&
          earlier.setting !== setting &&
          earlier.guard !== guard &&
          diagrams.minus(earlier.guard, guard) === 0
        )
          this.report(earlier, thing, place, path);
    const still = before.filter((one) => one.verb === verb || !diagrams.intersects(one.guard, guard));
    this.standing.set(key, settles ? [...still, { verb, guard, setting, place, path }] : still);
  }

  /** A section ends: what is set in the next is another matter. */
  close(): void {
    this.standing = new Map();
  }

  private report(earlier: Standing, thing: string, place: Place, path: string): void {
    const { world, universe, report } = this.scope;
    const which = stepOf(earlier.path) === stepOf(path) ? 'the one after it' : `that of step ${stepOf(path)}`;
    report.add(
      'setting-replaced',
      earlier.place,
      `This setting never counts: ${which} always takes its place, so ${thing} is never left as this one sets it.`,
      {
        severity: 'warning',
        variants: world.cubesOf(earlier.guard, universe),
        related: [{ place, message: which }],
        operation: earlier.path,
      },
    );
  }
}

/** How another setting is told of. */
export const rangeOf = (earlier: { readonly path: string }, later: { readonly path: string }): string =>
  stepOf(earlier.path) === stepOf(later.path) ? 'the one before it' : `that of step ${stepOf(earlier.path)}`;

const stepOf = (path: string): string => path.split('.').slice(0, 2).join('.');
