/** What is open over which stretch of a guide: from the step that opens it to the step that closes it. */

import type { Cube } from '../findings/finding';
import type { Ledger, TraceStep } from './trace';

/** Carried or raised; on an aid; loose; off the vehicle; a line apart; shut off or empty; unfinished in another way. */
export type OpenSort = 'raised' | 'aid' | 'loose' | 'off' | 'apart' | 'stopped' | 'unfinished';

export interface OpenStretch {
  readonly sort: OpenSort;
  /** What is open, as the guide names it, each with its sides. */
  readonly items: readonly { readonly name: string; readonly sides: readonly string[] }[];
  /** How it is: `loose`, `off`, `on pole-jacks`. */
  readonly state: string;
  /** Path of the step that opens it; null where it was open before the first. */
  readonly opened: string | null;
  /** Path of the step that closes it; null where it is open at the end. */
  readonly closed: string | null;
  /** Empty for all. */
  readonly variants: readonly Cube[];
}

const SORTS: Readonly<Record<string, OpenSort>> = {
  'left-raised': 'raised',
  'left-held': 'aid',
  'left-compressed': 'aid',
  'left-loose': 'loose',
  'left-without-pin': 'loose',
  'left-unseated': 'loose',
  'left-off': 'off',
  'left-swung': 'off',
  'left-without': 'off',
  'left-disconnected': 'apart',
  'left-unclipped': 'apart',
  'left-unbled': 'apart',
  'left-unchecked': 'apart',
  'left-isolated': 'stopped',
  'left-switched': 'stopped',
  'left-drained': 'stopped',
  'left-deflated': 'stopped',
  'left-unloaded': 'stopped',
};

/** Told by the aids themselves. */
const BY_AIDS = 'left-supported';
/** How `changeInWords` names the spots of aids; what stands under the body is told by the vehicle being raised. */
const SPOT = 'under ';
const BODY = 'under the body';

interface Open {
  readonly sort: OpenSort;
  readonly name: string;
  readonly side: string;
  readonly state: string;
  readonly variants: readonly Cube[];
}

/** The stretches of a ledger, those that open first before the others. Things of one sort that open and close together are one. */
export function openStretches(ledger: Ledger): OpenStretch[] {
  const found: {
    readonly open: Open;
    readonly from: string | null;
    readonly at: number;
    to: string | null;
  }[] = [];
  const running = new Map<string, (typeof found)[number]>();
  const aids = new Map<string, Open>();
  const note = (step: Pick<TraceStep, 'changes' | 'open'>, path: string | null, at: number): void => {
    for (const change of step.changes) changeAid(aids, change);
    const now = new Map([...step.open.flatMap(debt), ...aids.values()].map((one) => [keyOf(one), one]));
    for (const [key, one] of running) {
      if (now.has(key)) continue;
      one.to = path;
      running.delete(key);
    }
    for (const [key, open] of now) {
      if (running.has(key)) continue;
      const one = { open, from: path, at, to: null };
      running.set(key, one);
      found.push(one);
    }
  };
  note(ledger.given, null, -1);
  wholeSteps(ledger.steps).forEach((step, index) => {
    note(step, step.path, index);
  });
  const together = new Map<
    string,
    Omit<OpenStretch, 'items'> & { readonly items: { name: string; sides: string[] }[] }
  >();
  for (const { open, from, to } of found) {
    const { sort, name, side, state, variants } = open;
    const key = JSON.stringify([sort, state, from, to, variants]);
    let one = together.get(key);
    if (one === undefined) {
      one = { sort, state, items: [], opened: from, closed: to, variants };
      together.set(key, one);
    }
    let item = one.items.find((other) => other.name === name);
    if (item === undefined) {
      item = { name, sides: [] };
      one.items.push(item);
    }
    if (side !== '' && !item.sides.includes(side)) item.sides.push(side);
  }
  return [...together.values()];
}

const keyOf = ({ sort, name, side, state, variants }: Open): string =>
  JSON.stringify([sort, name, side, state, variants]);

function debt({ rule, item, side, variants }: TraceStep['open'][number]): Open[] {
  if (rule === BY_AIDS) return [];
  const state = rule.replace(/^left-/, '').replaceAll('-', ' ');
  return [{ sort: SORTS[rule] ?? 'unfinished', name: item, side, state, variants }];
}

/** Aids are told by the changes of their spots; in a ledger of several variants one change may be in some of them alone. */
function changeAid(aids: Map<string, Open>, change: TraceStep['changes'][number]): void {
  const { item, side, to, variants } = change;
  if (!item.startsWith(SPOT) || item.startsWith(BODY)) return;
  const name = item.slice(SPOT.length);
  const key = JSON.stringify([name, side, variants]);
  for (const [other, open] of aids)
    if (open.name === name && open.side === side && (variants.length === 0 || other === key))
      aids.delete(other);
  if (to !== 'nothing') aids.set(key, { sort: 'aid', name, side, state: `on ${to}`, variants });
}

/** The steps in order, each once: of one that a `use` parts, all changes and what is open after the last stretch. */
function wholeSteps(steps: readonly TraceStep[]): TraceStep[] {
  const whole = new Map<string, TraceStep>();
  for (const step of steps) {
    const known = whole.get(step.path);
    whole.set(
      step.path,
      known === undefined ? step : { ...step, changes: [...known.changes, ...step.changes] },
    );
  }
  return [...whole.values()];
}
