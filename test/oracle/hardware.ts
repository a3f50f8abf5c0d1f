// Kit hardware that nobody takes out of the box.
import { texts } from './raw.ts';
import { found, type Run } from './run.ts';
import type { Joint, Target } from './things.ts';

/** The names by which hardware says that it is for a joint: its part, itself, one of its pieces. */
function isFor(wanted: string[], joint: Joint, pieces: string[] | 'all'): boolean {
  return wanted.some((one) => {
    const [part, name, ...rest] = one.split('.');
    if (part !== joint.part.name || (name !== undefined && name !== joint.name)) return false;
    return rest.length === 0 || pieces === 'all' || pieces.includes(rest.join('.'));
  });
}

/** Remembers the hardware that an operation takes. */
export function noteHardware(run: Run, verb: string, target: Target): void {
  const news = texts(run.raw.new);
  const whole = verb === 'renew' && target.piece === undefined;
  const pieces = verb === 'renew' ? [target.piece ?? ''] : news;
  const fits = ['start', 'snug', 'torque', 'fit', 'bolt-up', 'unbolt', 'remove', 'loosen'].includes(verb);
  if (verb !== 'renew' && (!fits || news.length === 0)) return;
  const ofJoint = target.what === 'joint' || target.what === 'piece';
  const joints = ofJoint && target.joint ? [target.joint] : (target.part?.joints ?? []);
  if (!ofJoint && (target.what !== 'part' || verb === 'renew')) return;
  for (const [name, body] of Object.entries(run.world.hardware))
    if (joints.some((joint) => isFor(texts(body.for), joint, whole ? 'all' : pieces)))
      run.hardwareUsed.add(name);
}

/** `left-unused` of hardware that only joints of the vehicle want, which no kit part takes over. */
export function oweHardware(run: Run): void {
  const { guide } = run.world.documents;
  if (guide.follows !== undefined || Object.keys((guide.leaves ?? {}) as object).length > 0) return;
  for (const [name, body] of Object.entries(run.world.hardware)) {
    const wanted = texts(body.for).map((one) => one.split('.'));
    const plain = wanted.every(([part = '', joint]) => {
      const own = run.world.parts.get(part)?.[0];
      if (own === undefined || own.kit || own.implied || run.world.replacers.has(part)) return false;
      return joint === undefined || own.joints.some((one) => one.name === joint);
    });
    if (wanted.length === 0 || !plain || Number(body.quantity ?? 1) === 0 || run.hardwareUsed.has(name))
      continue;
    const names = wanted.flatMap(([part = '', joint]) => [
      part,
      ...(run.world.parts.get(part) ?? [])
        .flatMap((one) => one.joints)
        .filter((one) => joint === undefined || one.name === joint)
        .map((one) => one.item),
    ]);
    if ([...run.findings.values()].some(({ item }) => names.includes(item))) continue;
    found(run, 'left-unused', { item: name, side: '' }, '0');
  }
}
