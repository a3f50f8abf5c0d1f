/** A small vehicle and guides for it, as the tests of `check` ask for them. */

export const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted] }
parts:
  front-axle: { kind: live-axle }
  front-wheel: { kind: wheel, sided: true, joins: [front-axle], joints: { nut: { bolts: 5, torque: 130 N·m } } }
lines:
  locker-plug: { kind: plug, spans: [frame, front-axle], when: { lockers: fitted } }
`;
export const guideOf = (steps: string, head = '') =>
  `kitproof: install/1\ntitle: G\nvehicle: m.vehicle.yaml\n${head}sections:\n  - title: S\n    steps:\n${steps}`;
export const CLEAN = guideOf('      - do: [{ check: front-wheel.nut }]\n');
export const PLUG = guideOf('      - do: [{ disconnect: locker-plug }]\n');
export const BARE = guideOf('      - do: [{ check: front-wheel.nut }]\n      - text: Think.\n');

export const world = (guide: string) => ({ files: { 'm.vehicle.yaml': VEHICLE, 'g.install.yaml': guide } });
export const findings = (out: string) =>
  JSON.parse(out).findings as { rule: string; line: number; column: number; file: string }[];
