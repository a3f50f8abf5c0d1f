// The car at the end beside the car that the sound guide leaves: whatever differs for the worse.
import { type Car, isFast, isOn, type Joint, type Line, type Metal, type Part } from './car.ts';
import type { Harm } from './floor.ts';
import { jointName, nameOf } from './floor.ts';
import { isAlignment, SAME_FIGURE } from './trade.ts';

type Note = (kind: Harm['kind'], item: string, says: string) => void;

/**
 * Compares two cars of the same variant.
 * @param owed what the guide hands over to be looked at later
 */
export function compareCars(sound: Car, car: Car, owed: readonly string[], note: Note): void {
  const touched = (one: Part | Line, other: Part | Line) => car.touched.has(one) || sound.touched.has(other);
  for (const [at, part] of car.everyPart.entries())
    if (touched(part, sound.everyPart[at]!)) compareParts(sound.everyPart[at]!, part, note);
  for (const [at, line] of car.everyLine.entries())
    if (touched(line, sound.everyLine[at]!)) compareLines(sound.everyLine[at]!, line, note);
  for (const [at, corner] of car.corners.entries()) {
    const other = sound.corners[at]!;
    const here = `${corner.name} (${corner.side})`;
    if (other.tyre && !corner.tyre) note('unlike', corner.name, `${here} is left in the air.`);
    for (const aid of [...corner.lift, ...corner.jack])
      if (!other.lift.has(aid) && !other.jack.has(aid))
        note('unlike', corner.name, `A ${aid} is left under ${here}.`);
  }
  for (const one of car.dead) if (!sound.dead.has(one)) note('unlike', one, `${one} is left off.`);
  for (const [name, value] of sound.switched)
    if (car.switched.get(name) !== value) note('unlike', name, `${name} is left ${car.switched.get(name)}.`);
  for (const [name, value] of sound.settings)
    if (car.settings.get(name) !== value)
      note('unlike', name, `${name} is ${car.settings.get(name) ?? 'not set'}, and should be ${value}.`);
  for (const one of car.drained) if (!sound.drained.has(one)) note('unlike', one, `${one} is left empty.`);
  aligned(car, owed, note);
}

/** Wheels that were moved point somewhere else until somebody sets them. */
function aligned({ wheelsMoved, handed }: Car, owed: readonly string[], note: Note): void {
  if (wheelsMoved === undefined || owed.some(isAlignment) || [...handed].some(isAlignment)) return;
  note('unlike', 'alignment', `${wheelsMoved} was undone, and nobody sets the wheels.`);
}

function compareParts(sound: Part, part: Part, note: Note): void {
  const item = part.fact.name;
  if (isOn(sound) && !isOn(part)) {
    note('unlike', item, `${nameOf(part)} is not fitted at the end.`);
    return;
  }
  if (!isOn(sound) && isOn(part)) {
    note('unlike', item, `${nameOf(part)} is on at the end and should not be.`);
    return;
  }
  if (sound.where === 'off' && part.where === 'scrap') {
    note('unlike', item, `${nameOf(part)} is thrown away and is still needed.`);
    return;
  }
  if (!isOn(part)) return;
  for (const [at, joint] of part.joints.entries()) compareJoints(sound.joints[at]!, joint, note);
  for (const [end, holds] of sound.seated)
    if (holds && part.seated.get(end) === false)
      note('unlike', item, `${nameOf(part)}: its ${end} is not seated.`);
  if (part.fact.body.pair === 'handed' && part.hand !== sound.hand)
    note('hand', item, `The ${part.hand} ${item} is on the ${part.side}.`);
  for (const aid of [...part.under, ...part.tied])
    if (!sound.under.has(aid) && !sound.tied.has(aid))
      note('unlike', item, `A ${aid} is left on ${nameOf(part)}.`);
  if (part.squeezed && !sound.squeezed) note('unlike', item, `${nameOf(part)} is left pressed together.`);
  if (part.unloaded && !sound.unloaded) note('unlike', item, `${nameOf(part)} is left unloaded.`);
  if (Math.abs(part.pressure - sound.pressure) > 0.05 * Math.max(sound.pressure, 1))
    note('unlike', item, `${nameOf(part)} holds ${part.pressure} kPa and should hold ${sound.pressure} kPa.`);
  if (sound.renewed && !part.renewed) note('unlike', item, `${nameOf(part)} is still the worn one.`);
  for (const stuff of sound.sealed)
    if (!part.sealed.has(stuff)) note('unlike', item, `${nameOf(part)} has no ${stuff}.`);
  for (const [name, metal] of sound.metal) compareMetal(metal, part.metal.get(name), `${item}.${name}`, note);
}

/** In rising order of what a joint bears: as the vehicle came is as good as tightened now. */
const GRIPS: readonly Joint['grip'][] = ['out', 'caught', 'slack', 'nipped', 'tight', 'done'];

function compareJoints(sound: Joint, joint: Joint, note: Note): void {
  const item = jointName(joint);
  if (!isFast(joint) && GRIPS.indexOf(joint.grip) < GRIPS.indexOf(sound.grip)) {
    note('unlike', item, `${item} is left ${joint.grip === 'out' ? 'out' : 'loose'}.`);
    return;
  }
  if (joint.fact.slotted && sound.pin && !joint.pin) note('unlike', item, `${item} has no pin.`);
  const same = (one: number, other: number) => Math.abs(one - other) <= SAME_FIGURE * other;
  if (sound.figure !== undefined && joint.figure !== undefined && joint.fact.figure === undefined)
    if (!same(joint.figure.low, sound.figure.low) || !same(joint.figure.high, sound.figure.high))
      note('figure', item, `${item} is tightened to another figure.`);
  for (const stuff of sound.sealed)
    if (!joint.sealed.has(stuff)) note('unlike', item, `${item} has no ${stuff}.`);
}

const EDGES: readonly Metal['edge'][] = ['raw', 'smooth', 'coated'];

function compareMetal(sound: Metal, metal: Metal | undefined, item: string, note: Note): void {
  if (sound.hole > 0 && Math.abs(sound.hole - (metal?.hole ?? 0)) > 0.1)
    note('unlike', item, `${item} is not drilled to size.`);
  if (sound.edge === 'whole' || metal === undefined) return;
  if (EDGES.indexOf(metal.edge) < EDGES.indexOf(sound.edge) && metal.edge !== 'whole')
    note('unlike', item, `The edge of ${item} is left ${metal.edge === 'raw' ? 'sharp' : 'bare'}.`);
}

function compareLines(sound: Line, line: Line, note: Note): void {
  const item = line.fact.name;
  for (const [end, joined] of sound.joined)
    if (joined !== line.joined.get(end) && !line.gone)
      note(
        'unlike',
        item,
        `${nameOf(line)} is ${joined ? 'left open' : 'connected, and should not be yet'}.`,
      );
  if (sound.clipped && !line.clipped) note('unlike', item, `${nameOf(line)} hangs out of its clips.`);
  if (sound.path !== line.path)
    note('unlike', item, `${nameOf(line)} lies ${line.path}, and should lie ${sound.path}.`);
  if (sound.adjusted && !line.adjusted) note('unlike', item, `${nameOf(line)} is not adjusted.`);
  if (line.air && !sound.air) note('unlike', item, `There is air in ${nameOf(line)}.`);
  if (line.open && !sound.open) note('unlike', item, `Nobody looked whether ${nameOf(line)} is tight.`);
  for (const aid of line.tied)
    if (!sound.tied.has(aid)) note('unlike', item, `The ${aid} is left on ${nameOf(line)}.`);
}
