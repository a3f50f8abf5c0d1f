// What is owed at the end, each at the operation that made it.
import { oweHardware } from './hardware.ts';
import { texts } from './raw.ts';
import { found, type Run } from './run.ts';
import { aidCan, edgesOf, onGround, UNNAMED_JACK } from './state.ts';
import type { Debt, Joint, Line, Part, Put } from './things.ts';
import { allLines, allParts, fits, isKind, related } from './world.ts';

/** Tells everything that is still owed, save what `leaves` excuses: an item, in the very state that is owed. */
export function settle(run: Run, excused: Set<string>): void {
  const owe: Owe = (rule, item, side, debt, ...states) => {
    if (debt === undefined || states.some((state) => excused.has(`${item}@${side}=${state}`))) return;
    found(run, rule, { item, side }, debt);
  };
  const { world } = run;
  for (const part of allParts(world)) oweInstead(run, part, owe);
  for (const part of allParts(world)) owePart(run, part, owe);
  for (const line of allLines(world)) oweLine(run, line, owe);
  oweCarrying(run, owe);
  for (const hold of world.holds.values()) {
    const scrapped = allParts(world).some(
      ({ name, label, state }) => name === hold.item && label === hold.side && state === 'discarded',
    );
    if (!scrapped) owe('left-held', hold.item, hold.side, hold.path, 'held');
  }
  for (const { item, side, path } of world.drained.values()) owe('left-drained', item, side, path, 'drained');
  for (const [item, debt] of world.safe) owe('left-isolated', item, '', debt, 'safe');
  for (const [item, debt] of world.valueDebt) owe('left-switched', item, '', debt, world.values.get(item));
  oweHardware(run);
}

type Owe = (rule: string, item: string, side: string, debt: Debt, ...states: (string | undefined)[]) => void;

function owePart(run: Run, part: Part, owe: Owe): void {
  const { name, label } = part;
  if (part.compressed) owe('left-compressed', name, label, part.compressedDebt, 'compressed');
  if (part.state === 'discarded') return; // what is scrapped owes nothing else
  for (const hole of part.holes)
    if (hole.state === 'pilot') owe('left-pilot', `${name}.${hole.name}`, label, hole.debt);
    else if (hole.state === 'marked' && hole.size !== undefined)
      owe('left-marked', `${name}.${hole.name}`, label, hole.debt);
  const on = part.state === 'fitted' || part.state === 'swung';
  if (part.state === 'off') owe('left-off', name, label, part.debt, 'off');
  if (part.state === 'swung') owe('left-swung', name, label, part.debt, 'swung');
  if (part.state === 'boxed' || part.state === 'offered')
    oweUnused(run, part, owe, run.boxCount.get(part.name) ?? 0);
  if (on) for (const joint of part.joints) oweJoint(joint, owe);
  for (const end of part.ends) {
    if (end.freed && part.state === 'fitted')
      owe('left-unseated', `${name}.${end.name}`, label, end.debt, 'freed');
  }
  if (on && part.pressure === 'empty') owe('left-deflated', name, label, part.pressureDebt, 'empty');
  if (part.unloaded && part.state === 'fitted') owe('left-unloaded', name, label, part.unloadedDebt);
  for (const edge of edgesOf(part)) {
    if (edge.state !== 'raw' && edge.state !== 'deburred') continue;
    owe('left-unprotected', edgeItem(part, edge), label, edge.debt);
  }
}

/** Whether a finding told already that what this thing replaces is gone with nothing new, or went back. */
function saidMissing(run: Run, thing: Part | Line, pieces: number, instances: number): boolean {
  const olds = texts(thing.own.replaces);
  const rules = ['left-without', 'fit-discarded'].flatMap((name) => run.rules.builtInIds(name));
  return [...run.findings.values()].some(
    ({ rule, item, side }) =>
      rules.includes(rule) &&
      olds.includes(item) &&
      (pieces < instances || side === '' || thing.label === '' || side === thing.label),
  );
}

