/** What limits the drop of an axle whose file does not say it. */

import type { Limiter, Part, Thing } from './model';
import type { BuildingPart, BuildingThing } from './parts';

/**
 * An axle that says no `limited-by` is limited by the parts of a kind that `limits-drop` which join it, by implied ones
 * that share its `front` or `rear`, and by the kit parts that replace any of these; each is an entry of its own.
 * @param said whether a thing says `limited-by` itself, or by what it is like, of its kind or takes over.
 */
export function addLimits(things: readonly BuildingThing[], said: (thing: Thing) => boolean): void {
  const parts = things.filter((thing): thing is BuildingPart => thing.type === 'part');
  const limiters = parts.filter((part) => part.attributes.limitsDrop);
  if (limiters.length === 0) return;
  const newer = new Map<Thing, BuildingPart[]>();
  for (const part of parts)
    for (const old of part.replaces) newer.set(old, [...(newer.get(old) ?? []), part]);
  for (const axle of parts) {
    if (!axle.attributes.axle || said(axle)) continue;
    const found = new Set<Part>(
      limiters.filter(
        (part) =>
          part !== axle &&
          (part.joins.includes(axle) || (part.origin === 'implied' && sharesEnd(part, axle))),
      ),
    );
    for (const part of found) for (const other of newer.get(part) ?? []) if (other !== axle) found.add(other);
    axle.limitedBy = [...found].map((part): Limiter => [part]);
  }
}

function sharesEnd(a: Part, b: Part): boolean {
  const words = a.name.split('-');
  const others = b.name.split('-');
  return ['front', 'rear'].some((word) => words.includes(word) && others.includes(word));
}
