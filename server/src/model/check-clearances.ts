/** The rows of a kit's `clearances` against one another: gaps, overlaps, and more lift that clears a smaller tyre. */

import { SAME_SIZE, type Tyre } from '../units/tyre';
import type { Diagram } from '../variants/diagram';
import type { World } from '../variants/world';
import { closing, parting, swapped, tyrePlace } from './clearance-fixes';
import { type ClearanceRow, isLift, WHEEL_WORDS } from './clearances';
import type { Report } from './report';
import type { Cursor } from './source';

/** Sizes on rims of another diameter count as one size up to here (common practice). */
const SAME_ON_ANOTHER_RIM = 0.03;
/** Widths of one rim's tyres that differ by less are one, mm. */
const SAME_WIDTH = 5;

/**
 * @param table where the rows stand.
 * @param complete false where there may be traits beside those of the world.
 */
export function checkClearances(
  table: Cursor,
  rows: readonly ClearanceRow[],
  world: World,
  report: Report,
  complete: boolean,
): void {
  if (rows.length === 0) return;
  const judge = new Table(rows, world, report);
  if (complete) judge.gaps(table);
  judge.overlaps();
  judge.falls();
}

class Table {
  private readonly understood: readonly (ClearanceRow & { readonly set: Diagram })[];

  constructor(
    private readonly rows: readonly ClearanceRow[],
    private readonly world: World,
    private readonly report: Report,
  ) {
    this.understood = rows.filter((row): row is ClearanceRow & { set: Diagram } => row.set !== null);
  }

  gaps(table: Cursor): void {
    const { world, rows, understood, report } = this;
    if (understood.length < rows.length) return;
    const covered = understood.reduce((all: Diagram, { set }) => world.diagrams.or(all, set), 0);
    const open = world.diagrams.not(covered);
    if (open === 0 || covered === 0) return;
    report.add('clearance-gap', table.keyPlace, 'No row says what tyre clears here.', {
      severity: 'info',
      variants: world.cubesOf(open),
      fixes: closing(understood),
    });
  }

  overlaps(): void {
    const { world, understood, report } = this;
    understood.forEach((later, index) => {
      for (const earlier of understood.slice(0, index)) {
        const both = world.diagrams.and(earlier.set, later.set);
        if (both === 0 || !isOther(earlier.tyre, later.tyre) || areApart(earlier, later)) continue;
        const message = `Where this row has ${later.tyre.name}, an earlier one has ${earlier.tyre.name}.`;
        report.add(
          'clearance-overlap',
          (later.when ?? later.cursor.get('tyre')!).place,
          message,
          {
            severity: 'warning',
            variants: world.cubesOf(both),
            related: [{ place: tyrePlace(earlier), message: `The row of ${earlier.tyre.name}` }],
            fixes: parting(earlier, later),
          },
          earlier.tyre.name,
        );
      }
    });
  }

  falls(): void {
    for (const [index, { name, numeric }] of this.world.variables.entries()) {
      if (numeric === undefined || !isLift(name)) continue;
      for (const higher of this.understood) {
        const lower = this.understood
          .filter((row) => row !== higher && this.isBelow(row, higher, index))
          .filter(
            (row) =>
              !areApart(row, higher) && across(higher.tyre, row.tyre) > sameAcross(row.tyre, higher.tyre),
          )
          // The nearest of them is the one to be looked at.
          .sort((a, b) => this.reach(b, index)[1] - this.reach(a, index)[1])[0];
        if (lower !== undefined) this.tellFall(lower, higher);
      }
    }
  }

  private tellFall(lower: ClearanceRow, higher: ClearanceRow & { readonly set: Diagram }): void {
    const mm = Math.round(lower.tyre.diameter - higher.tyre.diameter);
    this.report.add(
      'clearance-falls',
      tyrePlace(higher),
      `More lift clears a smaller tyre here: ${higher.tyre.name} is ${mm} mm less across than ${lower.tyre.name}, which clears with less.`,
      {
        severity: 'warning',
        variants: this.world.cubesOf(higher.set),
        related: [{ place: tyrePlace(lower), message: `The row of ${lower.tyre.name}` }],
        fixes: swapped(lower, higher),
      },
    );
  }

  /** Whether two rows are for like vehicles, and the one for less of a figure than all of the other. */
  private isBelow(low: ClearanceRow, high: ClearanceRow, index: number): boolean {
    const { diagrams } = this.world;
    const level = this.world.levelAt(index);
    if (low.set === 0 || high.set === 0) return false;
    if (!diagrams.intersects(diagrams.forget(low.set!, level), diagrams.forget(high.set!, level)))
      return false;
    return this.reach(low, index)[1] < this.reach(high, index)[0];
  }

  /** The places, in order of the figure, of the least and the greatest value that a row is for. */
  private reach({ set }: ClearanceRow, index: number): readonly [number, number] {
    const { intervals } = this.world.variables[index]!.numeric!;
    const order = intervals
      .map((_, place) => place)
      .sort((a, b) => intervals[a]!.low - intervals[b]!.low || intervals[a]!.high - intervals[b]!.high);
    const has = order.map((place) =>
      this.world.diagrams.intersects(set!, this.world.literalAt(index, [place])),
    );
    return [has.indexOf(true), has.lastIndexOf(true)];
  }
}

const across = (a: Tyre, b: Tyre): number => (b.diameter - a.diameter) / a.diameter;
const sameAcross = (a: Tyre, b: Tyre): number => (isOneRim(a, b) ? SAME_SIZE : SAME_ON_ANOTHER_RIM);
const isOneRim = (a: Tyre, b: Tyre): boolean => Math.abs(a.rim - b.rim) < 1;

/** Whether two sizes are not one and the same choice, on their rims. */
function isOther(a: Tyre, b: Tyre): boolean {
  if (Math.abs(across(a, b)) > sameAcross(a, b)) return true;
  return isOneRim(a, b) && Math.abs(a.width - b.width) > SAME_WIDTH;
}

/** Whether what two rows say of the wheel keeps them apart. */
function areApart(a: ClearanceRow, b: ClearanceRow): boolean {
  return WHEEL_WORDS.some((word) => {
    const [one, other] = [a.wheel.get(word), b.wheel.get(word)];
    return one !== undefined && other !== undefined && (one.high < other.low || other.high < one.low);
  });
}
