// A small random vehicle, and a kit for it.
import type { Random } from './random.ts';
import type { Raw } from './raw.ts';

const TRAITS: [string, unknown][] = [
  ['wheelbase', ['short', 'long']],
  ['lockers', ['none', 'fitted']],
  ['springs', ['coil', 'leaf', 'air']],
  ['load', { from: '0 kg', to: '400 kg' }],
  ['ride', ['75 mm', '100 mm']],
];

/** A vehicle with one or two axles, and what hangs on them. */
export function randomVehicle(random: Random): Raw {
  const traits = Object.fromEntries(random.some(TRAITS, 2, 4));
  const parts: Raw = {};
  const lines: Raw = {};
  const ends = random.chance(0.7) ? ['front', 'rear'] : ['front'];
  for (const end of ends) addEnd(random, end, parts, lines, traits);
  if (random.chance(0.5)) {
    parts.undertray = {
      kind: 'undertray',
      mass: random.one(['5 kg', '18 kg']),
      joins: ['frame'],
      joints: { bolt: { bolts: 4, torque: '25 N·m' } },
    };
  }
  if (random.chance(0.4)) addSteering(random, parts);
  if (random.chance(0.3)) {
    const engine: Raw = {
      kind: 'gearbox',
      joins: ['frame'],
      joints: { bolt: { bolts: 4, torque: '50 N·m' } },
    };
    if (random.chance(0.7)) engine.mass = random.one(['80 kg', '700 kg']);
    parts.gearbox = engine;
    if (random.chance(0.6))
      lines['gearbox-plug'] = {
        kind: 'plug',
        spans: [random.one(['body', 'frame']), 'gearbox'],
        slack: '70 mm',
      };
  }
  if (random.chance(0.3)) {
    const anchors: Raw = {
      kind: 'bracket',
      places: { station: ['front', 'rear'] },
      joins: ['frame'],
      joints: { bolt: { torque: '30 N·m' } },
    };
    if (random.chance(0.5)) anchors.sided = true;
    parts.anchor = anchors;
  }
  const kinds: Raw = { wheel: { mass: '30 kg', joints: { nut: { bolts: 5, torque: '130 N·m' } } } };
  return { kitproof: 'vehicle/1', name: 'Moorhen', traits, kinds, parts, lines };
}

type Layout = 'coils' | 'leaves' | 'arms' | 'torsion';

function addEnd(random: Random, end: string, parts: Raw, lines: Raw, traits: Raw): void {
  const layout = random.one<Layout>(['coils', 'coils', 'coils', 'leaves', 'arms', 'torsion']);
  const axle = layout === 'arms' || layout === 'torsion' ? addArms(random, end, parts) : `${end}-axle`;
  const below = axle === `${end}-axle` ? axle : `${end}-arm`; // what shocks and springs stand on
  const chain = random.chance(0.3) ? [[`${end}-shock.lower-bolt`, `${end}-strap`]] : [`${end}-shock`];
  if (below === axle) {
    const body: Raw = { kind: 'live-axle', mass: '120 kg' };
    if (random.chance(0.7)) body.drop = '190 mm';
    if (random.chance(0.85))
      body['limited-by'] =
        layout === 'leaves' ? [...chain, [`${end}-u-bolt.nut`, `${end}-leaf.eye-bolt`]] : chain;
    parts[axle] = body;
  } else if (random.chance(0.85)) (parts[below] as Raw)['limited-by'] = chain;
  parts[`${end}-wheel`] =
    end === 'rear' && random.chance(0.5)
      ? { like: 'front-wheel', joins: [axle] }
      : { kind: 'wheel', sided: true, joins: [axle] };
  parts[`${end}-shock`] = {
    kind: 'shock',
    mass: '4 kg',
    joins: ['frame', below],
    joints: {
      'top-nut': { nut: 'self-locking', stack: ['retainer', 'bush'], bushed: false, torque: '60 N·m' },
      'lower-bolt': { class: '10.9', torque: '90 N·m', ...(random.chance(0.4) ? { stretch: true } : {}) },
    },
  };
  if (random.chance(0.3) || chain.some((one) => Array.isArray(one))) {
    parts[`${end}-strap`] = {
      kind: 'limit-strap',
      joins: ['frame', below],
      joints: { bolt: { torque: '20 N·m' } },
    };
  }
  if (layout === 'leaves') addLeaves(random, end, parts);
  else if (layout === 'torsion') addTorsionBar(random, end, parts);
  else if (random.chance(0.7)) addSpring(random, end, below, parts, traits);
  addLinks(random, end, axle, parts);
  addLines(random, end, axle, parts, lines, traits);
}

