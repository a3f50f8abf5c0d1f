/** The tools of a guide: what its joints, aids, holes and steps ask for, each once, with the steps that want it. */

import { spannersFor } from '../calc/spanners';
import { parseThread } from '../calc/threads';
import type { BoundOperation, BoundStep, Joint, Model } from '../model/model';
import { textsAt } from '../model/source';
import { jointsOf, variantsOf } from './done-on';
import { bothUnits } from './figures';
import { nameInWords, titled } from './names';
import type { Outlines } from './outlines';
import { stepsInWords, type Table } from './table';
import { figuresOf, stagesOf } from './torques';
import { isPrinted } from './variants';

/** In the order in which a workshop lays them out. */
const SORTS = ['lifting', 'spanner', 'key', 'torque wrench', 'drilling', 'special', 'other'] as const;
type Sort = (typeof SORTS)[number];

const IN_WORDS: Readonly<Record<Sort, string>> = {
  lifting: 'Lifting and holding',
  spanner: 'Spanners and sockets',
  key: 'Keys and bits',
  'torque wrench': 'Torque wrenches',
  drilling: 'Drilling',
  special: 'Special tools',
  other: 'Other',
};

export interface Tool {
  readonly sort: Sort;
  readonly name: string;
  /** Printed numbers of the steps that want it, in order. */
  readonly steps: readonly string[];
}

/** Verbs that turn a joint. */
const TURNS = new Set(['loosen', 'remove', 'unbolt', 'bolt-up', 'start', 'snug', 'torque']);
/** With these, what `with:` names is used up or is a matter of taste; consumables tell of it. */
const STUFFS = new Set(['coat', 'apply']);
/** A drill that opens a hole in one go, so that no bit of its size is wanted. */
const OPENS = /step drill|hole saw|cutter|reamer/i;
const BIT = /\b(bit|drill|hole saw|reamer|punch)\b/i;
/** What is cleaned with these is not used up. */
export const BRUSHES = /brush|scraper|cloth|rag|pad|file|tool/i;
/** One torque wrench covers about five times its least setting; common practice. */
const WRENCH_SPAN = 5;

/** @param numbers printed numbers of steps, by path. */
export function toolsOf(
  model: Model,
  outlines: Outlines,
  numbers: ReadonlyMap<string, string>,
  steps: readonly BoundStep[] = model.steps,
): Tool[] {
  const found = new Map<string, { sort: Sort; name: string; steps: string[] }>();
  const torques: { readonly low: number; readonly high: number; readonly step: string }[] = [];
  for (const step of steps) {
    const number = numbers.get(step.path) ?? step.path;
    const want = (sort: Sort, name: string): void => {
      const key = name.toLowerCase().replaceAll('-', ' ');
      const known = found.get(key);
      if (known === undefined) found.set(key, { sort, name, steps: [number] });
      else if (known.steps.at(-1) !== number) known.steps.push(number);
    };
    const cursor = outlines.step(step)?.cursor;
    const said = cursor === undefined ? [] : textsAt(cursor, 'tools').map((text) => text.trim());
    for (const text of said) if (text !== '') want(BIT.test(text) ? 'drilling' : 'other', text);
    for (const operation of step.operations) {
      if (!isPrinted(model, variantsOf(model, operation, null))) continue;
      if (operation.verb === 'chock' && operation.aids.length === 0) want('lifting', 'wheel chocks');
      for (const { name, known, ...aid } of [...operation.aids, ...operation.onto.aids]) {
        if (STUFFS.has(operation.verb) || isMatter(operation, name, known)) continue;
        const lifts = aid.raises || aid.carries || aid.lowers || aid.workUnder || operation.verb === 'chock';
        want(lifts ? 'lifting' : known ? 'special' : 'other', nameInWords(name));
      }
      for (const { sort, name } of drillsOf(operation, said)) want(sort, name);
      if (!TURNS.has(operation.verb)) continue;
      for (const joint of jointsOf(operation)) {
        if (joint.handTight || !isPrinted(model, variantsOf(model, operation, joint))) continue;
        for (const { sort, name } of spannersOf(joint)) want(sort, name);
        if (operation.verb !== 'torque') continue;
        if (operation.words.has('then') || joint.thenAngle !== null) want('torque wrench', 'angle gauge');
        const figures = figuresOf(model, operation, joint).map(({ figure }) => figure);
        for (const figure of [...figures, ...stagesOf(operation, joint)])
          if (figure !== null && figure !== 'maker')
            torques.push({ low: figure.low, high: figure.high, step: number });
      }
    }
  }
  const wrenches = torqueWrenches(torques);
  return [...found.values(), ...wrenches].sort(
    (a, b) => SORTS.indexOf(a.sort) - SORTS.indexOf(b.sort) || bySize(a.name, b.name),
  );
}

