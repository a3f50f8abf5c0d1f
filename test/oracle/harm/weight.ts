// Lifting, letting down, holding up.

import { figure } from '../quantity.ts';
import { type Car, type Corner, isAt, isDown, isOn, isThere, type Part, RIDE, type Stop } from './car.ts';
import { isA } from './facts.ts';
import { aidsOf, beneath, type Floor, nameOf, type Thing } from './floor.ts';
import { landed } from './landing.ts';
import { footing, isJack, letsDown, underTyres } from './trade.ts';
import { travelled } from './travel.ts';

interface Under {
  readonly corners: readonly Corner[];
  /** The body itself, the axle (or wheel), or some part of its own. */
  readonly what: 'body' | 'axle' | 'part';
  readonly part: Part | undefined;
  readonly name: string;
}

/** What a lifting act takes hold of. */
function underOf({ car, act }: Floor, thing: Thing): Under {
  const beside = (corner: Corner) => act.sides.includes(corner.side);
  if (thing.what === 'word') {
    const ends = ['front', 'rear'].includes(thing.word);
    const corners = car.corners.filter((one) => beside(one) && (!ends || isAt(one, thing.word)));
    return { corners, what: 'body', part: undefined, name: thing.word };
  }
  if (thing.what !== 'part') return { corners: [], what: 'part', part: undefined, name: '' };
  const { part } = thing;
  const corners = (car.cornersOf.get(part) ?? []).filter(beside);
  const axle = isA(part.fact, 'axle', 'wheel');
  return { corners, what: axle ? 'axle' : 'part', part, name: nameOf(part) };
}

const isArm = (part: Part | undefined): boolean => part?.fact.body.arm === true;

export function raise(floor: Floor, thing: Thing): void {
  const { act } = floor;
  const under = underOf(floor, thing);
  const aids = aidsOf(act.raw, 'with');
  if (aids.some(isJack)) rolls(floor, under);
  for (const aid of aids)
    if (footing(aid) === 'tie') floor.note('falls', aid, `${aid} lifts nothing of that weight.`);
  if (under.what === 'part' && !isArm(under.part)) {
    for (const aid of aids) under.part?.under.add(aid);
    return;
  }
  if (under.part !== undefined) {
    const bare = under.corners.every(({ jack }) => jack.size === 0) && under.part.under.size === 0;
    if (aids.length === 0 && bare)
      floor.note('cannot', under.name, `Nothing stands under ${under.name} to raise it by.`);
  }
  for (const corner of under.corners) {
    if (under.what === 'body') {
      for (const aid of aids) corner.lift.add(aid);
      if (aids.some(underTyres)) continue;
      corner.tyre = false;
      if (corner.jack.size === 0) corner.hang = 0;
      continue;
    }
    for (const aid of aids) (isArm(under.part) ? under.part!.under : corner.jack).add(aid);
    const lifted = corner.lift.size > 0 && !corner.tyre;
    const by = figure(act.raw.by, 'length');
    corner.tyre = false;
    corner.hang = lifted && by !== undefined ? corner.hang - by : RIDE;
  }
  travelled(floor, under.corners, new Map());
}

/** A jack under one end tips as soon as the other end can roll. */
function rolls({ note, car }: Floor, under: Under): void {
  const lifted = under.corners.filter(isDown);
  const staying = car.corners.filter((one) => isDown(one) && !under.corners.includes(one));
  if (lifted.length > 0 && staying.length > 0 && !staying.some(({ chocked }) => chocked))
    note('rolls', under.name, `No wheel is chocked, and the vehicle rolls off the jack under ${under.name}.`);
}

export function support(floor: Floor, thing: Thing): void {
  const { act } = floor;
  const under = underOf(floor, thing);
  const aids = aidsOf(act.raw, 'with');
  const named = aids.length > 0 ? aids : ['some-aid'];
  if (under.what === 'part') for (const aid of named) under.part?.under.add(aid);
  else
    for (const corner of under.corners)
      for (const aid of named) (under.what === 'body' ? corner.lift : corner.jack).add(aid);
}

export function unsupport(floor: Floor, thing: Thing): void {
  const { act } = floor;
  const under = underOf(floor, thing);
  const aids = aidsOf(act.raw, 'with');
  const spots =
    under.what === 'part'
      ? [under.part?.under ?? new Set<string>()]
      : under.corners.map((corner) => (under.what === 'body' ? corner.lift : corner.jack));
  const gone = (spot: Set<string>) => (aids.length === 0 ? [...spot] : aids.filter((aid) => spot.has(aid)));
  if (spots.every((spot) => gone(spot).length === 0))
    floor.note('cannot', under.name, `Nothing of the kind stands under ${under.name} to take away.`);
  for (const spot of spots) for (const aid of gone(spot)) spot.delete(aid);
  if (under.what !== 'axle') return;
  // A jack is let down before it is drawn out: the axle comes to hang, if something lets it hang.
  for (const corner of under.corners)
    if (corner.jack.size === 0 && corner.lift.size > 0 && corner.hang < 0) corner.hang = 0;
}

