/** Conditions of a guide that never hold, or always do, where they are asked. */

import type { Place } from '../findings/finding';
import type { Condition } from '../variants/condition';
import type { Diagram } from '../variants/diagram';
import type { ConditionPart } from './conditions';
import type { Frame } from './runs';
import type { OperationScope } from './scope';
import type { Cursor } from './source';

/** Judges the conditions that a guide writes itself. */
export class ConditionJudge {
  constructor(
    private readonly main: Frame,
    private readonly scope: OperationScope,
  ) {}

  /**
   * Judges a condition where only the variants of `around` come to.
   * @returns the variants that go on from it; null where that is not known, 0 where it is told or was told.
   */
  judged(when: Cursor | null, around: Diagram | null, then: string, path: string): Diagram | null {
    if (when === null || around === null || around === 0) return around;
    const { guards, world } = this.scope;
    const set = this.set(guards.condition(this.main, when));
    if (set === null) return null;
    const { diagrams } = world;
    const left = diagrams.and(around, set);
    if (left === 0) this.never(when, set, around, then, path);
    else this.always(when, around, path);
    return left;
  }

  private never(when: Cursor, set: Diagram, around: Diagram, then: string, path: string): void {
    const { universe, world, report } = this.scope;
    const part = this.scope.reader
      .partsOf(when)
      .find(({ condition }) => !when.isList && this.meets(condition, around) === false);
    const why =
      set === 0
        ? 'No vehicle can be so'
        : world.diagrams.intersects(set, universe)
          ? 'What stands around this leaves no such vehicle'
          : 'The guide covers no such vehicle';
    report.add('never-done', part === undefined ? when.place : placeOf(part), `${why}, so ${then}.`, {
      severity: 'warning',
      operation: path,
    });
  }

  /** A key that holds wherever it is asked, or one of several conditions that never does. */
  private always(when: Cursor, around: Diagram, path: string): void {
    const { report, reader, world } = this.scope;
    const parts = reader.partsOf(when);
    const add = (place: Place, message: string) =>
      report.add('always-so', place, message, { severity: 'info', operation: path });
    const holds = ({ condition }: ConditionPart): boolean => {
      const set = this.set(condition);
      return set !== null && world.diagrams.implies(around, set);
    };
    if (when.isList) {
      for (const part of parts)
        if (this.meets(part.condition, around) === false)
          add(part.cursor.header, 'No vehicle that comes here is so: this alternative is never the case.');
      const any = this.set({ any: parts.map(({ condition }) => condition) });
      if (any !== null && world.diagrams.implies(around, any)) add(when.place, EVERY);
      return;
    }
    const idle = parts.filter(holds);
    if (idle.length === parts.length) add(when.place, EVERY);
    else for (const part of idle) add(placeOf(part), EVERY);
  }

  /** Whether a condition holds anywhere in a set; null where it was not understood. */
  private meets(condition: Condition, around: Diagram): boolean | null {
    const set = this.set(condition);
    return set === null ? null : this.scope.world.diagrams.intersects(set, around);
  }

  private set(condition: Condition): Diagram | null {
    const { reader, world } = this.scope;
    const { set, understood } = reader.set(world, condition, null);
    return understood ? set : null;
  }
}

const EVERY = 'Every vehicle that comes here is so: the condition says nothing.';

/** A key with its value; of a list's element the element. */
function placeOf({ cursor }: ConditionPart): Place {
  const { uri, span } = cursor.keyPlace;
  return { uri, span: { start: span.start, end: Math.max(span.end, cursor.span.end) } };
}
