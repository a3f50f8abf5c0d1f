/** The items that have a state, by kind: their keys, and their values before the guide starts. */

import type { Instance } from '../model/instances';
import type { End, Face, Hole, Joint, Line, Part } from '../model/model';
import type { Corner } from './corners';
import type { Item, Value } from './state';

export type Position = 'tight' | 'loose' | 'out' | 'started' | 'snug' | 'final';

/** Positions from which nothing more is owed. */
export const isTight = (value: Value) => value === 'tight' || value === 'final';
/** States of a part in which it sits on the vehicle. */
export const isOn = (value: Value) => value === 'fitted' || value === 'swung';
/** States in which it sits where it belongs: on the vehicle, or on the part with which it came off. */
export const isSeated = (value: Value) => value === 'fitted' || String(value).startsWith('with:');

const item = (kind: string, of: string, at: string, initial: Value): Item => ({ kind, of, at, initial });

/** Parts that start in the box: the kit's, and implied ones that the guide fits before it does anything else to them. */
export function startsBoxed(part: Part | Line): boolean {
  return part.origin === 'kit' || part.startsOff;
}

export const joint = {
  position: (it: Joint, at: Instance) =>
    item('position', it.full, at.key, startsBoxed(it.part) ? 'out' : 'tight'),
  touched: (it: Joint, at: Instance) => item('touched', it.full, at.key, false),
  /** Owes its final torque. */
  owed: (it: Joint, at: Instance) => item('owed', it.full, at.key, false),
  spent: (it: Joint, piece: string, at: Instance) => item('spent', `${it.full}.${piece}`, at.key, false),
  lacksPin: (it: Joint, at: Instance) => item('lacks-pin', it.full, at.key, startsBoxed(it.part)),
  pinOwed: (it: Joint, at: Instance) => item('pin-owed', it.full, at.key, false),
};

export const part = {
  /** fitted off swung discarded boxed offered, or `with:<part>`: off together with the part that it joins. */
  state: (it: Part, at: Instance) => item('part', it.name, at.key, startsBoxed(it) ? 'boxed' : 'fitted'),
  /** How many of a kit's part were fitted out of the box. */
  taken: (it: Part) => item('taken', it.name, '', 0),
  owed: (it: Part, at: Instance) => item('part-owed', it.name, at.key, false),
  swungOwed: (it: Part, at: Instance) => item('swung-owed', it.name, at.key, false),
  compressed: (it: Part, at: Instance) => item('compressed', it.name, at.key, false),
  compressorOwed: (it: Part, at: Instance) => item('compressor-owed', it.name, at.key, false),
  unloaded: (it: Part, at: Instance) => item('unloaded', it.name, at.key, false),
  /** kPa, or `full` or `empty`. */
  pressure: (it: Part, at: Instance) => item('pressure', it.name, at.key, startsBoxed(it) ? 'empty' : 'full'),
  pressureOwed: (it: Part, at: Instance) => item('pressure-owed', it.name, at.key, false),
  /** A need that a finding assumed as met: it is held. */
  assumedHeld: (it: Part, at: Instance) => item('assumed-held', it.name, at.key, false),
};

export const end = {
  freed: (it: End, at: Instance) => item('freed', it.full, at.key, startsBoxed(it.part)),
  owed: (it: End, at: Instance) => item('seat-owed', it.full, at.key, false),
};

export const line = {
  state: (it: Line, at: Instance) => item('line', it.name, at.key, startsBoxed(it) ? 'boxed' : 'fitted'),
  connected: (it: Line, name: string, at: Instance) =>
    item('connected', `${it.name}.${name}`, at.key, !startsBoxed(it)),
  /** Owes being connected. */
  owed: (it: Line, name: string, at: Instance) => item('connect-owed', `${it.name}.${name}`, at.key, false),
  clipped: (it: Line, at: Instance) => item('clipped', it.name, at.key, true),
  clipOwed: (it: Line, at: Instance) => item('clip-owed', it.name, at.key, false),
  path: (it: Line, at: Instance) => item('path', it.name, at.key, [...it.paths.keys()][0] ?? ''),
  unbled: (it: Line, at: Instance) => item('unbled', it.name, at.key, false),
  unchecked: (it: Line, at: Instance) => item('unchecked', it.name, at.key, false),
};

/** Holds, fluids, switches and the like, by the name a guide uses. */
export const named = {
  /** Aids that hold it by `hold`, joined by `+`. */
  hold: (name: string, at: Instance) => item('hold', name, at.key, ''),
  holdOwed: (name: string, at: Instance) => item('hold-owed', name, at.key, false),
  drained: (name: string, at: Instance) => item('drained', name, at.key, false),
  drainOwed: (name: string, at: Instance) => item('drain-owed', name, at.key, false),
  recorded: (name: string, at: Instance) => item('recorded', name, at.key, false),
  safe: (name: string) => item('safe', name, '', false),
  safeOwed: (name: string) => item('safe-owed', name, '', false),
  switched: (name: string, normal: string) => item('switch', name, '', normal),
  switchOwed: (name: string) => item('switch-owed', name, '', false),
  measured: (name: string) => item('measured', name, '', false),
};

export const work = {
  /** none marked pilot size. */
  hole: (it: Hole, at: Instance) => item('hole', it.full, at.key, 'none'),
  /** '' (as it was), raw, deburred, protected. */
  edge: (it: Hole | Face | Part, at: Instance) =>
    item('edge', it.type === 'part' ? it.name : it.full, at.key, ''),
  edgeOwed: (it: Hole | Face | Part, at: Instance) =>
    item('edge-owed', it.type === 'part' ? it.name : it.full, at.key, false),
};

export const corner = {
  /** wheel axle body. */
  carry: (it: Corner) => item('carry', it.key, '', 'wheel'),
  /** `ride`, or mm below where it hangs. */
  hang: (it: Corner) => item('hang', it.key, '', 'ride'),
  chocked: (it: Corner) => item('chocked', it.key, '', false),
  /** A need that a finding assumed as met: it is at ride height, until something moves it. */
  assumedRide: (it: Corner) => item('assumed-ride', it.key, '', false),
  /** A need that a finding assumed as met: one may work beneath. */
  assumedBlocked: (it: Corner) => item('assumed-blocked', it.key, '', false),
};

/** Aids at a spot: names in order, joined by `+`. */
export const spot = {
  aids: (key: string) => item('aids', key, '', ''),
};

/** A rule waits for it to be held or supported next. */
export const awaited = (key: string) => item('awaited', key, '', false);

/** A finding took its state for granted: that it is already so is then no news. */
export const assumed = (name: string, at: Instance) => item('assumed', name, at.key, false);

/** Names of the switches that always exist, with their normal values. */
export const NORMAL_SWITCH: Readonly<Record<string, string>> = {
  ignition: 'off',
  levelling: 'on',
  'parking-brake': 'on',
};
