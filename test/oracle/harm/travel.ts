// What moves with an axle that goes up or down: rubber bushes, hoses, leads.
import { figure } from '../quantity.ts';
import { map, text } from '../raw.ts';
import { type Corner, fillers, isFast, isJoined, isOn, isThere, type Line, type Part } from './car.ts';
import { isA, isMetal } from './facts.ts';
import { type Floor, nameOf } from './floor.ts';
import { BUSH_TRAVEL } from './trade.ts';

/** Looks at everything that spans the corners which went down; `before` says how far down each was. */
export function travelled(
  floor: Floor,
  corners: readonly Corner[],
  before: ReadonlyMap<Corner, number>,
): void {
  const lower = corners.filter((corner) => corner.hang > Math.max(before.get(corner) ?? corner.hang, 0));
  for (const corner of lower) {
    for (const part of floor.car.everyPart) if (isWoundUp(floor, part, corner)) tellWound(floor, part);
    for (const line of floor.car.everyLine) if (crosses(floor, line, corner)) stretch(floor, line, corner);
  }
}

/** A rubber bush clamped between two things that part company twists until it tears. */
function isWoundUp({ car }: Floor, part: Part, corner: Corner): boolean {
  return (
    corner.hang > BUSH_TRAVEL &&
    isOn(part) &&
    part.fact.joins.length > 1 &&
    (car.cornersOf.get(part)?.includes(corner) ?? false) &&
    part.joints.every(({ grip }) => grip !== 'out') &&
    part.joints.some((joint) => joint.fact.rubber && isFast(joint))
  );
}

function tellWound(floor: Floor, part: Part): void {
  floor.note(
    'wound',
    part.fact.name,
    `The bushes of ${nameOf(part)} are tight while the axle goes far down.`,
  );
}

function crosses({ car }: Floor, line: Line, corner: Corner): boolean {
  if (line.gone || !isJoined(line) || (line.side !== '' && line.side !== corner.side)) return false;
  const { spans } = line;
  if (spans.length < 2) return false;
  const atAxle = spans.filter(
    (name) => !isMetal(name) && fillers(car, name, line).some((part) => corner.chain.has(part)),
  );
  return atAxle.length > 0 && atAxle.length < spans.length;
}

function stretch(floor: Floor, line: Line, corner: Corner): void {
  const reach = reachOf(floor, line);
  if (reach !== undefined && corner.hang > reach)
    floor.note(
      'torn',
      line.fact.name,
      `${nameOf(line)} reaches ${reach} mm down and the axle goes ${corner.hang} mm: it tears.`,
    );
}

/** How far down a line lets its axle go: by the way it lies, and by what still holds it. */
function reachOf(floor: Floor, line: Line): number | undefined {
  const { body } = line.fact;
  if (line.path !== undefined) return figure(map(body.paths)[line.path], 'length');
  const slack = figure(body.slack, 'length');
  const free = figure(body['slack-free'], 'length');
  const bracket = text(body['held-by']);
  if (bracket === undefined) return line.clipped ? slack : (free ?? slack);
  const brackets = fillers(floor.car, bracket, line);
  const holding = brackets.find((part) => isThere(part) && part.joints.some(({ grip }) => grip !== 'out'));
  if (holding === undefined) return free ?? slack;
  return holding.fact.replaces.length > 0 ? undefined : slack; // nobody said how far a new bracket lets it
}

/** Springs of a corner that are still pressed together. */
export function isPressed({ car }: Floor, part: Part): boolean {
  if (part.fact.body['stores-energy'] !== true || part.squeezed || part.unloaded) return false;
  if (isA(part.fact, 'air-spring')) return part.pressure > 0;
  const corners = car.cornersOf.get(part) ?? [];
  return corners.some((corner) => !(corner.hang >= (part.fact.freeAt ?? Number.MIN_VALUE)));
}
