// The state a guide starts from, and what it leaves: a map from item to state, or operations.
import { spotsOf } from './corners.ts';
import { exchange, findSection, readOperation, readUse } from './operation.ts';
import { narrow, runOperations, topPlace } from './order.ts';
import { normalValues } from './other.ts';
import { goAlong } from './parts.ts';
import { isMap, list, map, type Raw, text } from './raw.ts';
import { inState } from './relations.ts';
import { found, open, type Run } from './run.ts';
import { addHold, onGround } from './state.ts';
import { resolve } from './targets.ts';
import type { Part, Position, Target } from './things.ts';
import { allLines, allParts, BUILT_IN } from './world.ts';

const POSITIONS = ['tight', 'loose', 'out', 'started', 'snug', 'final'];

/** Lays what `follows` leaves and what is `given`, before anything is judged. */
export function layGiven(run: Run): void {
  const { documents } = run.world;
  const { guide, guideName } = documents;
  run.sides = narrow(['left', 'right'], guide.side);
  run.judged = false;
  const follows = text(guide.follows);
  const before = follows === undefined ? undefined : documents.other(guideName, follows);
  if (before) layDone(run, before.document, before.name, guideName);
  const given = Array.isArray(guide.given) ? {} : map(guide.given);
  if (Array.isArray(guide.given)) {
    const operations = guide.given.map((one) => (isMap(one) && 'use' in one ? undefined : one));
    runOperations(run, { do: operations }, '0', topPlace(guideName, run.sides));
    markOpen(run);
  } else layStates(run, given, false);
  // What is given otherwise than it was left counts as it is given.
  const left = Object.entries(map(before?.document.leaves)).filter(
    ([item, state]) => text(given[item]) === undefined || text(given[item]) === text(state),
  );
  layStates(run, Object.fromEntries(left), true);
  run.judged = false;
  run.occurrence = 0;
  for (const part of allParts(run.world)) {
    for (const one of [part, ...part.joints]) one.granted = false; // nothing was found yet
  }
}

/** What operations of `given` opened owes from the first operation on it, as what a map of states names. */
function markOpen(run: Run): void {
  for (const part of allParts(run.world)) {
    part.given ||= part.compressed || part.state === 'off' || part.state === 'swung';
    for (const joint of part.joints)
      joint.given ||= !part.fresh && !['tight', 'final'].includes(joint.position);
    for (const end of part.ends) end.given ||= !part.fresh && end.freed;
  }
  for (const line of allLines(run.world)) {
    const open = line.ends.some((end) => line.connected.get(end) !== true);
    line.given ||= line.unclipped || (open && (!line.fresh || line.used));
  }
}

/** The guides before, the first day first; a circle ends where it closes. */
function daysBefore(
  run: Run,
  document: Raw,
  name: string,
  guideName: string,
): { document: Raw; name: string }[] {
  const days = [{ document, name }];
  for (let at = text(document.follows); at !== undefined; at = text(days[0]!.document.follows)) {
    const other = run.world.documents.other(days[0]!.name, at);
    if (other.name === guideName || days.some((day) => day.name === other.name)) break;
    days.unshift(other);
  }
  return days;
}

