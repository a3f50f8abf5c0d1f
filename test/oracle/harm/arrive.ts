// The car as it arrives in one variant, with the box beside it: how it is put together, and its state before anybody touched it.
import { holds, type Variant } from '../condition.ts';
import { map, texts } from '../raw.ts';
import {
  type Car,
  type Corner,
  fillers,
  isAt,
  type Joint,
  type Line,
  meet,
  noMetal,
  type Part,
  type Pieces,
  RIDE,
  type Seated,
  type Stop,
} from './car.ts';
import { type Fact, type Facts, isA, isMetal } from './facts.ts';

export function makeCar(facts: Facts, variant: Variant): Car {
  const parts = new Map<string, Part[]>();
  const lines = new Map<string, Line[]>();
  for (const [name, fact] of facts.things) {
    if (!fact.when.every((when) => holds(when, variant))) continue;
    if (fact.line)
      lines.set(
        name,
        fact.seats.map((seat) => newLine(fact, seat)),
      );
    else
      parts.set(
        name,
        fact.seats.map((seat) => newPart(fact, seat, variant)),
      );
  }
  const everyPart = [...parts.values()].flat();
  const made = { facts, parts, lines, everyPart, everyLine: [...lines.values()].flat() };
  const corners = layCorners(made);
  const stops = everyPart.map((part) => [part, findStops(made, part)] as const);
  const car: Car = {
    ...made,
    corners,
    cornersOf: new Map(everyPart.map((part) => [part, findCorners(made, corners, part)])),
    stopsOf: new Map(stops.filter(([, chains]) => chains.length > 0)),
    boltedTo: findBolted(made),
    metals: everyPart.filter(({ fact }) => isMetal(fact.name)),
    feeds: made.everyLine.filter(({ fact }) => isA(fact, 'fused-feed') && fact.ends.length > 1),
    fuses: everyPart.filter(({ fact }) => isA(fact, 'fuse')),
    ...{ dead: new Set(), drained: new Set(), handed: new Set(), wheelsMoved: undefined },
    ...{ switched: new Map(), settings: new Map(), meant: new Map(), touched: new Set() },
  };
  for (const part of everyPart) arrivePart(part);
  for (const line of car.everyLine) arriveLine(line);
  arrive(car);
  return car;
}

/** Puts everything back to where it was when the car came in. */
export function arrive(car: Car): void {
  for (const one of car.touched)
    if ('where' in one) arrivePart(one);
    else arriveLine(one);
  car.touched.clear();
  for (const corner of car.corners) {
    corner.tyre = true;
    corner.hang = RIDE;
    corner.chocked = false;
    empty(corner.lift);
    empty(corner.jack);
  }
  for (const one of [car.dead, car.drained, car.handed, car.settings]) empty(one);
  car.wheelsMoved = undefined;
  car.switched.set('ignition', 'off').set('levelling', 'on').set('parking-brake', 'on');
}

/** Emptying what is empty would still make it anew, and this is done for every play. */
function empty(one: Set<unknown> | Map<unknown, unknown>): void {
  if (one.size > 0) one.clear();
}

type Seat = Fact['seats'][number];

function seated(fact: Fact, { side, place }: Seat): Seated {
  const label = [...Object.values(place), ...(side === '' ? [] : [side])].join('/');
  return { fact, side, place, label, tied: new Set(), beside: new Map() };
}

function newPart(fact: Fact, seat: Seat, variant: Variant): Part {
  const joints: Joint[] = [];
  const part: Part = {
    ...seated(fact, seat),
    ...{ joints, where: 'on', cameFromBox: false, hand: seat.side, seated: new Map(), under: new Set() },
    ...{ squeezed: false, unloaded: false, renewed: false, pressure: 0 },
    ...{ metal: new Map(), sealed: new Set() },
  };
  for (const one of fact.joints)
    if (holds(one.when, variant))
      joints.push({
        ...{ fact: one, part, grip: 'tight', undone: false, figure: undefined },
        ...{ spent: new Set(), pin: true, sealed: new Set() },
      });
  return part;
}

function arrivePart(part: Part): void {
  const { fact } = part;
  const inflates = fact.body.inflates === true && !isA(fact, 'tyre', 'wheel');
  part.where = fact.kit ? 'box' : 'on';
  part.cameFromBox = part.squeezed = part.unloaded = part.renewed = false;
  part.hand = part.side;
  part.pressure = inflates && !fact.kit ? (fact.pressure?.low ?? 1) : 0;
  for (const end of fact.ends) part.seated.set(end, !fact.kit);
  for (const one of [part.metal, part.sealed, part.under, part.tied]) empty(one);
  for (const hole in fact.holes) part.metal.set(hole, noMetal());
  for (const joint of part.joints) {
    joint.grip = fact.kit ? 'out' : 'tight';
    joint.undone = false;
    joint.figure = undefined;
    joint.pin = !fact.kit;
    empty(joint.spent);
    empty(joint.sealed);
  }
}

