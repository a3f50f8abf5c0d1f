/** The state a guide starts from: `given`, and what the guide it follows leaves (schemas/semantics.md §6). */

import type { Instance } from '../model/instances';
import type { StateEntry } from '../model/model';
import { fromGiven, takeOff } from './effects-parts';
import { endsOf, normalValue } from './effects-rest';
import { nameOf } from './event';
import {
  corner,
  end as endItems,
  joint as jointItems,
  line as lineItems,
  named,
  part as partItems,
} from './items';
import type { Simulation } from './simulation';
import { bodySpot } from './spots';
import type { Branch, Item, Value } from './state';

/** Run number of what was so before the first step. */
export const BEFORE = -1;
/** Run number of what another guide left, and this one owes. */
export const FOLLOWED = -2;

/** Puts entries into effect. With `owed` (what another guide leaves) they are debts of this guide too. */
export function applyEntries(sim: Simulation, entries: readonly StateEntry[], owed: boolean): void {
  for (const entry of entries) {
    for (const at of instancesOfEntry(entry)) {
      sim.state.explore(entry.set, owed ? FOLLOWED : BEFORE, (branch) =>
        applyEntry(sim, branch, entry, at, owed),
      );
    }
  }
}

function instancesOfEntry(entry: StateEntry): readonly Instance[] {
  const { target } = entry;
  const sides = (instances: readonly Instance[]) =>
    instances.filter((at) => at.side === '' || entry.sides.includes(at.side));
  switch (target.type) {
    case 'part':
      return sides(target.part.instances);
    case 'joint':
    case 'piece':
      return sides(target.joint.part.instances);
    case 'end':
      return sides(target.end.part.instances);
    case 'hole':
      return sides(target.hole.part.instances);
    case 'face':
      return sides(target.face.part.instances);
    case 'line':
      return sides(target.lines[0]?.instances ?? []);
    default:
      return [{ side: '', place: '', placeKey: '', key: '', label: '' }];
  }
}

function applyEntry(sim: Simulation, branch: Branch, entry: StateEntry, at: Instance, owed: boolean): void {
  const { target, state } = entry;
  if (target.type === 'joint') {
    branch.put(jointItems.position(target.joint, at), state);
    branch.put(jointItems.touched(target.joint, at), state !== 'tight');
    branch.put(
      jointItems.lacksPin(target.joint, at),
      target.joint.nut === 'slotted' && state !== 'tight' && state !== 'final',
    );
    branch.put(fromGiven(`${target.joint.full}${at.key}`), true);
    if (owed && state !== 'tight' && state !== 'final') branch.put(jointItems.owed(target.joint, at), true);
  } else if (target.type === 'part') {
    const { part } = target;
    if (state === 'drained' || state === 'full') {
      branch.put(named.drained(part.name, at), state === 'drained');
      if (owed) branch.put(named.drainOwed(part.name, at), state === 'drained');
    } else if (state === 'compressed') {
      branch.put(partItems.compressed(part, at), true);
      branch.put(fromGiven(`${part.name}${at.key}`), true);
      if (owed) branch.put(partItems.compressorOwed(part, at), true);
    } else if (state === 'empty') {
      branch.put(partItems.pressure(part, at), 'empty');
      branch.put(fromGiven(`${part.name}${at.key}`), true);
      if (owed) branch.put(partItems.pressureOwed(part, at), true);
    } else if (state === 'supported') {
      branch.put(partItems.assumedHeld(part, at), true);
    } else {
      if (state === 'off' || state === 'discarded') takeOff(sim, branch, part, at);
      branch.put(partItems.state(part, at), state);
      if (state === 'fitted' && part.attributes.inflates) branch.put(partItems.pressure(part, at), 'full');
      branch.put(fromGiven(`${part.name}${at.key}`), state === 'off' || state === 'swung');
      if (owed) branch.put(partItems.owed(part, at), state === 'off');
      if (owed) branch.put(partItems.swungOwed(part, at), state === 'swung');
      for (const joint of part.joints.values()) {
        branch.put(jointItems.position(joint, at), state === 'fitted' ? 'tight' : 'out');
        branch.put(jointItems.touched(joint, at), state !== 'fitted');
        branch.put(jointItems.lacksPin(joint, at), joint.nut === 'slotted' && state !== 'fitted');
        branch.put(fromGiven(`${joint.full}${at.key}`), true);
      }
      for (const it of part.ends.values()) branch.put(fromGiven(`${it.full}${at.key}`), true);
    }
  } else if (target.type === 'end') {
    branch.put(endItems.freed(target.end, at), state === 'freed');
    branch.put(fromGiven(`${target.end.full}${at.key}`), true);
    if (owed) branch.put(endItems.owed(target.end, at), state === 'freed');
  } else if (target.type === 'line') {
    for (const line of target.lines) {
      const ends = target.end === null ? endsOf(line) : [target.end];
      if (state === 'disconnected' || state === 'connected') {
        for (const name of ends) {
          branch.put(lineItems.connected(line, name, at), state === 'connected');
          if (state === 'connected') branch.put(lineItems.state(line, at), 'fitted');
          branch.put(fromGiven(`${line.name}${at.key}`), state === 'disconnected');
          if (owed) branch.put(lineItems.owed(line, name, at), state === 'disconnected');
        }
      } else if (state === 'unclipped' || state === 'clipped') {
        branch.put(lineItems.clipped(line, at), state === 'clipped');
        branch.put(fromGiven(`${line.name}${at.key}`), state === 'unclipped');
        if (owed) branch.put(lineItems.clipOwed(line, at), state === 'unclipped');
      } else if (line.paths.has(state)) branch.put(lineItems.path(line, at), state);
      else branch.put(lineItems.state(line, at), state);
    }
  } else if (target.type === 'built-in') applyBuiltIn(sim, branch, target.name, state, owed);
}

