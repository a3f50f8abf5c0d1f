import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** A small vehicle, a kit and a guide that pass. */
export const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted] }
parts:
  rear-axle: { kind: live-axle, mass: 90 kg, drop: 150 mm, limited-by: [rear-shock] }
  rear-wheel: { kind: wheel, sided: true, joins: [rear-axle], joints: { nut: { bolts: 5, thread: M14x1.5, hex: 21 mm, torque: 130 N·m } } }
  rear-shock:
    kind: shock
    sided: true
    joins: [frame, rear-axle]
    joints:
      top-nut: { thread: M12x1.25, nut: plain, torque: 60 N·m }
      lower-bolt: { thread: M12x1.75, torque: 90 N·m }
  bracket: { kind: bracket, mass: 2 kg, joins: [frame], joints: { bolt: { thread: M8x1.25, torque: 22 N·m } } }
`;

export const GUIDE = `kitproof: install/1
title: Bracket off and on
vehicle: moorhen.vehicle.yaml
sections:
  - title: Bracket
    steps:
      - id: off
        text: Take the bracket off.
        do:
          - loosen: bracket.bolt
          - unbolt: bracket
        time: 5 min
      - id: back
        text: Put it back.
        do:
          - bolt-up: bracket
          - torque: bracket.bolt
        time: 4 min
`;

export const FOLDER = 'file:///shop';
export const GUIDE_URI = 'file:///shop/bracket.install.yaml';
export const VEHICLE_URI = 'file:///shop/moorhen.vehicle.yaml';

export const files = (more: Readonly<Record<string, string>> = {}): Map<string, string> =>
  new Map(
    Object.entries({
      '/shop/.git': '',
      '/shop/bracket.install.yaml': GUIDE,
      '/shop/moorhen.vehicle.yaml': VEHICLE,
      ...more,
    }),
  );

/** The change that puts a text in place of another, which stands once. */
export function replacing(text: string, old: string, fresh: string): { range: object; text: string } {
  const at = text.indexOf(old);
  if (at < 0 || text.indexOf(old, at + 1) >= 0) throw new Error(`"${old}" does not stand once`);
  return { range: { start: positionIn(text, at), end: positionIn(text, at + old.length) }, text: fresh };
}

export function positionIn(text: string, offset: number): { line: number; character: number } {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length - 1, character: before.at(-1)!.length };
}

/** The position of a word, `by` characters into it. */
export function at(text: string, word: string, by = 0): { line: number; character: number } {
  const found = text.indexOf(word);
  if (found < 0) throw new Error(`"${word}" does not stand there`);
  return positionIn(text, found + by);
}

export const sample = (name: string): string => readFileSync(join(process.cwd(), 'samples', name), 'utf8');
