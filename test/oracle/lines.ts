// What happens to lines and to what is held, and what the rules say of it.
import { judgeReleased } from './carrying.ts';
import { spanned } from './corners.ts';
import { aidName } from './packs.ts';
import { text, texts } from './raw.ts';
import { found, open, type Run } from './run.ts';
import { addHold, connected, holdOn } from './state.ts';
import type { Line, Target } from './things.ts';
import { heldKeys } from './undone.ts';
import { fits, says } from './world.ts';

/** The ends an operation works on: the named one, or all. */
function endsOf(target: Target): string[] {
  if (!target.line) return [];
  return target.lineEnd === undefined ? target.line.ends : [target.lineEnd];
}

/** Rules before `disconnect`. */
export function judgeDisconnect(run: Run, target: Target): void {
  const line = target.line;
  if (!line) return;
  const key = `${line.name}@${line.label}`;
  if (says(line.body, 'retracts') && !holdOn(run.world, line)) {
    found(run, 'retracting-cable-held', { item: line.name, side: line.label });
    if (run.judged) addHold(run.world, key, { item: line.name, side: line.label, path: undefined, aids: [] });
  }
}

/** Whether a line carries a fluid of a type, by itself or by its kind. */
function carries(line: Line, type: string): boolean {
  return line.body['line-type'] === type;
}

export function disconnect(run: Run, target: Target): void {
  const line = target.line!;
  for (const end of endsOf(target)) line.connected.set(end, false);
  line.debt = open(run, line.debt);
  openLine(run, line);
}

/** A hydraulic or fuel line that is opened, or first filled, must be bled and checked. */
function openLine(run: Run, line: Line): void {
  const hydraulic = carries(line, 'hydraulic');
  if (!hydraulic && !carries(line, 'fuel')) return;
  if (hydraulic) line.unbled = true;
  line.unchecked = true;
  line.openedDebt = open(run, line.openedDebt);
}

export function connect(run: Run, target: Target): void {
  const line = target.line!;
  for (const end of endsOf(target)) line.connected.set(end, true);
  useKitLine(run, line);
}

/** A line owes its connection until every end has one. A kit line owes from its first use. */
function useKitLine(run: Run, line: Line): void {
  if (line.kit && !line.used) openLine(run, line);
  line.used = true;
  const missing = line.ends.some((end) => line.connected.get(end) !== true);
  if (!missing) line.debt = undefined;
  else if (line.fresh) line.debt = open(run, line.debt);
}

/** `discard` of a line: `discard-fitted` while an end of it is connected. */
export function discardLine(run: Run, target: Target): void {
  const line = target.line!;
  if (line.ends.some((end) => line.connected.get(end) === true)) {
    found(run, 'discard-fitted', target);
    line.granted = true;
  }
  line.discarded = true;
}

export function clip(run: Run, line: Line, clipped: boolean): void {
  line.unclipped = !clipped;
  line.unclippedDebt = clipped ? undefined : open(run, line.unclippedDebt);
}

export function route(run: Run, line: Line): void {
  const path = text(run.raw.path) ?? text(run.raw.to);
  if (path !== undefined) line.path = path;
  useKitLine(run, line);
}

export function bleed(line: Line): void {
  line.unbled = false;
  if (!line.unchecked) line.openedDebt = undefined;
}

/** `check` or `measure`: a line that was open is good once it is connected, bled and checked. */
export function check(line: Line): void {
  if (!connected(line) || line.unbled) return;
  line.unchecked = false;
  line.openedDebt = undefined;
}

export function hold(run: Run, target: Target): void {
  addHold(run.world, target.key, {
    item: target.item,
    side: target.side,
    path: run.judged ? run.path : undefined,
    aids: texts(run.raw.with).map((one) => aidName(run.world.packs, one)),
  });
}

/** `release`: the hold on the thing itself, and those on its ends; with an aid said, that aid only. */
export function release(run: Run, target: Target): void {
  const named = texts(run.raw.with).map((one) => aidName(run.world.packs, one));
  for (const key of heldKeys(run, target)) {
    const hold = run.world.holds.get(key)!;
    const left = hold.aids.filter((aid) => !named.includes(aid));
    if (named.length === 0 || (left.length === 0 && hold.aids.length > 0)) run.world.holds.delete(key);
    else hold.aids = left;
  }
  // What was held may hang on a line now.
  const parts = target.line ? spanned(run.world, target.line) : target.what === 'part' ? [target.part!] : [];
  for (const part of parts)
    if (!target.line || fits(target.line, part)) run.step.loosened.push({ part, path: run.path });
  if (target.what === 'part' && target.part) judgeReleased(run, target.part);
}
