// Whether an operation undoes what was never done: aids, holds, what was made safe, chocks.
import { spotsOf } from './corners.ts';
import { aidName } from './packs.ts';
import { map, texts } from './raw.ts';
import { relatedItems } from './relations.ts';
import type { Run } from './run.ts';
import { UNNAMED_JACK } from './state.ts';
import type { Corner, Part, Put, Target } from './things.ts';

/** Remembers every aid that ever stood where a carrying operation works. */
export function rememberAids(run: Run, target: Target): void {
  const spots = spotsOf(run.world, target, run.sides);
  if (!run.judged || !spots) return;
  const keep = (owner: Corner | Part, spot: Map<string, Put>): void => {
    const known = run.wasUnder.get(owner) ?? new Set<string>();
    run.wasUnder.set(owner, known);
    for (const aid of spot.keys()) known.add(aid);
  };
  if (spots.where === 'own') keep(spots.part, spots.part.aids);
  else for (const corner of spots.corners) keep(corner, spots.where === 'body' ? corner.body : corner.axle);
}

/** Whether `unsupport`, `release`, `restore`, `unchock` or `unclip` finds nothing to undo. */
export function nothingToUndo(run: Run, verb: string, target: Target): boolean {
  const { world } = run;
  if (verb === 'restore') return !world.safe.has(target.item);
  if (verb === 'unclip') return target.line?.unclipped === true;
  if (verb === 'unchock')
    return !(spotsOf(world, target, run.sides)?.corners ?? []).some((one) => one.chocked);
  if (verb === 'release') return !heldKeys(run, target).length && target.part?.assumedHeld !== true;
  return verb === 'unsupport' && !stood(run, target);
}

/** The holds that `release` of something lets go: on itself and on its ends. */
export function heldKeys(run: Run, target: Target): string[] {
  return [...run.world.holds.keys()].filter((key) => {
    const [item = '', side = ''] = key.split('@');
    return key === target.key || (side === target.side && item.startsWith(`${target.item}.`));
  });
}

function stood(run: Run, target: Target): boolean {
  const spots = spotsOf(run.world, target, run.sides);
  if (!spots) return false;
  const named = texts(run.raw.with).map((one) => aidName(run.world.packs, one));
  const fits = (aids: string[]): boolean =>
    named.length === 0
      ? aids.length > 0
      : aids.some((aid) => aid === '' || aid === UNNAMED_JACK || named.includes(aid));
  const ever = (owner: Corner | Part): string[] => [...(run.wasUnder.get(owner) ?? [])];
  const granted = (part: Part | undefined): boolean =>
    part !== undefined &&
    (part.assumedHeld || run.world.hanging.some((one) => one.part === part && one.assumedHeld));
  // What stands there under another name is told when it is left.
  if (spots.where === 'own') return granted(spots.part) || spots.part.aids.size > 0 || fits(ever(spots.part));
  return spots.corners.some(
    (corner) =>
      corner.blocked ||
      granted(corner.group.axle) ||
      corner.body.size + corner.axle.size > 0 ||
      fits(ever(corner)),
  );
}

/** Whether a `next` rule still waits for the item to be held or supported. */
export function isAwaited(run: Run, target: Target): boolean {
  return run.askNext.some(({ rule, event }) => {
    const next = map(rule.next);
    if (!texts(next.verb).some((verb) => verb === 'hold' || verb === 'support')) return false;
    if (!relatedItems(run.world, event.target, next.of).some((one) => one.key === target.key)) return false;
    const since = run.events.slice(run.events.indexOf(event) + 1);
    return !since.some((one) =>
      event.target.part ? one.target.part === event.target.part : one.target.key === event.target.key,
    );
  });
}
