/** Names that a guide without a vehicle file writes once, and that are nearly one which it writes more often. */

import { NameGuesser } from './nearest';
import type { BuildingThing } from './parts';
import { type Report, shown, writeInstead } from './report';
import type { Cursor } from './source';
import type { Usage } from './usage';

/** Words that tell one thing from its fellow, however few letters they differ in. */
const FELLOWS: readonly (readonly [string, string])[] = [
  ['front', 'rear'],
  ['left', 'right'],
  ['upper', 'lower'],
  ['inner', 'outer'],
  ['inlet', 'outlet'],
  ['in', 'out'],
  ['top', 'bottom'],
  ['inboard', 'outboard'],
  ['male', 'female'],
];

interface Use {
  readonly name: string;
  readonly count: number;
  readonly cursor: Cursor | null;
}

/** A warning at each such name: nobody declared it, so it may still be what was meant. */
export function reportSlips(
  usages: ReadonlyMap<string, Usage>,
  things: ReadonlyMap<string, BuildingThing>,
  report: Report,
): void {
  const declared = [...things.values()].filter((thing) => thing.origin !== 'implied');
  const used = [...usages.values()].filter((usage) => things.get(usage.name)?.origin === 'implied');
  reportAmong(
    used,
    declared.map((thing) => thing.name),
    report,
    (near, written, name) => near + written.slice(name.length),
  );
  for (const usage of used) {
    const subs = [...usage.subUses].map(([name, use]): Use => ({ name, ...use }));
    if (subs.length < 2) continue;
    reportAmong(subs, [], report, (near, written, name) => {
      const start = usage.name.length + 1;
      return written.slice(0, start) + near + written.slice(start + name.length);
    });
  }
}

function reportAmong(
  uses: readonly Use[],
  declared: readonly string[],
  report: Report,
  instead: (near: string, written: string, name: string) => string,
): void {
  const often = uses.filter((use) => use.count > 1).map((use) => use.name);
  const guesser = new NameGuesser([...often, ...declared]);
  for (const { name, count, cursor } of uses) {
    if (count !== 1 || cursor === null) continue;
    const near = guesser.nearest(name);
    if (near === null || areFellows(name, near)) continue;
    const message = `"${shown(name)}" is named only here; did you mean "${near}"?`;
    const fixes = [writeInstead(cursor.place, instead(near, cursor.text!, name))];
    report.add('unknown-name', cursor.place, message, { severity: 'warning', fixes, item: name });
  }
}

/** Whether two names differ in a word that tells fellows apart, or in a single letter or figure that stands alone. */
function areFellows(a: string, b: string): boolean {
  const [ours, theirs] = [a.split('-'), b.split('-')];
  if (ours.length !== theirs.length) return false;
  return ours.some((word, index) => {
    const other = theirs[index]!;
    if (word === other) return false;
    if (word.length === 1 && other.length === 1) return true;
    return FELLOWS.some((pair) => pair.includes(word) && pair.includes(other));
  });
}