export function lower(floor: Floor, thing: Thing): void {
  const under = underOf(floor, thing);
  if (under.what === 'body') lowerBody(floor, under);
  else lowerAxle(floor, under);
}

function lowerBody(floor: Floor, under: Under): void {
  const { act } = floor;
  const aids = aidsOf(act.raw, 'with');
  const onto = aidsOf(act.raw, 'onto');
  const raised = under.corners.filter((corner) => beneath(corner).length > 0);
  if (raised.length === 0) {
    floor.note('cannot', under.name, `${under.name} stands on the ground: there is nothing to let down.`);
    return;
  }
  for (const aid of aids)
    if (!raised.some(({ lift, jack }) => lift.has(aid) || jack.has(aid)))
      floor.note('cannot', aid, `No ${aid} stands under ${under.name} to let it down by.`);
  if (act.raw.by !== undefined) return;
  const goes = (aid: string) => (aids.length > 0 ? aids.includes(aid) : letsDown(aid));
  for (const corner of raised) {
    for (const aid of [...corner.lift]) if (goes(aid)) corner.lift.delete(aid);
    if (onto.length > 0) {
      for (const aid of onto) {
        if (footing(aid) === 'tie') floor.note('falls', aid, `${aid} does not carry a vehicle.`);
        if (corner.jack.has(aid)) corner.hang = RIDE;
        else corner.lift.add(aid);
      }
      continue;
    }
    for (const aid of [...corner.jack]) if (aids.includes(aid)) corner.jack.delete(aid);
    const left = beneath(corner)[0];
    if (left !== undefined)
      floor.note(
        'crushes',
        left,
        `The vehicle comes down on the ${left} that was left under ${corner.name}.`,
      );
  }
  if (onto.length === 0) landed(floor, raised);
}

function lowerAxle(floor: Floor, under: Under): void {
  const { act } = floor;
  if (under.what === 'part' && !isArm(under.part)) return;
  const held = under.corners.filter(({ jack }) => jack.size > 0 || (under.part?.under.size ?? 0) > 0);
  if (held.length === 0) {
    floor.note('cannot', under.name, `Nothing holds ${under.name}, so nobody can let it down evenly.`);
    return;
  }
  const before = new Map(held.map((corner) => [corner, corner.hang]));
  const by = figure(act.raw.by, 'length');
  const onto = aidsOf(act.raw, 'onto');
  const ground = held.filter(({ lift, tyre }) => lift.size === 0 && !tyre);
  for (const corner of held) {
    if (ground.includes(corner)) continue;
    const limit = isFree(floor.car, under.part!) ? (under.part!.fact.drop ?? 0) : 0;
    const from = Math.max(corner.hang, 0);
    const to = by === undefined ? Math.max(limit, from) : from + by;
    const free = isFree(floor.car, under.part!);
    if (free && under.part!.fact.drop !== undefined && to > under.part!.fact.drop + 5)
      floor.note(
        'falls',
        under.name,
        `${under.name} cannot go ${Math.round(to)} mm down: it leaves its jack and hangs in its arms and lines.`,
      );
    corner.hang = free ? to : Math.max(0, Math.min(from, to));
  }
  travelled(floor, held, before);
  if (ground.length === 0) return;
  if (onto.length > 0) {
    for (const corner of ground) for (const aid of onto) corner.jack.add(aid);
    return;
  }
  for (const corner of ground) corner.jack.clear();
  landed(floor, ground);
}

/** Whether nothing keeps a part from dropping any more: all that limited it is undone, on every side that it has. */
export function isFree(car: Car, part: Part): boolean {
  const stops = car.stopsOf.get(part) ?? [];
  return stops.length > 0 && stops.every((chain) => chain.some(isUndone));
}

const isUndone = ({ joint, fillers }: Stop): boolean =>
  fillers.length > 0 && fillers.every((one) => !holdsUp(one, joint));

function holdsUp(part: Part, joint: string | undefined): boolean {
  if (!isOn(part)) return false;
  if (joint !== undefined) return part.joints.some(({ fact, grip }) => fact.name === joint && grip !== 'out');
  return part.joints.every(({ grip }) => grip !== 'out') && [...part.seated.values()].every((one) => one);
}

/** Whether a part that could drop is carried: by its wheel on the ground, or by something beneath it. */
export function isCarried(car: Car, part: Part): boolean {
  const carries = (aid: string) => footing(aid) !== 'tie';
  const corners = car.cornersOf.get(part) ?? [];
  if ([...part.under].some(carries)) return true;
  return corners.some((corner) => corner.tyre || [...corner.jack].some(carries) || armHeld(corner));
}

const armHeld = (corner: Corner): boolean =>
  [...corner.chain].some((part) => isArm(part) && isThere(part) && part.under.size > 0);

/** Chocks keep the wheels of an end from rolling. */
export function chock(floor: Floor, thing: Thing, set: boolean): void {
  for (const corner of underOf(floor, thing).corners) corner.chocked = set;
}

/** Rolled or driven: everything must stand on its wheels. */
export function move(floor: Floor): void {
  landed(floor, floor.car.corners);
}
