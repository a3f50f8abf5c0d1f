// Plays a guide: the fitter does act after act, and after each one it is seen what falls, flies or tears.
import type { Variant } from '../condition.ts';
import type { Act } from './acts.ts';
import { type Car, type Corner, isThere, type Line, type Part } from './car.ts';
import { isA } from './facts.ts';
import { beneath, type Floor, type Harm, nameOf, type Thing, thingsOf } from './floor.ts';
import { perform } from './hands.ts';
import { start } from './joints.ts';
import { hanging } from './lines.ts';
import { bareEnds } from './rest.ts';
import { footing } from './trade.ts';
import { isCarried, isFree } from './weight.ts';

/** Where harm is told; it may throw to end the play. */
export type Tell = (harm: Harm) => void;

/** Works through the acts on a car, which is changed. `toDrill`: the holes that the job drills. */
export function play(
  car: Car,
  acts: readonly Act[],
  variant: Variant,
  toDrill: ReadonlySet<string>,
  tell: Tell,
): void {
  const first = acts[0];
  if (first === undefined) return;
  const floor: Floor = {
    ...{ car, act: first, takenOff: new Set(), toDrill },
    note: (kind, item, says) => tell({ kind, item, says, where: floor.act.step.where }),
  };
  for (const act of acts) {
    if (act.step !== floor.act.step) hanging(floor);
    floor.act = act;
    const things = thingsOf(car, act);
    // What is tightened together is first started together.
    if (act.verb === 'snug' || act.verb === 'torque')
      for (const thing of things)
        if (thing.what === 'joint') {
          car.touched.add(thing.joint.part);
          start(floor, thing.joint);
        }
    for (const thing of things) {
      underLoad(floor, thing);
      if (thing.what !== 'word') car.touched.add(bodyOf(thing));
      perform(floor, thing, variant);
      drops(floor);
    }
    bareEnds(floor);
  }
  hanging(floor);
}

const FROM_BESIDE = ['raise', 'lower', 'support', 'unsupport', 'chock', 'unchock', 'move'];
const ON_PAPER = ['discard', 'wait', 'record'];

/** Nobody is under a vehicle that stands on a jack alone. */
function underLoad({ car, act, note }: Floor, thing: Thing): void {
  if ([...FROM_BESIDE, ...ON_PAPER].includes(act.verb) || !isBeneath(thing, act.verb)) return;
  if (!car.corners.some(isShaky)) return;
  const one = thing.what === 'word' ? undefined : bodyOf(thing);
  const name = one === undefined ? 'the frame' : nameOf(one);
  note('crushes', name, `Somebody works at ${name} under a vehicle that only a jack holds.`);
}

const isShaky = (corner: Corner): boolean =>
  !corner.tyre && beneath(corner).every((aid) => footing(aid) === 'hydraulic' || footing(aid) === 'tie');

const bodyOf = (thing: Exclude<Thing, { what: 'word' }>): Part | Line =>
  thing.what === 'line' ? thing.line : thing.what === 'joint' ? thing.joint.part : thing.part;

/** Whether one must go under the vehicle for it: at what hangs on frame or axle and is not worked on from beside. */
function isBeneath(thing: Thing, verb: string): boolean {
  if (thing.what === 'word') return thing.word === 'frame';
  const one = bodyOf(thing);
  if (one.fact.outside || isA(one.fact, 'wheel')) return false;
  if ('where' in one && !isThere(one) && !['fit', 'bolt-up', 'offer'].includes(verb)) return false;
  const near = 'joined' in one ? one.spans : one.fact.joins;
  return isA(one.fact, 'axle') || near.some((name) => name !== 'body' && name !== 'ground');
}

/** What has nothing under it comes down. */
function drops({ car, note }: Floor): void {
  for (const corner of car.corners)
    if (!corner.tyre && corner.lift.size === 0 && corner.jack.size === 0)
      note('falls', corner.name, `Nothing is under the ${corner.name} end any more: the vehicle falls.`);
  for (const part of car.stopsOf.keys())
    if (isThere(part) && isFree(car, part) && !isCarried(car, part))
      note('falls', part.fact.name, `${nameOf(part)} drops: nothing limits it and nothing is under it.`);
}