/** `left-without`: a vehicle cannot go without a part of some kinds; what replaces it must be on. */
function oweInstead(run: Run, part: Part, owe: Owe): void {
  const kinds = texts(run.rules.parameter('left-without', 'kinds'));
  if (part.state !== 'discarded' || part.kit || part.implied) return;
  const names = run.world.replacers.get(part.name) ?? [];
  const anywhere = [...run.world.declarations.values()].some(({ replaces }) => replaces.includes(part.name));
  const replacedElsewhere = anywhere && names.length === 0; // in other variants alone
  if (!kinds.some((kind) => isKind(part, kind)) && !replacedElsewhere) return;
  const instead = names.flatMap((name) => (run.world.parts.get(name) ?? []).filter((one) => fits(part, one)));
  if (instead.some((one) => one.state === 'fitted' || one.state === 'swung')) return;
  owe('left-without', part.name, part.label, part.discardedAt, 'discarded');
}

function edgeItem(part: Part, edge: unknown): string {
  const own = [...part.faces, ...part.holes].find((one) => one.edge === edge);
  return own ? `${part.name}.${own.name}` : part.name;
}

function oweJoint(joint: Joint, owe: Owe): void {
  const { item, part, position } = joint;
  if (position !== 'tight' && position !== 'final') owe('left-loose', item, part.label, joint.debt, position);
  if (position === 'final' && joint.lacksPin) owe('left-without-pin', item, part.label, joint.pinDebt);
}

function oweUnused(run: Run, thing: Part | Line, owe: Owe, fromBox = 0): void {
  const instances = (run.world.parts.get(thing.name) ?? run.world.lines.get(thing.name) ?? []).length;
  if (saidMissing(run, thing, Number(thing.body.quantity ?? instances), instances)) return;
  if (!thing.kit || thing.body.spare === true || Number(thing.body.quantity ?? 1) === 0) return;
  if (thing.body.quantity !== undefined && fromBox >= Number(thing.body.quantity)) return; // the box is empty
  // A line in its box is not connected either.
  const states = thing.what === 'line' ? ['boxed', 'disconnected'] : [thing.state];
  owe('left-unused', thing.name, thing.label, '0', ...states);
}

function oweLine(run: Run, line: Line, owe: Owe): void {
  const { name, label } = line;
  if (line.discarded || spansScrap(run, line)) return;
  const untouched = line.fresh && !line.used && line.ends.every((end) => line.connected.get(end) !== true);
  if (untouched) {
    oweUnused(run, line, owe);
    return;
  }
  const open = line.ends.some((end) => line.connected.get(end) !== true);
  if (open) owe('left-disconnected', name, label, line.debt, 'disconnected');
  else if (line.unbled) owe('left-unbled', name, label, line.openedDebt);
  else if (line.unchecked) owe('left-unchecked', name, label, line.openedDebt);
  if (line.unclipped) owe('left-unclipped', name, label, line.unclippedDebt, 'unclipped');
}

/** A line to a part that is scrapped has nothing to be connected to, unless another part took its place. */
function spansScrap(run: Run, line: Line): boolean {
  return line.spans.some((name) => {
    const role = related(run.world, line, name);
    return role.some((part) => part.state === 'discarded') && !role.some((part) => part.state === 'fitted');
  });
}

function oweCarrying(run: Run, owe: Owe): void {
  const { corners } = run.world;
  for (const part of allParts(run.world)) oweAids(part.aids, owe);
  const lifted = corners.filter((corner) => !onGround(run.world, corner));
  const told = lifted.filter((corner) => !corner.assumedRide);
  if (lifted.length > 0) {
    for (const corner of told) {
      const lifts = [...corner.body].filter(([aid]) => aidCan(run.world, aid, 'takes-wheels'));
      const since = corner.carry === 'wheel' ? lifts.map(([, put]) => put.path) : [corner.carriedSince];
      // What is given raised owes at the guide itself, once the guide has worked on anything.
      const debts = since.map((debt) => debt ?? (run.worked ? '0' : undefined));
      for (const debt of debts) owe('left-raised', 'vehicle', '', debt, 'raised');
    }
    return;
  }
  for (const corner of corners)
    if (corner.carry === 'wheel') for (const spot of [corner.axle, corner.body]) oweAids(spot, owe);
}

function oweAids(spot: Map<string, Put>, owe: Owe): void {
  for (const [aid, put] of spot)
    if (aid !== UNNAMED_JACK) owe('left-supported', put.item, put.side, put.path, 'supported');
}
