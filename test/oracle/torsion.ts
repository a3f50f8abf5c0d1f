// `loaded-bar-let-go`: what holds a torsion bar wound up comes away.
import { joined } from './corners.ts';
import { springLoaded } from './parts.ts';
import { found, named, type Run } from './run.ts';
import type { Joint, Part } from './things.ts';
import { allParts, fits, isKind, roleNames, says, type World } from './world.ts';

const on = (part: Part): boolean => part.state === 'fitted' || part.state === 'swung';
const anchoring = (part: Part): boolean => isKind(part, 'adjuster') || isKind(part, 'torsion-anchor');

/** Adjuster and anchor of a bar, and what these sit on. */
function anchorsOf(world: World, bar: Part): Part[] {
  if (!says(bar.body, 'adjusted')) return [];
  const own = joined(world, bar);
  const first = allParts(world).filter(
    (one) => anchoring(one) && (own.includes(one) || joined(world, one).includes(bar)),
  );
  const seats = first
    .flatMap((one) => joined(world, one))
    .filter((one) => one !== bar && fits(bar, one))
    .filter((one) => !own.includes(one) && !isKind(one, 'wheel') && !says(one.body, 'axle'));
  return [...first, ...seats];
}

function isAway(world: World, part: Part): boolean {
  if (part.state === 'off' || part.state === 'off-with') return true;
  if (part.state === 'discarded')
    return !roleNames(world, part.name)
      .filter((name) => name !== part.name)
      .some((name) => (world.parts.get(name) ?? []).some((one) => fits(part, one) && on(one)));
  return on(part) && part.joints.length > 0 && part.joints.every((joint) => joint.position === 'out');
}

/** Whether a bar has lost an anchor, and with it its load. */
export function letGo(world: World, bar: Part): boolean {
  return anchorsOf(world, bar).some((anchor) => isAway(world, anchor));
}

/** Before a part comes off, or a joint of it comes out. */
export function judgeAnchor(run: Run, part: Part, joint: Joint | undefined): void {
  if (!on(part)) return;
  if (joint && part.joints.some((one) => one !== joint && one.position !== 'out')) return;
  const loaded = allParts(run.world).some(
    (bar) => anchorsOf(run.world, bar).includes(part) && on(bar) && springLoaded(run, bar),
  );
  if (loaded) found(run, 'loaded-bar-let-go', named(part));
}
