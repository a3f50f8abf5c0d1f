// The remaining verbs: springs and tyres, built-ins, fluids, holes and edges, pieces, records.
import { judgeHole } from './bolts.ts';
import { joined } from './corners.ts';
import { pinIn } from './joints.ts';
import { check as checkLine } from './lines.ts';
import { figure, parseQuantity } from './quantity.ts';
import { isMap, map, text, texts } from './raw.ts';
import { found, named, namedJoint, open, type Run } from './run.ts';
import { targetEdges } from './state.ts';
import type { Edge, Hole, Joint, Part, Target } from './things.ts';
import { isKind, says } from './world.ts';

export function compress(run: Run, part: Part): void {
  part.compressed = true;
  part.compressedDebt = open(run, part.compressedDebt);
}

/** `relax`: no longer compressed; with its adjuster, a torsion bar is unloaded. */
export function relax(run: Run, part: Part): void {
  const byAdjuster = texts(run.raw.with).some((name) => {
    const instances = run.world.parts.get(name) ?? [];
    return instances.some((one) => isKind(one, 'adjuster'));
  });
  if (!says(part.body, 'adjusted') || (part.compressed && !byAdjuster)) {
    part.compressed = false;
    part.compressedDebt = undefined;
    return;
  }
  part.unloaded = true;
  part.unloadedDebt = open(run, part.unloadedDebt);
}

/** `adjust` of an unloaded part, or of an adjuster that joins it. */
export function adjust(run: Run, part: Part): void {
  for (const one of [part, ...joined(run.world, part)]) {
    if (!one.unloaded) continue;
    if (one !== part && !isKind(part, 'adjuster')) continue;
    one.unloaded = false;
    one.unloadedDebt = undefined;
  }
}

export function inflate(run: Run, part: Part): void {
  holdsAir(run, part);
  const most = parseQuantity(part.body.pressure)?.high;
  const to = figure(run.raw.to, 'pressure');
  const gauge = 1.02; // what a gauge may be out
  if (most !== undefined && to !== undefined && to > most * gauge) found(run, 'over-inflated', named(part));
  part.pressure = figure(run.raw.to, 'pressure') ?? 'full';
  part.pressureDebt = undefined;
}

/** `holds-no-air`. */
function holdsAir(run: Run, part: Part): void {
  const said = says(part.body, 'inflates') || part.body.pressure !== undefined || isKind(part, 'wheel');
  if (!said && !part.implied && part.kind !== undefined) found(run, 'holds-no-air', named(part));
}

export function deflate(run: Run, part: Part): void {
  holdsAir(run, part);
  part.pressure = 'empty';
  part.pressureDebt = open(run, part.pressureDebt);
}

/** A built-in takes a value; what is not normal is owed. */
function setValue(run: Run, item: string, value: string, normal: boolean): void {
  run.world.values.set(item, value);
  if (normal) run.world.valueDebt.delete(item);
  else {
    const debt = open(run, run.world.valueDebt.get(item));
    if (debt !== undefined) run.world.valueDebt.set(item, debt);
  }
}

/** The normal values of a switch. */
export function normalValues(run: Run, item: string): Set<string> {
  const known = run.world.normal.get(item) ?? new Set<string>();
  run.world.normal.set(item, known);
  return known;
}

export function switchTo(run: Run, item: string): void {
  const value = text(run.raw.to);
  if (value === undefined) return;
  const normal = normalValues(run, item);
  // A switch that nothing says a normal value of has none to come back to.
  setValue(run, item, value, normal.size === 0 || normal.has(value));
}

export function drain(run: Run, target: Target): void {
  const before = run.world.drained.get(target.key);
  run.world.drained.set(target.key, {
    item: target.item,
    side: target.side,
    path: open(run, before?.path),
  });
}

export function drill(run: Run, hole: Hole): void {
  const to = figure(run.raw.to, 'length');
  const tolerance = 0.05; // mm
  judgeHole(run, hole, map(map(hole.part.body.holes)[hole.name]));
  const oversize = 0.5; // mm
  if (to !== undefined && hole.size !== undefined && to > hole.size + oversize) {
    hole.oversize = true; // that a smaller drill follows is no news
    found(run, 'drilled-oversize', { item: `${hole.part.name}.${hole.name}`, side: hole.part.label });
  }
  if (to !== undefined && hole.size !== undefined && to < hole.size - tolerance) {
    if (hole.state === 'size') return; // a thin drill does nothing to a wide hole
    if (hole.state !== 'pilot') hole.debt = open(run, undefined);
    hole.state = 'pilot';
    return;
  }
  hole.state = 'size';
  rawEdge(run, hole.edge);
}

export function rawEdge(run: Run, edge: Edge): void {
  edge.state = 'raw';
  edge.debt = open(run, edge.debt);
}

/** The edge that a `cut` or `weld` leaves: of the part or face itself. */
export function cutEdge(target: Target): Edge | undefined {
  return target.face?.edge ?? target.hole?.edge ?? (target.what === 'part' ? target.part?.edge : undefined);
}

export function deburr(target: Target): void {
  for (const edge of targetEdges(target)) if (edge.state === 'raw') edge.state = 'deburred';
}

export function coat(target: Target): void {
  const all = targetEdges(target);
  const wanted = target.what === 'part' ? all.filter((edge) => edge.state !== 'none') : all;
  for (const edge of wanted) {
    edge.state = 'protected';
    edge.debt = undefined;
  }
}

/** `renew`: a piece or all pieces of a joint are fresh. A pin is in only when it is named. */
export function renew(joint: Joint, piece: string | undefined): void {
  if (piece === undefined) joint.spent.clear();
  else joint.spent.delete(piece);
  if (piece === 'pin' && joint.body.nut === 'slotted') pinIn(joint);
}

/** `pin-after-torque`, before `renew: J.pin`. */
export function judgeRenew(run: Run, target: Target): void {
  const joint = target.joint;
  if (!joint || target.piece !== 'pin') return;
  const asFound = joint.position === 'tight' && !joint.touched;
  if (joint.position !== 'final' && !asFound) found(run, 'pin-after-torque', namedJoint(joint));
}

/** `recorded-first`, before `set: X` with `to: recorded`. */
export function judgeSet(run: Run, target: Target): void {
  if (text(run.raw.to) !== 'recorded' || run.world.recorded.has(target.key)) return;
  found(run, 'recorded-first', target);
  run.world.recorded.add(target.key);
}

/** `check` and `measure`: a branch is measured, a line is checked. */
export function check(run: Run, target: Target): void {
  for (const name of texts(run.raw.else)) run.world.measured.add(name);
  // Who measures a length does not look for leaks.
  const expected = isMap(run.raw.expect) ? Object.values(run.raw.expect) : [run.raw.expect];
  const length = expected.some((one) => parseQuantity(one)?.dimension === 'length');
  if (target.line && !length) checkLine(target.line);
}