function newLine(fact: Fact, seat: Seat): Line {
  return {
    ...{ ...seated(fact, seat), spans: texts(fact.body.spans), joined: new Map(), clipped: true },
    ...{ path: undefined, adjusted: false, open: false, air: false, gone: false },
  };
}

function arriveLine(line: Line): void {
  const { fact } = line;
  for (const end of fact.ends) line.joined.set(end, !fact.kit);
  line.clipped = !fact.kit;
  line.path = Object.keys(map(fact.body.paths))[0];
  line.adjusted = line.open = line.air = line.gone = false;
  empty(line.tied);
}

/** What limits a part's drop: as it says; an axle that says nothing is limited by the shocks that join it. */
function findStops(car: Pieces, part: Part): Stop[][] {
  const { fact } = part;
  const shocks = (): string[][] => {
    const joined = car.everyPart.filter(
      (one) =>
        one.fact.body['limits-drop'] === true &&
        one.fact.replaces.length === 0 &&
        one.fact.joins.includes(fact.name),
    );
    return [...new Set(joined.map((one) => one.fact.name))].map((name) => [name]);
  };
  const said = fact.stops.length > 0 || fact.body['limited-by'] !== undefined;
  const chains = said ? fact.stops : isA(fact, 'axle') ? shocks() : [];
  // A sided stop of an unsided axle is one for each side.
  return chains.flatMap((chain) =>
    (['left', 'right'] as const)
      .filter((side) => part.side === '' || part.side === side)
      .map((side) =>
        chain.map((name) => {
          const [thing = '', joint] = name.split('.');
          return { joint, fillers: fillers(car, thing, { ...part, side, beside: new Map() }) };
        }),
      ),
  );
}

function findBolted(car: Pieces): Map<Part, Part[]> {
  const found = new Map<Part, Part[]>();
  for (const one of car.everyPart) {
    if (one.joints.length === 0 || isA(one.fact, 'wheel')) continue;
    for (const name of one.fact.joins)
      for (const part of fillers(car, name, one)) found.set(part, [...(found.get(part) ?? []), one]);
  }
  return found;
}

/** A part and everything that it is joined to, on and on, up to the frame. */
function reaches(car: Pieces, start: Part): Set<Part> {
  const seen = new Set([start]);
  for (const part of seen)
    for (const name of part.fact.joins)
      for (const next of fillers(car, name, part)) if (meet(next, start)) seen.add(next);
  return seen;
}

function layCorners(car: Pieces): Corner[] {
  const wheels = car.everyPart.filter((part) => isA(part.fact, 'wheel') && part.fact.replaces.length === 0);
  const corners = new Map<string, { -readonly [key in keyof Corner]: Corner[key] }>();
  for (const wheel of wheels) {
    const chain = reaches(car, wheel);
    const axle = [...chain].find((part) => isA(part.fact, 'axle'));
    const place = Object.values(wheel.place).join('/');
    const name = `${axle?.fact.name ?? wheel.fact.name}${place === '' ? '' : `/${place}`}`;
    for (const side of wheel.side === '' ? (['left', 'right'] as const) : [wheel.side]) {
      const key = `${name}@${side}`;
      const before = corners.get(key);
      const all = [
        ...(before?.wheels ?? []),
        ...fillers(car, wheel.fact.name, wheel).filter((one) => meet(one, wheel)),
      ];
      const merged = new Set([...(before?.chain ?? []), ...chain, ...all]);
      const state = {
        tyre: true,
        hang: RIDE,
        chocked: false,
        lift: new Set<string>(),
        jack: new Set<string>(),
      };
      corners.set(key, { name, side, chain: merged, wheels: [...new Set(all)], ...state });
    }
  }
  return [...corners.values()];
}

function findCorners(car: Pieces, corners: readonly Corner[], part: Part): Corner[] {
  const own = reaches(car, part);
  const beside = (corner: Corner) => part.side === '' || part.side === corner.side;
  const found = corners.filter((corner) => beside(corner) && [...own].some((one) => corner.chain.has(one)));
  if (found.length > 0) return found;
  const word = /(^|-)(front|rear)(-|$)/.exec(part.fact.name)?.[2];
  return word === undefined ? [] : corners.filter((corner) => beside(corner) && isAt(corner, word));
}