/** What a joint is turned, and held against, with. Where its file says no size, that of the standard, said to be so. */
export function spannersOf({
  hex,
  key,
  counterhold,
  thread,
}: Joint): { readonly sort: Sort; readonly name: string }[] {
  const tools: { sort: Sort; name: string }[] = [];
  if (hex !== null) tools.push({ sort: 'spanner', name: hex });
  if (key !== null) tools.push({ sort: 'key', name: `${key.replace(/ key$/, '')} key` });
  if (counterhold !== null)
    tools.push(
      / key$/.test(counterhold)
        ? { sort: 'key', name: counterhold }
        : { sort: 'spanner', name: `${counterhold.trim()} to hold against it` },
    );
  if (hex === null && key === null && thread !== null) {
    const read = parseThread(thread);
    const size = read.ok ? spannersFor(read.thread)[0]?.marked : undefined;
    if (size !== undefined)
      tools.push({ sort: 'spanner', name: `${size} by standard for ${thread}, to be measured` });
  }
  return tools;
}

/** The drills of holes that the step does not name itself. */
function drillsOf({ verb, words }: BoundOperation, said: readonly string[]): { sort: Sort; name: string }[] {
  const size = words.get('to');
  if (verb !== 'drill' || size === undefined) return [];
  if (said.some((text) => text.includes(size) || OPENS.test(text))) return [];
  return [{ sort: 'drilling', name: `${size} bit` }];
}

/** What is wiped, sprayed or rubbed on is no tool, and no more is a fluid. */
const isMatter = ({ verb }: BoundOperation, name: string, known: boolean): boolean =>
  (verb === 'clean' && !BRUSHES.test(name)) || ((verb === 'bleed' || verb === 'fill') && !known);

/** As few wrenches as cover all torques, each with the figures that it is set to. */
function torqueWrenches(
  torques: readonly { readonly low: number; readonly high: number; readonly step: string }[],
): Tool[] {
  const groups: { low: number; high: number; steps: string[] }[] = [];
  for (const { low, high, step } of [...torques].sort((a, b) => a.low - b.low)) {
    const last = groups.at(-1);
    if (last !== undefined && high <= last.low * WRENCH_SPAN) {
      last.high = Math.max(last.high, high);
      last.steps.push(step);
    } else groups.push({ low, high, steps: [step] });
  }
  return groups.map(({ low, high, steps }) => {
    const { metric, imperial } = bothUnits({
      dimension: 'torque',
      low,
      high,
      nominal: (low + high) / 2,
      // Of no unit that is printed, so that both are rounded.
      unit: 'kN·m',
      symbol: 'kN·m',
    });
    return {
      sort: 'torque wrench' as const,
      name: `torque wrench for ${metric} (${imperial})`,
      steps: inOrder(steps),
    };
  });
}

/** Step numbers as they are read: 2.9 before 2.10. */
function inOrder(steps: readonly string[]): string[] {
  return [...new Set(steps)].sort(bySize);
}

/** `8 mm` before `13 mm` before `words`; inches among millimetres by their size are not worth the trouble. */
const bySize = (a: string, b: string): number => {
  const [one, other] = [a.split(/[ .]/).map(Number), b.split(/[ .]/).map(Number)];
  for (let at = 0; at < Math.min(one.length, other.length); at++) {
    if (Number.isNaN(one[at]) || Number.isNaN(other[at])) break;
    if (one[at] !== other[at]) return one[at]! - other[at]!;
  }
  return a < b ? -1 : a > b ? 1 : 0;
};

export function toolTable(tools: readonly Tool[]): Table {
  return {
    title: 'Tools',
    columns: [
      { key: 'sort', title: 'For' },
      { key: 'tool', title: 'Tool' },
      { key: 'steps', title: 'Steps' },
    ],
    rows: tools.map(({ sort, name, steps }) => [IN_WORDS[sort], titled(name), stepsInWords(steps)]),
    byHand: [],
    notes: [],
  };
}
