/** The rows of a kit's `clearances`: the largest tyre that clears, by lift or by whatever else decides it. */

import { parseTyre, type Tyre } from '../units/tyre';
import type { Condition } from '../variants/condition';
import type { Diagram } from '../variants/diagram';
import type { World } from '../variants/world';
import type { ConditionReader } from './conditions';
import { readQuantity } from './measures';
import type { Clearance } from './model';
import { Cursor, itemsAt, type OpenDocument, textAt } from './source';

/** What of a wheel may keep two rows apart. */
export const WHEEL_WORDS = ['wheel-width', 'offset', 'backspacing'] as const;

/** Whether a trait or option says by its name how much higher the body stands. */
export const isLift = (name: string): boolean => /(?:^|-)(?:lift|height|raise)(?:-|$)/.test(name);

/** A row as it is written. */
export interface WrittenRow {
  readonly cursor: Cursor;
  readonly when: Cursor | null;
  /** Null for a row without `when`. */
  readonly condition: Condition | null;
  readonly tyre: Tyre;
  /** mm, by the words of `WHEEL_WORDS`. */
  readonly wheel: ReadonlyMap<string, { readonly low: number; readonly high: number }>;
}

/** A row with the variants that it is for; null where its condition is not understood. */
export interface ClearanceRow extends WrittenRow {
  readonly set: Diagram | null;
}

/** The rows of a kit. Their conditions are read before the world is made. */
export function writtenRows(kit: OpenDocument, reader: ConditionReader): WrittenRow[] {
  return itemsAt(Cursor.of(kit), 'clearances').flatMap((cursor): WrittenRow[] => {
    const read = parseTyre(textAt(cursor, 'tyre') ?? '');
    if (!read.ok) return [];
    const when = cursor.get('when');
    const wheel = new Map(
      WHEEL_WORDS.flatMap((word) => {
        const figure = readQuantity(textAt(cursor, word), 'length');
        return figure === null ? [] : [[word, { low: figure.low, high: figure.high }] as const];
      }),
    );
    return [
      { cursor, when, condition: when === null ? null : reader.condition(when), tyre: read.tyre, wheel },
    ];
  });
}

/** The rows of one kit in a world: those without `when` are for the variants that the others leave. */
export function rowsIn(rows: readonly WrittenRow[], world: World, reader: ConditionReader): ClearanceRow[] {
  const sets = rows.map(({ condition }) => {
    if (condition === null) return undefined;
    const { set, understood } = reader.set(world, condition, null);
    return understood ? set : null;
  });
  const known = sets.flatMap((set) => set ?? []);
  const rest = sets.includes(null)
    ? null
    : world.diagrams.not(known.reduce((all, set) => world.diagrams.or(all, set), 0));
  return rows.map((row, index) => ({ ...row, set: sets[index] === undefined ? rest : sets[index]! }));
}

/** A row as the guide's model has it; none where its condition is not understood. */
export function clearanceOf({ set, tyre, cursor }: ClearanceRow): Clearance[] {
  if (set === null) return [];
  const wheel = WHEEL_WORDS.flatMap((word) => {
    const text = textAt(cursor, word);
    return text === null ? [] : [[word, text] as const];
  });
  return [{ set, value: tyre, wheel: new Map(wheel), note: textAt(cursor, 'note')?.trim() || null }];
}