/** Lower and sometimes upper arms with a knuckle, in the place of an axle: the knuckle's name. */
function addArms(random: Random, end: string, parts: Raw): string {
  const knuckle = `${end}-knuckle`;
  parts[knuckle] = { kind: 'knuckle', mass: '8 kg' };
  parts[`${end}-arm`] = {
    kind: 'lower-arm',
    mass: '9 kg',
    joins: ['frame', knuckle],
    joints: {
      'inner-bolt': { torque: '110 N·m' },
      'ball-nut': { nut: 'slotted', bushed: false, torque: '95 N·m' },
    },
    ...(random.chance(0.6) ? { drop: '160 mm' } : {}),
  };
  if (random.chance(0.5))
    parts[`${end}-upper-arm`] = {
      kind: 'upper-arm',
      mass: '4 kg',
      joins: ['frame', knuckle],
      joints: { bolt: { torque: '90 N·m' } },
    };
  return knuckle;
}

function addLeaves(random: Random, end: string, parts: Raw): void {
  parts[`${end}-leaf`] = {
    kind: 'leaf-spring',
    joins: ['frame', `${end}-axle`],
    joints: { 'eye-bolt': { nut: 'self-locking', torque: '130 N·m' } },
    ...(random.chance(0.7) ? { mass: random.one(['14 kg', '32 kg']) } : {}),
  };
  parts[`${end}-u-bolt`] = {
    kind: 'u-bolt',
    mass: '2 kg',
    joins: [`${end}-axle`, `${end}-leaf`],
    joints: { nut: { bolts: 4, nut: 'self-locking', torque: '108-136 N·m' } },
  };
}

function addTorsionBar(random: Random, end: string, parts: Raw): void {
  parts[`${end}-bar`] = { kind: 'torsion-bar', mass: '7 kg', joins: ['frame', `${end}-arm`] };
  const seated = random.chance(0.5);
  const crossmember = `${end}-bar-crossmember`;
  parts[`${end}-adjuster`] = {
    kind: 'adjuster',
    sided: true,
    mass: '1 kg',
    joins: [`${end}-bar`, ...(seated ? [crossmember] : [])],
    ...(random.chance(0.5) ? { joints: { bolt: { torque: '30 N·m' }, clamp: { torque: '20 N·m' } } } : {}),
  };
  if (seated) {
    (parts[`${end}-bar`] as Raw).joins = ['frame', `${end}-arm`, `${end}-anchor`];
    parts[`${end}-anchor`] = { kind: 'torsion-anchor', mass: '2 kg', joins: [crossmember] };
    parts[crossmember] = {
      kind: 'crossmember',
      mass: '9 kg',
      joins: ['frame'],
      joints: { bolt: { bolts: 4, torque: '80 N·m' } },
    };
  }
  if (random.chance(0.3)) (parts[`${end}-arm`] as Raw).bushed = false;
}

function addSpring(random: Random, end: string, below: string, parts: Raw, traits: Raw): void {
  const spring: Raw = {
    kind: random.one(['coil-spring', 'air-spring']),
    mass: '7 kg',
    joins: ['frame', below],
  };
  if (random.chance(0.6)) spring['free-at'] = '110 mm';
  if (spring.kind === 'air-spring') spring.pressure = '0.7-7 bar';
  if (traits.springs !== undefined && random.chance(0.4))
    spring.when = { springs: random.one(['coil', 'air', ['coil', 'air']]) };
  parts[`${end}-spring`] = { sided: true, ...spring };
  if (random.chance(0.4))
    parts[`${end}-bump-stop`] = {
      kind: 'bump-stop',
      sided: true,
      mass: '1 kg',
      joins: ['frame'],
      inside: `${end}-spring`,
      joints: { bolt: { torque: '45 N·m' } },
    };
}

function addLinks(random: Random, end: string, axle: string, parts: Raw): void {
  if (axle !== `${end}-axle`) return;
  if (random.chance(0.7)) {
    const bar: Raw = {
      kind: 'track-bar',
      joins: ['frame', axle],
      joints: {
        'frame-bolt': { torque: '120 N·m' },
        'axle-bolt': { nut: 'self-locking', torque: '108-136 N·m' },
      },
    };
    if (random.chance(0.8)) bar.mass = random.one(['6 kg', '20 kg']);
    parts[`${end}-track-bar`] = bar;
  }
  if (random.chance(0.3)) {
    parts[`${end}-arm`] = {
      kind: 'lower-arm',
      mass: '9 kg',
      joins: ['frame', axle],
      joints: { 'inner-bolt': { torque: '110 N·m' } },
      ...(random.chance(0.6) ? { 'limited-by': [`${end}-shock`], drop: '100 mm' } : {}),
    };
  }
}

