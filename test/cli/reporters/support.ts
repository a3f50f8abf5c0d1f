import { kitproof } from '../program';

export const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted] }
parts:
  bracket: { kind: bracket, mass: 2 kg, joins: [frame], joints: { bolt: { thread: M8x1.25, torque: 22 N·m } } }
`;

/** An error in one variant, a slip with a fix, a note; and a waiver. */
export const GUIDE = `kitproof: install/1
title: Bracket & <co>
vehicle: moorhen.vehicle.yaml
sections:
  - title: S
    steps:
      - id: off
        text: Loosen it, 100 % | done.
        when: { lockers: fitted }
        do:
          - loosen: bracket.bolt
        time: 5 min
      - id: look
        do:
          - snug: brackett
        time: 1 min
      - id: dead
        waive: [{ rule: left-isolated, because: "The next shop connects it.", by: A. Fitter, until: 2031-01-01 }]
        do:
          - isolate: battery
        time: 1 min
`;

export const FILES = { 'guides/b.install.yaml': GUIDE, 'guides/moorhen.vehicle.yaml': VEHICLE };

/** One report of the guide, or of other files. */
export async function reported(
  format: string,
  words: readonly string[] = [],
  files: Readonly<Record<string, string>> = FILES,
) {
  return kitproof(['check', 'guides', '--format', format, ...words], { files });
}

/** The files with a key that nothing knows: its words come back in a message. Written as YAML writes it in quotes. */
export const saying = (words: string): Readonly<Record<string, string>> => ({
  ...FILES,
  'guides/b.install.yaml': GUIDE.replace('- id: look\n', `- id: look\n        "${words}": 1\n`),
});
