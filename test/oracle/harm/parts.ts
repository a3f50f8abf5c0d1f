// Taking parts off, putting them on, throwing them away.
import { map, texts } from '../raw.ts';
import { fillers, isIn, isOn, isThere, type Joint, meet, type Part } from './car.ts';
import { isA, isMetal } from './facts.ts';
import { type Floor, jointName, nameOf } from './floor.ts';
import { EACH_OF_TWO, footing, ONE_PERSON } from './trade.ts';
import { isPressed } from './travel.ts';

/** Nobody gets at a thing that something else is in front of. */
export function inReach({ car, note }: Floor, part: Part, joint?: Joint): void {
  const covers = joint?.fact.coveredBy ?? part.fact.coveredBy;
  for (const name of covers)
    for (const cover of fillers(car, name, part))
      if (cover !== part && isOn(cover))
        note('cannot', part.fact.name, `${nameOf(cover)} is in the way of ${nameOf(part)}.`);
}

/** The bolts of a joint come out. */
export function undo(floor: Floor, joint: Joint): void {
  const { part } = joint;
  const corners = floor.car.cornersOf.get(part) ?? [];
  if (
    isA(part.fact, 'wheel') &&
    isOn(part) &&
    corners.some((corner) => corner.wheels.includes(part) && corner.tyre)
  )
    floor.note('falls', part.fact.name, `${nameOf(part)} is undone with the vehicle's weight on it.`);
  if (joint.fact.firstOnGround && (joint.grip === 'tight' || joint.grip === 'done'))
    floor.note(
      'cannot',
      jointName(joint),
      `${jointName(joint)} is too tight to undo with the wheel in the air.`,
    );
  slacken(floor, joint);
  joint.grip = 'out';
  for (const piece of joint.fact.pieces) joint.spent.add(piece);
  joint.pin = false;
  floor.takenOff.add(part);
  fallsByHand(floor, part);
}

/** A joint is undone so far that what it held can move. */
export function slacken(floor: Floor, joint: Joint): void {
  joint.undone = true;
  joint.figure = undefined;
  if (joint.fact.stretch) joint.spent.add('bolt');
  if (joint.grip === 'tight' || joint.grip === 'done' || joint.grip === 'nipped') joint.grip = 'slack';
  joint.pin = false;
  if (joint.part.fact.body.system === undefined) return;
  movesWheels(floor, joint.part);
}

/** Who undoes arms or steering has moved the wheels; what was said of their angles before is no longer so. */
export function movesWheels({ car }: Floor, part: Part): void {
  const steers = ['control-arm', 'strut', 'knuckle', 'cam-bolt', 'tie-rod', 'tie-rod-end', 'drag-link'];
  if (!isA(part.fact, ...steers, 'pitman-arm', 'idler-arm', 'steering-arm', 'steering-rack')) return;
  car.wheelsMoved = part.fact.name;
  car.handed.clear();
}

/** Its last hold is gone: somebody has it in his hands, or it comes down. */
export function fallsByHand(floor: Floor, part: Part): void {
  if (!isThere(part) || part.joints.some(isIn) || [...part.seated.values()].some((one) => one)) return;
  if (isA(part.fact, 'wheel', 'axle') || part.fact.mass === undefined || isHeld(part)) return;
  const { people } = floor.act.step;
  const handled = people > 1 ? EACH_OF_TWO * people : ONE_PERSON;
  if (part.fact.mass > handled)
    floor.note('falls', part.fact.name, `${nameOf(part)} (${part.fact.mass} kg) falls: nothing holds it.`);
}

function isHeld(part: Part): boolean {
  if ([...part.under].some((aid) => footing(aid) !== 'tie')) return true;
  const light = part.fact.mass === undefined || part.fact.mass <= ONE_PERSON;
  return part.tied.size > 0 && (light || [...part.tied].some((aid) => footing(aid) !== 'tie'));
}

export function unbolt(floor: Floor, part: Part): void {
  if (!isThere(part)) {
    absent(floor, part);
    return;
  }
  inReach(floor, part);
  for (const joint of part.joints) if (isIn(joint)) undo(floor, joint);
  comesAway(floor, part);
}

export function remove(floor: Floor, part: Part): void {
  if (!isThere(part)) {
    absent(floor, part);
    return;
  }
  inReach(floor, part);
  const held = part.joints.find(isIn);
  if (held !== undefined)
    floor.note('cannot', part.fact.name, `${jointName(held)} still holds ${nameOf(part)}.`);
  fallsByHand(floor, part);
  comesAway(floor, part);
}

function absent({ note }: Floor, part: Part): void {
  note('cannot', part.fact.name, `${nameOf(part)} is not on the vehicle, so it cannot be taken off.`);
}

function comesAway(floor: Floor, part: Part): void {
  const { note, car } = floor;
  for (const [end, holds] of part.seated)
    if (holds) note('cannot', part.fact.name, `${nameOf(part)} still sits in its ${end}.`);
  if (isPressed(floor, part))
    note('flies', part.fact.name, `${nameOf(part)} is still loaded when it is taken out.`);
  for (const other of car.boltedTo.get(part) ?? [])
    if (other !== part && sitsOn(floor, other, part))
      note('cannot', part.fact.name, `${nameOf(other)} is still bolted to ${nameOf(part)} and to more.`);
  part.where = 'off';
  floor.takenOff.add(part);
}