function addLines(random: Random, end: string, axle: string, parts: Raw, lines: Raw, traits: Raw): void {
  if (random.chance(0.5))
    parts[`${end}-hose-bracket`] = {
      kind: 'hose-bracket',
      sided: true,
      mass: '0.2 kg',
      joins: [axle],
      joints: { bolt: { torque: '22 N·m' } },
    };
  if (random.chance(0.6)) {
    const hose: Raw = { kind: 'brake-hose', sided: true, spans: ['frame', axle] };
    if (random.chance(0.8)) hose.slack = '60 mm';
    if (random.chance(0.6)) hose['slack-free'] = '150 mm';
    if (parts[`${end}-hose-bracket`] !== undefined && random.chance(0.7))
      hose['held-by'] = `${end}-hose-bracket`;
    lines[`${end}-hose`] = hose;
  }
  if (random.chance(0.4)) {
    const plug: Raw = { kind: 'plug', spans: ['frame', axle], slack: '40 mm' };
    if (traits.lockers !== undefined) plug.when = { lockers: 'fitted' };
    lines[`${end}-plug`] = plug;
  }
  if (end === 'rear' && random.chance(0.5)) {
    lines['park-cable'] = {
      kind: 'parking-brake-cable',
      sided: random.chance(0.5),
      ends: ['lever', 'axle'],
      spans: ['frame', axle],
      paths: { over: '50 mm', under: '220 mm' },
      retracts: random.chance(0.6),
    };
  }
}

function addSteering(random: Random, parts: Raw): void {
  parts['tie-rod'] = {
    kind: 'tie-rod',
    mass: '3 kg',
    joins: ['frame', parts['front-axle'] === undefined ? 'front-knuckle' : 'front-axle'],
    joints: { nut: { nut: 'slotted', torque: '50-70 N·m' } },
    ends: { taper: { seat: 'taper' } },
  };
  if (random.chance(0.5))
    parts['front-hub'] = {
      kind: 'hub',
      mass: '6 kg',
      joins: [parts['front-axle'] === undefined ? 'front-knuckle' : 'front-axle'],
      joints: { nut: { nut: 'slotted', torque: '200 N·m', 'loosen-first': 'on-ground' } },
    };
  if (parts.undertray !== undefined) (parts['tie-rod'] as Raw).under = 'undertray';
}

/** A kit that replaces some of a vehicle's parts and brings new ones. */
export function randomKit(random: Random, vehicle: Raw): Raw {
  const parts: Raw = {};
  const lines: Raw = {};
  const old = Object.keys(vehicle.parts as Raw);
  const options: Raw = random.chance(0.5) ? { lift: ['40 mm', '50 mm'] } : {};
  if (random.chance(0.3)) options.finish = ['plain', 'coated'];
  for (const name of ['front-shock', 'rear-shock'].filter((one) => old.includes(one))) {
    if (!random.chance(0.6)) continue;
    const joints = random.one([
      undefined,
      { 'lower-bolt': { torque: '100 N·m', class: '12.9' } },
      { 'top-nut': { nut: 'self-locking' } },
    ]);
    parts[`new-${name}`] = { kind: 'shock', mass: '4 kg', replaces: name, ...(joints ? { joints } : {}) };
  }
  if (random.chance(0.4) && old.includes('front-track-bar'))
    parts['long-track-bar'] = { kind: 'track-bar', mass: '7 kg', replaces: 'front-track-bar' };
  if (random.chance(0.5)) {
    const bracket: Raw = {
      kind: 'bracket',
      mass: '2 kg',
      joins: ['frame'],
      joints: { bolt: { bolts: 2, torque: '45 N·m', stack: ['sealing-washer'] } },
      holes: { hole: { count: 1, size: '13 mm' } },
      faces: ['pad'],
    };
    if (random.chance(0.5)) bracket.sided = true;
    if (random.chance(0.3)) bracket.pair = 'handed';
    if (random.chance(0.3)) bracket.quantity = 1;
    if (options.lift !== undefined && random.chance(0.5)) bracket.when = { lift: { 'at-least': '50 mm' } };
    parts['drop-bracket'] = bracket;
  }
  if (random.chance(0.3)) parts['spare-clip'] = { kind: 'clip', spare: true };
  if (random.chance(0.3))
    lines['long-hose'] = {
      kind: 'brake-hose',
      spans: ['frame', old.includes('front-axle') ? 'front-axle' : 'front-knuckle'],
      slack: '200 mm',
    };
  const hardware: Raw = {};
  const shock = old.includes('front-shock') ? 'front-shock' : undefined;
  if (shock !== undefined && random.chance(0.5))
    hardware['shock-nut'] = {
      quantity: random.one([1, 2]),
      for: `${shock}.top-nut.nut`,
      ...(random.chance(0.3) ? { torque: '65 N·m' } : {}),
    };
  return {
    kitproof: 'kit/1',
    name: 'Upland',
    ...(Object.keys(options).length > 0 ? { options } : {}),
    parts,
    lines,
    hardware,
  };
}
