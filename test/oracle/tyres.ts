// Wheels of another size, worked out apart: what the code says of the diameter, and whether anyone looks at the speedometer.

import { holds } from './condition.ts';
import { list, map, text, texts } from './raw.ts';
import { found, named, type Run } from './run.ts';
import type { Part } from './things.ts';

/** How far across a tyre is, mm; undefined where the code says nothing. */
export function across(code: unknown): number | undefined {
  const inches = /^(?:LT)?([0-9]{2}(?:\.[0-9]+)?)x[0-9.]+(?:R|-)[0-9]{2}/i.exec(text(code) ?? '');
  if (inches) return Number(inches[1]) * 25.4;
  const metric = /^(?:LT|P)?([0-9]{3})\/([0-9]{2})R([0-9]{2})/.exec(text(code) ?? '');
  if (!metric) return undefined;
  const [width, aspect, rim] = metric.slice(1).map(Number) as [number, number, number];
  return rim * 25.4 + width * aspect * 0.02;
}

/** A wheel comes out of its box: where it is of another size than the one it replaces, the speedometer is wrong from here. */
export function judgeTyre(run: Run, part: Part): void {
  if (!run.judged || !part.kit || run.otherTyre || !['boxed', 'offered'].includes(part.state)) return;
  const now = across(part.body.tyre);
  const before = texts(part.own.replaces)
    .map((name) => across(run.world.parts.get(name)?.[0]?.body.tyre))
    .find((size) => size !== undefined);
  if (now === undefined || before === undefined || Math.abs(now - before) <= before / 100) return;
  run.otherTyre = { item: part.name, path: run.path };
}

/** A wheel comes out of its box that has no room: no row of a kit's table is for a tyre as large in this variant. */
export function judgeRoom(run: Run, part: Part): void {
  const size = across(part.body.tyre);
  if (size === undefined || !run.judged || !part.kit || !['boxed', 'offered'].includes(part.state)) return;
  const { documents, variant } = run.world;
  const room = documents.kits.flatMap((kit) => {
    const rows = list(kit.clearances).map(map);
    const own = rows.filter((row) => row.when !== undefined && holds(row.when, variant));
    return own.length > 0 ? own : rows.filter((row) => row.when === undefined);
  });
  const sizes = room.flatMap((row) => across(row.tyre) ?? []);
  if (sizes.length > 0 && size > Math.max(...sizes) * 1.01) found(run, 'tyre-too-large', named(part));
}

/** At the end: told where nothing is said of the speedometer. */
export function settleTyres(run: Run): void {
  const { otherTyre, world } = run;
  if (otherTyre === undefined) return;
  const about = (name: string) =>
    ` ${name.replaceAll(/[-.]/g, ' ')} `.match(/ (speedometer|speedo|tyre size) /) !== null;
  const looked = run.events.some(
    ({ verb, target, assumedBy }) =>
      ['check', 'measure', 'adjust', 'set'].includes(verb) && assumedBy === undefined && about(target.item),
  );
  const handed = list(world.documents.guide.owes).some(
    (one) => holds(map(one).when, world.variant) && texts(map(one).check).some(about),
  );
  if (!looked && !handed)
    found(run, 'speedometer-not-told', { item: otherTyre.item, side: '' }, otherTyre.path);
}