/** A part bolted to this one and to something else keeps it where it is. */
function sitsOn({ car }: Floor, other: Part, part: Part): boolean {
  if (!isOn(other)) return false;
  if (!other.joints.every(isIn) || [...other.seated.values()].some((one) => !one)) return false;
  const joined = (name: string) => fillers(car, name, other).some((one) => one === part && meet(one, other));
  const elsewhere = (name: string) =>
    isMetal(name) || fillers(car, name, other).some((one) => one !== part && isThere(one));
  return other.fact.joins.some(joined) && other.fact.joins.some((name) => !joined(name) && elsewhere(name));
}

/** Swung on the one joint that is left, which must be slack. */
export function swing(floor: Floor, part: Part): void {
  if (!isOn(part)) {
    absent(floor, part);
    return;
  }
  inReach(floor, part);
  const held = part.joints.filter(isIn);
  if (held.length > 1)
    floor.note(
      'cannot',
      part.fact.name,
      `${nameOf(part)} is held by ${held.length} joints and does not swing.`,
    );
  if (held.some(({ grip }) => grip === 'tight' || grip === 'done'))
    floor.note('wound', part.fact.name, `${nameOf(part)} is swung on a joint that is tight.`);
  part.where = 'aside';
}

export function fit(floor: Floor, part: Part): void {
  const { note, car, act } = floor;
  if (isOn(part)) {
    note('cannot', part.fact.name, `${nameOf(part)} is on already.`);
    return;
  }
  if (part.where === 'scrap') note('cannot', part.fact.name, `${nameOf(part)} was thrown away.`);
  inReach(floor, part);
  const rivals = [...part.fact.replaces, ...(car.facts.takesPlaceOf.get(part.fact.name) ?? [])];
  for (const name of rivals)
    for (const rival of car.parts.get(name) ?? [])
      if (meet(rival, part) && isThere(rival))
        note('cannot', part.fact.name, `${nameOf(rival)} is where ${nameOf(part)} should go.`);
  const hand = act.raw.article === 'left' || act.raw.article === 'right' ? act.raw.article : part.side;
  if (part.fact.body.pair === 'handed' && hand !== part.side)
    note('hand', part.fact.name, `The ${hand} ${part.fact.name} goes on the ${part.side}.`);
  part.hand = hand;
  if (isA(part.fact, 'coil-spring') && basesThere(floor, part) && isPressed(floor, part))
    note('cannot', part.fact.name, `${nameOf(part)} does not go in: the axle is not down far enough.`);
  holesFor(floor, part);
  if (part.where === 'box' || (part.where === 'offered' && !part.cameFromBox)) fromBox(floor, part);
  part.where = 'on';
}

const basesThere = ({ car }: Floor, part: Part): boolean =>
  part.fact.joins.every((name) => {
    const all = fillers(car, name, part);
    return all.length === 0 || all.some(isThere);
  });

/**
 * Bolts go only through holes that are there: as many as the part has bolts, its own or, in frame and body, named after it; a
 * grommet goes into the hole that is named as it is.
 */
function holesFor({ car, note, toDrill }: Floor, part: Part): void {
  const [word] = part.fact.name.split('-');
  for (const of of [part, ...car.metals])
    for (const [hole, metal] of of.metal) {
      const size = of.fact.holes[hole];
      if (size === undefined || metal.hole > size - 0.5 || !toDrill.has(`${of.fact.name}.${hole}`)) continue;
      const count = Number(map(map(of.fact.body.holes)[hole]).count ?? 1);
      const bolted = part.joints.some(({ fact }) => fact.bolts === count);
      const named = of === part || hole === `${part.fact.name}-hole`;
      if ((named && bolted) || (isA(part.fact, 'grommet') && hole === `${word}-hole`))
        note('cannot', part.fact.name, `The holes for ${nameOf(part)} are not drilled to size yet.`);
    }
}

function fromBox({ car, note }: Floor, part: Part): void {
  part.cameFromBox = true;
  const taken = (car.parts.get(part.fact.name) ?? []).filter((one) => one.cameFromBox).length;
  if (taken > part.fact.count)
    note('cannot', part.fact.name, `The box holds ${part.fact.count} of ${part.fact.name}.`);
  // Nuts and bolts that do not come with the new part are the old ones.
  for (const joint of part.joints)
    for (const name of part.fact.replaces)
      for (const old of car.parts.get(name) ?? [])
        if (meet(old, part))
          for (const one of old.joints)
            if (one.fact.name === joint.fact.name)
              for (const piece of one.spent)
                if (
                  !joint.fact.comes.includes(piece) &&
                  !car.facts.supplied.has(`${part.fact.name}.${one.fact.name}`)
                )
                  joint.spent.add(piece);
}

export function discard({ note }: Floor, part: Part): void {
  if (isThere(part)) note('cannot', part.fact.name, `${nameOf(part)} is still on the vehicle.`);
  part.where = 'scrap';
}

export function offer({ note }: Floor, part: Part): void {
  if (isThere(part)) {
    note('cannot', part.fact.name, `${nameOf(part)} is on already.`);
    return;
  }
  part.where = 'offered';
}

/** Taken down again; nobody minds being told so of what he does not hold. */
export function withdraw(_floor: Floor, part: Part): void {
  if (part.where !== 'offered') return;
  part.where = part.cameFromBox || !part.fact.kit ? 'off' : 'box';
}

/** It now sits on another part than before. */
export function transfer({ note }: Floor, part: Part): void {
  if (isThere(part)) note('cannot', part.fact.name, `${nameOf(part)} is still where it was.`);
  part.where = 'on';
}

/** A new one in place of the old, with all that this takes. */
export function renew(_floor: Floor, part: Part): void {
  part.renewed = true;
  for (const joint of part.joints) joint.spent.clear();
}

/** Names of pieces under a key, in the singular. */
export const piecesOf = (value: unknown): string[] => texts(value).map((one) => one.replace(/s$/, ''));
