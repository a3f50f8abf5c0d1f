// What is asked when a part is bolted up, and when a taper is parted.
import { cornersOf } from './corners.ts';
import { figure } from './quantity.ts';
import { texts } from './raw.ts';
import { found, named, type Run } from './run.ts';
import type { Part, Target } from './things.ts';
import { fits, isKind, related } from './world.ts';

const FIXED = ['frame', 'body', 'ground', 'vehicle'];

/** Before `bolt-up`: `bolted-to-nothing` and `shock-does-not-reach`. */
export function judgeBoltUp(run: Run, part: Part): void {
  boltedToNothing(run, part);
  shockReaches(run, part);
}

function boltedToNothing(run: Run, part: Part): void {
  const { world } = run;
  const names = part.joins.filter((name) => FIXED.includes(name) || world.declarations.has(name));
  if (part.joints.length < names.length) return;
  const on = (one: Part): boolean => one.state === 'fitted' || one.state === 'swung';
  const joined = names.filter((name) => !FIXED.includes(name)).map((name) => related(world, part, name));
  const boxed = (one: Part): boolean => one.state === 'boxed' || one.state === 'offered';
  const missing = joined.some((all) =>
    [...new Set(all.map(({ name }) => name))].some((name) => {
      const pieces = all.filter((one) => one.name === name);
      const replaced = pieces[0]!.kit ? texts(pieces[0]!.own.replaces) : [];
      const olds = replaced.flatMap((old) => (world.parts.get(old) ?? []).filter((one) => fits(part, one)));
      return pieces.every(boxed) && !olds.some(on);
    }),
  );
  const elsewhere = names.some((name) => FIXED.includes(name)) || joined.flat().some(on);
  if (missing && elsewhere) found(run, 'bolted-to-nothing', named(part));
}

function shockReaches(run: Run, part: Part): void {
  const kinds = texts(run.rules.parameter('shock-does-not-reach', 'kinds'));
  if (!kinds.some((kind) => isKind(part, kind))) return;
  const limits = run.world.hanging.some(({ limiters }) =>
    limiters.some((chain) => chain.some((member) => member.parts.some((one) => one.name === part.name))),
  );
  if (!limits) return;
  const own = texts(part.own.replaces).length === 0 || !part.kit;
  const said = figure(part.own.drop, 'length');
  const reach = said ?? Number(run.rules.parameter('shock-does-not-reach', own ? 'own-mm' : 'kit-mm'));
  const far = cornersOf(run.world, part).some(
    ({ carry, hang }) => carry === 'body' && typeof hang === 'number' && hang > reach,
  );
  if (far) found(run, 'shock-does-not-reach', named(part));
}

/** `nut-still-on`, before `free`: the nut that draws the end in is tight. */
export function judgeFree(run: Run, { end }: Target): void {
  if (!end?.taper) return;
  const { joints, ends } = end.part;
  const word = (name: string): string => name.split('-')[0] ?? '';
  const alone = joints.length === 1 && ends.length === 1;
  const nuts = joints.filter(({ name }) => alone || word(name) === word(end.name));
  if (nuts.some(({ position }) => ['tight', 'snug', 'final'].includes(position)))
    found(run, 'nut-still-on', { item: `${end.part.name}.${end.name}`, side: end.part.label });
}