/** What the guides before fitted, connected or scrapped is so from the start: the last operation on a name and side counts. */
function layDone(run: Run, document: Raw, name: string, guideName: string): void {
  const { documents } = run.world;
  const last = new Map<string, { name: string; side: string; state: string }>();
  const section = (body: Raw, from: string, names: Record<string, string>, stack: string[]): void => {
    for (const step of list(body.steps).filter(isMap))
      for (const value of list(step.do)) {
        const operation = readOperation(value);
        if (operation?.verb === 'use') use(operation.raw, from, stack);
        const state = operation && DONE[operation.verb];
        if (!operation || state === undefined) continue;
        const sides = [body, step, operation.raw].reduce((left, one) => narrow(left, one.side), BOTH);
        for (const target of operation.targets)
          for (const side of sides) {
            const name = exchange(target, names);
            const isLine = run.world.lines.has(name.split('.')[0] ?? '');
            if (isLine ? state === 'fitted' : state === 'connected') continue;
            last.delete(`${name} ${side}`);
            last.set(`${name} ${side}`, { name, side, state });
          }
      }
  };
  const use = (raw: Raw, from: string, stack: string[]): void => {
    const wanted = readUse(raw);
    const other =
      wanted.guide === undefined
        ? { document: documents.other('.', from).document, name: from }
        : documents.other(from, wanted.guide);
    const mark = `${other.name}#${wanted.section}`;
    const used = findSection(other.document, wanted.section);
    if (used && !stack.includes(mark)) section(used.section, other.name, wanted.names, [...stack, mark]);
  };
  for (const day of daysBefore(run, document, name, guideName))
    for (const body of list(day.document.sections).filter(isMap)) section(body, day.name, {}, []);
  for (const { name, side, state } of last.values())
    for (const target of resolve(run.world, name, 'record', { sides: [side], places: {} }))
      if (target.what === 'part' || target.line) setGiven(run, target, state, false);
}

const BOTH = ['left', 'right'];

const DONE: Record<string, string> = {
  ...{ fit: 'fitted', 'bolt-up': 'fitted', transfer: 'fitted' },
  ...{ route: 'connected', connect: 'connected', discard: 'discarded' },
};

/** Sets every item to its state; `owed` opens its debt at the guide itself. */
function layStates(run: Run, states: Record<string, unknown>, owed: boolean): void {
  for (const [item, value] of Object.entries(states)) {
    const state = text(value);
    if (state === undefined) continue;
    for (const target of targetsOf(run, item)) {
      run.judged = false;
      setGiven(run, target, state, owed);
      if (!owed) continue;
      run.judged = true;
      run.path = '0';
      oweState(run, target, state);
    }
  }
}

/** What the guide before left so is owed: the state that it names, and nothing else that is open on the item. */
function oweState(run: Run, target: Target, state: string): void {
  const { part, joint, end, line } = target;
  if (target.what === 'joint' && joint && state !== 'tight' && state !== 'final')
    joint.debt = open(run, joint.debt);
  if (end && state === 'freed') end.debt = open(run, end.debt);
  if (target.what === 'part' && part) {
    if (state === 'off' || state === 'swung') part.debt = open(run, part.debt);
    if (state === 'compressed') part.compressedDebt = open(run, part.compressedDebt);
    if (state === 'empty') part.pressureDebt = open(run, part.pressureDebt);
  }
  if (line && state === 'disconnected') line.debt = open(run, line.debt);
  if (line && state === 'unclipped') line.unclippedDebt = open(run, line.unclippedDebt);
}

function targetsOf(run: Run, item: string): Target[] {
  return resolve(run.world, item, 'record', { sides: run.sides, places: {} });
}

function setGiven(run: Run, target: Target, state: string, owed: boolean): void {
  const { world } = run;
  const { part, joint, end, line } = target;
  const put = { path: owed ? '0' : undefined, item: target.item, side: target.side };
  if (state === 'drained')
    world.drained.set(target.key, { item: target.item, side: target.side, path: put.path });
  else if (state === 'full') world.drained.delete(target.key);
  else if (state === 'held') addHold(world, target.key, { ...put, aids: [] });
  else if (state === 'raised' || state === 'supported')
    putAid(run, target, state === 'raised' ? 'two-post-lift' : '', put);
  else if (target.what === 'joint' && joint) {
    joint.given = true;
    if (POSITIONS.includes(state)) joint.position = state as Position;
    const undone = state !== 'tight' && state !== 'final';
    joint.lacksPin = joint.body.nut === 'slotted' && undone;
  } else if (end) {
    end.given = true;
    end.freed = state === 'freed';
  } else if (target.what === 'part' && part) givePart(run, part, state);
  else if (line) {
    line.given = true;
    const ends = target.lineEnd === undefined ? line.ends : [target.lineEnd];
    if (state === 'connected' || state === 'disconnected') {
      for (const one of ends) line.connected.set(one, state === 'connected');
      line.used ||= state === 'connected';
    } else if (state === 'unclipped' || state === 'clipped') line.unclipped = state === 'unclipped';
    else if (state === 'discarded') line.discarded = true;
    else line.path = state;
  } else if (target.what === 'built-in' && BUILT_IN.includes(target.item) && state !== 'ground') {
    if (state === 'live') world.safe.delete(target.item);
    else if (state === 'safe') world.safe.set(target.item, put.path);
    else {
      world.values.set(target.item, state);
      if (owed && !normalValues(run, target.item).has(state)) world.valueDebt.set(target.item, '0');
      else normalValues(run, target.item).add(state);
    }
  }
}

