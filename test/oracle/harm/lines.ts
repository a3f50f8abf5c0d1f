// Hoses, cables, plugs and leads.
import { isJoined, isThere, type Line, type Part } from './car.ts';
import { isA } from './facts.ts';
import { type Floor, nameOf } from './floor.ts';

const isPressure = (line: Line): boolean => isA(line.fact, 'hydraulic-line', 'fuel-line');

/** The ends that an act means: the named one, or all. */
const endsOf = (line: Line, end: string | undefined): string[] =>
  [...line.joined.keys()].filter((one) => end === undefined || one === end || one === '');

export function disconnect(floor: Floor, line: Line, end: string | undefined): void {
  const { note, car } = floor;
  const ends = endsOf(line, end);
  if (ends.every((one) => line.joined.get(one) === false)) {
    note('cannot', line.fact.name, `${nameOf(line)} is off already.`);
    return;
  }
  const on = car.switched.get('ignition');
  if (isA(line.fact, 'electrical-line') && (on === 'on' || on === 'run'))
    note('live', line.fact.name, `${nameOf(line)} is unplugged with the ignition on.`);
  if (isA(line.fact, 'airbag-plug') && !car.dead.has('airbags') && !car.dead.has('battery'))
    note('live', line.fact.name, `${nameOf(line)} is unplugged while the airbags are armed.`);
  if (isA(line.fact, 'high-voltage-cable') && !car.dead.has('high-voltage'))
    note('live', line.fact.name, `${nameOf(line)} is opened under high voltage.`);
  if (isA(line.fact, 'fuel-line') && !car.dead.has('fuel-pressure'))
    note('live', line.fact.name, `${nameOf(line)} is opened under pressure.`);
  if (isA(line.fact, 'parking-brake-cable') && car.switched.get('parking-brake') === 'on')
    note('live', line.fact.name, `${nameOf(line)} is unhooked with the brake pulled on.`);
  if (isTaut(line)) whips(floor, line);
  for (const one of ends) line.joined.set(one, false);
  line.adjusted = false;
  if (isPressure(line)) {
    line.open = true;
    line.air ||= isA(line.fact, 'hydraulic-line');
  }
}

/** A cable under its own spring runs back into its sheath as soon as nobody has it. */
const isTaut = (line: Line): boolean => line.fact.body.retracts === true && line.tied.size === 0;

function whips({ note }: Floor, line: Line): void {
  note('whips', line.fact.name, `${nameOf(line)} runs back into its sheath: nothing holds it.`);
}

export function connect({ note, car }: Floor, line: Line, end: string | undefined): void {
  const ends = endsOf(line, end);
  if (ends.every((one) => line.joined.get(one) === true)) {
    note('cannot', line.fact.name, `${nameOf(line)} is connected already.`);
    return;
  }
  const on = car.switched.get('ignition');
  if (isA(line.fact, 'electrical-line') && (on === 'on' || on === 'run'))
    note('live', line.fact.name, `${nameOf(line)} is plugged in with the ignition on.`);
  if (line.gone) note('cannot', line.fact.name, `${nameOf(line)} was thrown away.`);
  for (const one of ends) line.joined.set(one, true);
  if (isPressure(line) && line.fact.kit) {
    line.open = true;
    line.air ||= isA(line.fact, 'hydraulic-line');
  }
}

export function unclip({ note }: Floor, line: Line): void {
  if (!line.clipped) note('cannot', line.fact.name, `${nameOf(line)} is out of its clips already.`);
  line.clipped = false;
}

/** Whoever clips a line lays it where its clips are. */
export function clip(_floor: Floor, line: Line): void {
  line.clipped = true;
}

/** Hoses, pipes and cables go through holes and under members, which takes a free end; a loom is tucked in afterwards. */
const isThreaded = ({ fact, path }: Line): boolean =>
  path !== undefined || isA(fact, 'cable', 'hose', 'air-line', 'hydraulic-line', 'fuel-line');

/** To lay a line another way it must be out of its clips, and an end of it free. */
export function route({ note, act }: Floor, line: Line): void {
  if (line.clipped) note('cannot', line.fact.name, `${nameOf(line)} is clipped down where it is.`);
  if (isThreaded(line) && isJoined(line))
    note('cannot', line.fact.name, `${nameOf(line)} is fast at both ends, so it cannot be laid another way.`);
  const path = act.raw.path ?? act.raw.to;
  if (typeof path === 'string') line.path = path;
  line.adjusted = false;
}

export function tie({ note }: Floor, one: Line | Part, aids: readonly string[]): void {
  if (one.tied.size > 0 && aids.every((aid) => one.tied.has(aid)))
    note('cannot', one.fact.name, `${nameOf(one)} is held already.`);
  for (const aid of aids.length > 0 ? aids : ['something']) one.tied.add(aid);
}

export function untie(floor: Floor, one: Line | Part): void {
  if (one.tied.size === 0) {
    floor.note('cannot', one.fact.name, `Nothing holds ${nameOf(one)} that could be taken off.`);
    return;
  }
  one.tied.clear();
  if ('joined' in one && !isJoined(one) && !isBoxed(one) && isTaut(one)) whips(floor, one);
}

/** Lies in the box: no end of it was ever joined. */
const isBoxed = (line: Line): boolean => line.fact.kit && [...line.joined.values()].every((one) => !one);

/** At the end of a step: what was taken away must not hang on a hose or pull a plug. */
export function hanging(floor: Floor): void {
  const { car, note } = floor;
  for (const part of floor.takenOff) {
    if (isThere(part) && part.joints.some(({ grip }) => grip !== 'out')) continue;
    if (isThere(part) && (part.joints.length === 0 || part.under.size > 0)) continue;
    if (part.where === 'box' || part.tied.size > 0) continue;
    for (const line of car.everyLine) {
      const { spans } = line;
      const beside = line.side === '' || part.side === '' || line.side === part.side;
      const meant = spans.includes(part.fact.name) || part.fact.replaces.some((name) => spans.includes(name));
      if (beside && meant && isJoined(line) && line.tied.size === 0 && !line.gone)
        note('hangs', part.fact.name, `${nameOf(part)} hangs on ${nameOf(line)}.`);
    }
  }
  floor.takenOff.clear();
}
