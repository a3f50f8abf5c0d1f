// Springs and air, power and switches, metal, fluids, and what is only said, looked at or set.
import { figure, parseQuantity } from '../quantity.ts';
import { text, texts } from '../raw.ts';
import { isFast, isJoined, isOn, type Line, type Metal, meet, noMetal, type Part } from './car.ts';
import { isA } from './facts.ts';
import { type Floor, nameOf, type Thing } from './floor.ts';
import { isSealing } from './trade.ts';

export function inflate(floor: Floor, part: Part): void {
  const { note, act, car } = floor;
  const asked = parseQuantity(act.raw.to);
  const wanted = asked?.dimension === 'pressure' ? (asked.low + asked.high) / 2 : undefined;
  if (wanted !== undefined && part.fact.pressure !== undefined && wanted > part.fact.pressure.high * 1.02)
    note('bursts', part.fact.name, `${nameOf(part)} bursts: it stands ${part.fact.pressure.high} kPa.`);
  if (isA(part.fact, 'air-spring')) {
    if (!isOn(part) || !part.joints.every((joint) => isFast(joint) || joint.grip === 'nipped'))
      note('bursts', part.fact.name, `${nameOf(part)} is filled before it is bolted in, and jumps out.`);
    const words = part.fact.name.split('-');
    const hoses = car.everyLine.filter(
      (line) =>
        isA(line.fact, 'air-line') &&
        (line.side === '' || part.side === '' || line.side === part.side) &&
        line.fact.ends.some((end) => words.includes(end)),
    );
    if (hoses.length > 0 && !hoses.some(isJoined))
      note('cannot', part.fact.name, `${nameOf(part)} does not fill: its hose is not connected.`);
  }
  part.pressure = wanted ?? part.fact.pressure?.high ?? 1;
}

export function compress({ note }: Floor, part: Part): void {
  if (part.squeezed) note('cannot', part.fact.name, `${nameOf(part)} is pressed together already.`);
  part.squeezed = true;
}

export function relax({ act, car }: Floor, part: Part): void {
  const unloads = texts(act.raw.with).some((name) => car.parts.has(name));
  if (unloads || part.fact.body.adjusted === true) part.unloaded = true;
  part.squeezed = false;
}

/** Power off and on. */
export function isolate({ car }: Floor, what: string): void {
  car.dead.add(what);
}

export function restore({ car, note }: Floor, what: string): void {
  if (!car.dead.has(what)) note('cannot', what, `${what} was never taken off, so it cannot be put back on.`);
  car.dead.delete(what);
}

/** A fuse in a live feed with a bare end: whatever that end touches burns. */
export function bareEnds({ car, note }: Floor): void {
  if (car.dead.has('battery')) return;
  for (const feed of car.feeds) {
    if (isJoined(feed) || ![...feed.joined.values()].includes(true)) continue;
    if (car.fuses.some((fuse) => meet(fuse, feed) && isOn(fuse)))
      note('live', feed.fact.name, `${nameOf(feed)} has a bare end under power.`);
  }
}

/** The metal that a thing names: a hole, a face, or the part itself. */
function metalOf(thing: Thing): Metal[] {
  if (thing.what !== 'metal' && thing.what !== 'part') return [];
  const name = thing.what === 'metal' ? thing.name : '';
  if (thing.what === 'part' && thing.part.metal.size > 0) return [...thing.part.metal.values()];
  const known = thing.part.metal.get(name) ?? noMetal();
  thing.part.metal.set(name, known);
  return [known];
}

export function mark(_floor: Floor, thing: Thing): void {
  for (const metal of metalOf(thing)) metal.marked = true;
}

export function drill({ act, note }: Floor, thing: Thing): void {
  if (thing.what !== 'metal') return;
  const [metal] = metalOf(thing);
  const size = thing.part.fact.holes[thing.name];
  const to = figure(act.raw.to, 'length') ?? size ?? 1;
  const name = `${thing.part.fact.name}.${thing.name}`;
  // Held up or bolted on, a part with the holes in it is its own template.
  const template = thing.part.fact.kit && thing.part.where !== 'box';
  if (metal!.hole === 0 && !metal!.marked && !template)
    note('astray', name, `${name} is drilled where nothing was marked.`);
  if (size !== undefined && to > size + 0.5)
    note('figure', name, `${name} is drilled wider than ${size} mm.`);
  metal!.hole = Math.max(metal!.hole, to);
  metal!.edge = 'raw';
}

export function cut(floor: Floor, thing: Thing): void {
  for (const metal of metalOf(thing)) metal.edge = 'raw';
  if (
    thing.what === 'metal' &&
    floor.act.verb === 'cut' &&
    isA(thing.part.fact, 'bumper') &&
    isOn(thing.part)
  )
    floor.note('crushes', thing.part.fact.name, `The saw runs into what is behind ${nameOf(thing.part)}.`);
}

export function deburr(_floor: Floor, thing: Thing): void {
  for (const metal of metalOf(thing)) if (metal.edge !== 'whole') metal.edge = 'smooth';
}

/** Paint on a burr comes off with the burr. */
export function coat(_floor: Floor, thing: Thing): void {
  for (const metal of metalOf(thing)) if (metal.edge === 'smooth') metal.edge = 'coated';
}

/** Sealant and threadlocker stay where they were put. */
export function apply({ act }: Floor, thing: Thing): void {
  const stuff = texts(act.raw.apply).filter(isSealing);
  const where =
    thing.what === 'part' ? thing.part.sealed : thing.what === 'joint' ? thing.joint.sealed : undefined;
  for (const one of stuff) where?.add(one);
}

export function bleed({ note }: Floor, line: Line): void {
  if (!isJoined(line) && !line.gone)
    note('cannot', line.fact.name, `${nameOf(line)} is bled while it is open.`);
  line.air = false;
}

/** Looking at a thing changes it in one way only: an opened line that is closed and bled is then known to be tight. */
export function look({ car }: Floor, thing: Thing): void {
  if (thing.what === 'line' && isJoined(thing.line) && !thing.line.air) thing.line.open = false;
  if (thing.what === 'word') car.handed.add(thing.word);
}

export function set({ car, act }: Floor, thing: Thing): void {
  const value = text(act.raw.to) ?? 'set';
  const name = thing.what === 'word' ? thing.word : thing.what === 'part' ? nameOf(thing.part) : undefined;
  if (name !== undefined) car.settings.set(name, value);
  if (thing.what === 'word') car.handed.add(thing.word);
}

export function adjust({ car }: Floor, thing: Thing): void {
  if (thing.what === 'line') thing.line.adjusted = true;
  if (thing.what === 'part') thing.part.unloaded = false;
  if (thing.what === 'word') car.handed.add(thing.word);
}
