// What a lowered axle pulls on: bushes left tight, lines too short.
import { closure, cornersOf, spanned } from './corners.ts';
import { figure } from './quantity.ts';
import { texts } from './raw.ts';
import { found, named, type Run } from './run.ts';
import { bushed, connected, slackOf } from './state.ts';
import type { Corner, Line, Part } from './things.ts';
import { allLines, allParts, isKind, related, roleNames, says } from './world.ts';

const FIXED = ['frame', 'body', 'ground'];

// How far a bonded bush that is left tight may be twisted, as travel of its axle: common practice.
const TIGHT_BUSH_TRAVEL_MM = 50;

/** Rules at a `lower` that moved a corner further down than it was. */
export function travelled(run: Run, before: Map<Corner, 'ride' | number>): void {
  if (!run.judged) return;
  for (const corner of run.world.corners) {
    const was = before.get(corner) ?? 'ride';
    if (corner.hang === 'ride' || (was !== 'ride' && corner.hang <= was)) continue;
    tooFar(run, corner, corner.hang);
    const hang = corner.hang;
    if (hang > TIGHT_BUSH_TRAVEL_MM) {
      for (const part of allParts(run.world)) if (twisted(run, part, corner)) tellPart(run, part);
    }
    for (const line of allLines(run.world)) if (crosses(run, line, corner)) pulled(run, line, hang);
  }
}

/** `line-stretched`: a connected line has less slack than what it hangs on goes down. */
function pulled(run: Run, line: Line, down: number): void {
  if (line.toldStretch || !connected(line)) return;
  const slack = slackOf(line, (name) => related(run.world, line, name));
  if (slack === undefined || down <= slack) return;
  found(run, 'line-stretched', { item: line.name, side: line.label });
  line.toldStretch = true;
}

/** A part that moves no corner is let down, raised or put in its place. */
export function partMoved(run: Run, verb: string, part: Part): void {
  if (!run.judged || says(part.body, 'axle') || says(part.body, 'arm') || isKind(part, 'wheel')) return;
  const by = figure(run.raw.by, 'length');
  if (verb === 'raise' && by !== undefined) part.sunk = Math.max(0, part.sunk - by);
  else if (verb !== 'lower') part.sunk = 0;
  else if (part.state === 'fitted' || part.state === 'swung') {
    part.sunk += by ?? 0;
    for (const line of allLines(run.world)) if (staysBehind(run, line, part)) pulled(run, line, part.sunk);
  }
}

/** Whether a line runs from this part to something that neither goes down with it nor takes it along. */
function staysBehind(run: Run, line: Line, part: Part): boolean {
  if (!spanned(run.world, line).includes(part)) return false;
  const has = (one: Part, name: string): boolean =>
    closure(run.world, one).some((reached) => reached.name === name);
  const sameRole = [...roleNames(run.world, part.name), ...texts(part.own.replaces)];
  const fixed = line.spans.some((name) => FIXED.includes(name));
  return (
    fixed ||
    line.spans
      .flatMap((name) => related(run.world, line, name))
      .some((one) => !sameRole.includes(one.name) && !has(part, one.name) && !has(one, part.name))
  );
}

/** `lowered-too-far`: an axle goes as far as it goes. */
function tooFar(run: Run, corner: Corner, hang: number): void {
  const { axle } = corner.group;
  const drop = figure(axle?.body.drop, 'length');
  const allowed = 5; // mm
  if (!axle || drop === undefined || hang <= drop + allowed) return;
  found(run, 'lowered-too-far', named(axle));
  corner.hang = drop;
}

function tellPart(run: Run, part: Part): void {
  found(run, 'left-tight-over-travel', named(part));
  part.toldTravel = true;
}

/** A fitted part between two things at this corner, all its joints in, with a bushed one still tight. */
function twisted(run: Run, part: Part, corner: Corner): boolean {
  if (part.toldTravel || part.state !== 'fitted' || texts(part.body.joins).length < 2) return false;
  if (!cornersOf(run.world, part).includes(corner)) return false;
  if (part.joints.some((joint) => joint.position === 'out')) return false;
  return part.joints.some(
    (joint) => bushed(joint) && (joint.position === 'tight' || joint.position === 'final'),
  );
}

/** Whether a line runs from something that goes down with this corner to something that does not. */
function crosses(run: Run, line: Line, corner: Corner): boolean {
  if (line.side !== '' && line.side !== corner.side) return false;
  const ends = spanned(run.world, line).filter((part) => part.side === '' || part.side === corner.side);
  const goes = (part: Part): boolean =>
    corner.closure.has(part) || (says(part.body, 'arm') && cornersOf(run.world, part).includes(corner));
  const moving = ends.some(goes);
  const still = line.spans.some((name) => related(run.world, line, name).every((part) => !goes(part)));
  return moving && still;
}
