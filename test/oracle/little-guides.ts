// A small vehicle and kit, and a short way to write a guide for them.
import { stringify } from 'yaml';
import { standardPacks } from './example.ts';
import { type OracleConfig, runOracle, type Variant } from './oracle.ts';
import { map, type Raw } from './raw.ts';

const packs = standardPacks();

export const VEHICLE = `
kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted], load: { from: 0 kg, to: 400 kg } }
kinds: { wheel: { mass: 30 kg, joints: { nut: { bolts: 5, torque: 130 N·m } } } }
parts:
  front-axle: { kind: live-axle, mass: 120 kg, drop: 190 mm, limited-by: [front-shock] }
  front-wheel: { kind: wheel, joins: [front-axle] }
  front-shock: { kind: shock, mass: 4 kg, joins: [frame, front-axle], joints: { top: { nut: self-locking, bushed: false, torque: 60 N·m }, low: { torque: 90 N·m } } }
  front-coil: { kind: coil-spring, mass: 7 kg, joins: [frame, front-axle], free-at: 110 mm }
  front-bar: { kind: track-bar, mass: 6 kg, joins: [frame, front-axle], joints: { frame-bolt: { torque: 120 N·m }, axle-bolt: { torque: 120 N·m } } }
  rear-axle: { kind: live-axle, mass: 130 kg, limited-by: [[rear-strap, rear-link]] }
  rear-wheel: { like: front-wheel, joins: [rear-axle] }
  rear-strap: { kind: limit-strap, sided: false, mass: 1 kg, joins: [frame, rear-axle], joints: { bolt: { torque: 20 N·m } } }
  rear-link: { kind: link-arm, sided: false, mass: 5 kg, joins: [frame, rear-axle], joints: { bolt: { torque: 100 N·m } } }
  tie-rod: { kind: tie-rod, mass: 3 kg, joins: [frame, front-axle], joints: { nut: { nut: slotted, torque: 50-70 N·m } }, ends: { taper: { seat: taper } } }
  tray: { kind: undertray, mass: 18 kg, joins: [frame], joints: { bolt: { torque: 25 N·m } } }
  valve: { kind: bracket, mass: 1 kg, joins: [frame], inside: tray, joints: { bolt: { torque: 10 N·m } } }
  hook: { kind: bracket, places: { station: [front, rear] }, sided: true, joins: [frame], joints: { bolt: { torque: 30 N·m } } }
lines:
  front-hose: { kind: brake-hose, sided: true, spans: [frame, front-axle], slack: 60 mm, slack-free: 220 mm }
  plug: { kind: plug, spans: [frame, front-axle], slack: 200 mm, when: { lockers: fitted } }
  cable: { kind: cable, ends: [lever, axle], spans: [frame, rear-axle], paths: { over: 50 mm, under: 220 mm }, retracts: true }
`;

const KIT = `
kitproof: kit/1
name: Upland
options: { lift: [40 mm, 50 mm] }
parts:
  long-bar: { kind: track-bar, mass: 7 kg, replaces: front-bar }
  plate: { kind: bracket, mass: 2 kg, joins: [frame], when: { lift: 50 mm }, holes: { hole: { size: 13 mm } }, joints: { bolt: { torque: 45 N·m } } }
`;

export const UP = { raise: 'vehicle', with: 'two-post-lift' };
export const DOWN = { lower: 'vehicle' };

export interface Extra {
  guide?: Raw;
  variant?: Variant;
  config?: OracleConfig;
  kit?: boolean;
}

/** Findings as `rule operation item side`; each entry of `steps` is a step, an operation or a list of them. */
export function findings(steps: unknown[], extra: Extra = {}): string[] {
  const written = steps.map((step) => {
    if (Array.isArray(step)) return { do: step };
    return map(step).do === undefined ? { do: [step] } : step;
  });
  const kit = extra.kit ? { kit: 'k.kit.yaml' } : {};
  const guide = {
    kitproof: 'install/1',
    title: 'T',
    vehicle: 'v.vehicle.yaml',
    ...kit,
    ...extra.guide,
    sections: [{ title: 'S', steps: written }],
  };
  const files = { 'v.vehicle.yaml': VEHICLE, 'k.kit.yaml': KIT, 'g.install.yaml': stringify(guide) };
  const variant = { lockers: 'none', load: '0 kg', lift: '40 mm', ...extra.variant };
  return runOracle(files, 'g.install.yaml', packs, variant, extra.config).map((one) =>
    [one.rule, one.operation, one.item, one.side].join(' ').trim(),
  );
}

export interface Case {
  name: string;
  steps: unknown[];
  expected: string[];
  extra?: Extra;
}