function applyBuiltIn(sim: Simulation, branch: Branch, name: string, state: string, owed: boolean): void {
  if (name === 'vehicle' && state === 'raised') {
    for (const it of sim.corners.all) {
      branch.put(corner.carry(it), 'body');
      branch.put(corner.hang(it), 0);
      branch.put(bodySpot(it).aids, 'two-post-lift');
    }
  } else if (state === 'safe' || state === 'live') {
    branch.put(named.safe(name), state === 'safe');
    if (owed) branch.put(named.safeOwed(name), state === 'safe');
  } else if (state === 'drained' || state === 'full') {
    branch.put(
      named.drained(name, { side: '', place: '', placeKey: '', key: '', label: '' }),
      state === 'drained',
    );
  } else if (state !== 'ground') branch.put(named.switched(name, normalValue(sim, name)), state);
}

/** After the operations of `given`: nothing is owed for them, and the joints they opened owe once the guide touches them. */
export function forgive(sim: Simulation): void {
  const clear = (item: Item) =>
    sim.state.explore(
      sim.state.where(item, sim.model.universe, (value) => value === true),
      BEFORE,
      (branch) => branch.put(item, false),
    );
  const mark = (key: string, item: Item, owes: (value: Value) => boolean) =>
    sim.state.explore(sim.state.where(item, sim.model.universe, owes), BEFORE, (branch) =>
      branch.put(fromGiven(key), true),
    );
  for (const part of sim.corners.everyPart)
    for (const at of part.instances) {
      mark(`${part.name}${at.key}`, partItems.owed(part, at), (value) => value === true);
      clear(partItems.owed(part, at));
      for (const it of part.joints.values()) {
        mark(`${it.full}${at.key}`, jointItems.owed(it, at), (value) => value === true);
        clear(jointItems.owed(it, at));
      }
      for (const it of part.ends.values()) {
        mark(`${it.full}${at.key}`, endItems.owed(it, at), (value) => value === true);
        clear(endItems.owed(it, at));
      }
      for (const owed of [
        partItems.swungOwed(part, at),
        partItems.compressorOwed(part, at),
        partItems.pressureOwed(part, at),
      ]) {
        mark(`${part.name}${at.key}`, owed, (value) => value === true);
        clear(owed);
      }
    }
  for (const line of sim.corners.everyLine)
    for (const at of line.instances) {
      for (const owed of [
        ...endsOf(line).map((name) => lineItems.owed(line, name, at)),
        lineItems.clipOwed(line, at),
      ]) {
        mark(`${line.name}${at.key}`, owed, (value) => value === true);
        clear(owed);
      }
      for (const item of [lineItems.unbled(line, at), lineItems.unchecked(line, at)]) clear(item);
    }
  for (const { subject, at } of sim.events) {
    const name = nameOf(subject);
    for (const item of [
      named.holdOwed(name, at),
      named.drainOwed(name, at),
      named.safeOwed(name),
      named.switchOwed(name),
    ])
      clear(item);
  }
}