function givePart(run: Run, part: Part, state: string): void {
  part.given = true;
  if (state === 'compressed') part.compressed = true;
  else if (state === 'empty') part.pressure = 'empty';
  else if (state === 'off' || state === 'fitted' || state === 'swung' || state === 'discarded') {
    part.state = state;
    part.neverOn = false;
    part.offFromGiven = state === 'off';
    for (const joint of part.joints) {
      joint.position = state === 'fitted' ? 'tight' : 'out';
      joint.lacksPin = state !== 'fitted' && joint.body.nut === 'slotted';
    }
    if (state === 'off' || state === 'discarded') goAlong(run, part, part);
    if (state === 'off' || state === 'fitted') for (const end of part.ends) end.freed = state === 'off';
    if (state === 'fitted' && part.pressure === 'empty') part.pressure = 'full';
  }
}

function putAid(
  run: Run,
  target: Target,
  aid: string,
  put: { path: string | undefined; item: string; side: string },
): void {
  // A lift takes the whole vehicle, though the guide is for one side.
  const spots = spotsOf(run.world, target, aid === '' ? run.sides : BOTH);
  if (!spots) return;
  if (spots.where === 'own') {
    spots.part.aids.set(aid, put);
    return;
  }
  for (const corner of spots.corners) {
    (spots.where === 'body' ? corner.body : corner.axle).set(aid, put);
    if (aid === '') continue;
    const carry = spots.where === 'body' ? 'body' : 'axle';
    if (corner.carry !== carry) corner.carriedSince = put.path;
    corner.carry = carry;
    if (spots.where === 'body') corner.hang = 0;
  }
}

/** What `leaves` excuses, as keys of items and states; an item that is not so is told. */
export function readLeaves(run: Run): Set<string> {
  const excused = new Set<string>();
  run.sides = narrow(['left', 'right'], run.world.documents.guide.side);
  for (const [item, value] of Object.entries(map(run.world.documents.guide.leaves))) {
    const state = text(value);
    if (state === undefined || isMap(value)) continue;
    for (const target of targetsOf(run, item)) {
      if (isSo(run, target, state)) excused.add(`${target.item}@${target.side}=${state}`);
      else found(run, 'leaves-not-so', target, '0');
    }
  }
  return excused;
}

function isSo(run: Run, target: Target, state: string): boolean {
  if (state === 'ground') return run.world.corners.every((corner) => onGround(run.world, corner));
  if (state === 'raised') return run.world.corners.some((corner) => !onGround(run.world, corner));
  // What is still in its box is not connected either.
  if (state === 'disconnected' && target.line)
    return target.line.ends.some((end) => target.line?.connected.get(end) !== true);
  if (state === 'supported') {
    const spots = spotsOf(run.world, target, run.sides);
    if (spots?.where === 'own') return spots.part.aids.size > 0;
    return spots ? spots.corners.every((corner) => corner[spots.where].size > 0) : false;
  }
  return inState(run, target, state);
}
