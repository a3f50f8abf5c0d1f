// `support-axle-before-shock-removal`: what limits the drop is undone while nothing holds what would drop.
import { allUndone, limiterUndone, undoneMembers } from './corners.ts';
import { found, type Run } from './run.ts';
import { hangingHeld } from './state.ts';
import type { Hanging, Limiter, Target } from './things.ts';
import type { World } from './world.ts';

/** The limiters that still hold, of everything that could drop and does not yet. */
export function limitersBefore(world: World): Map<Hanging, Limiter[]> {
  const before = new Map<Hanging, Limiter[]>();
  for (const hanging of world.hanging) {
    if (allUndone(hanging)) continue;
    before.set(
      hanging,
      hanging.limiters.filter((limiter) => !limiterUndone(limiter)),
    );
  }
  return before;
}

/** After an operation: whether it took the last limiter of something that a raised body carries and nothing holds. */
export function droppedNow(run: Run, target: Target, before: Map<Hanging, Limiter[]>): void {
  for (const [hanging, holding] of before) {
    if (holding.length === 0 || !allUndone(hanging)) continue;
    if (hanging.part.state !== 'fitted' && hanging.part.state !== 'swung') continue;
    if (!hanging.corners.some((corner) => corner.carry === 'body') || hangingHeld(run.world, hanging))
      continue;
    for (const limiter of holding) {
      for (const member of undoneMembers(limiter)) {
        const part = member.parts.find((one) => one === target.part) ?? member.parts[0];
        if (!part) continue;
        const joint = member.joints?.find((one) => one.part === part);
        found(run, 'support-axle-before-shock-removal', {
          item: joint ? joint.item : part.name,
          side: part.label,
        });
      }
    }
    if (run.judged) hanging.assumedHeld = true;
  }
}
