// What the fitter of the play has in hand at one moment: the car, the act, the thing it is done to, and where harm is written down.
import { type Raw, texts } from '../raw.ts';
import type { Act } from './acts.ts';
import type { Car, Corner, Joint, Line, Part } from './car.ts';
import { isMetal, type Side } from './facts.ts';

/**
 * One thing that goes wrong, in a mechanic's words.
 * `falls rolls crushes` weight · `flies bursts` stored energy · `torn hangs whips` lines · `wound` rubber · `loose` a joint that
 * carries too early · `figure` · `spent` a piece used twice · `live` under power or pressure · `hand` a left piece on the right ·
 * `astray` a hole in the wrong place · `cannot` nobody can do what is written · `unlike` at the end the car is not as the sound guide leaves it.
 */
export interface Harm {
  readonly kind:
    | ('falls' | 'rolls' | 'crushes' | 'flies' | 'bursts' | 'torn' | 'hangs' | 'whips' | 'wound' | 'loose')
    | ('figure' | 'spent' | 'live' | 'hand' | 'astray' | 'cannot' | 'unlike');
  readonly item: string;
  readonly where: string; // `section.step`
  readonly says: string;
}

/** What one operation acts on, on one side. */
export type Thing =
  | { readonly what: 'part'; readonly part: Part }
  | { readonly what: 'joint'; readonly joint: Joint; readonly piece: string | undefined }
  | { readonly what: 'end'; readonly part: Part; readonly end: string }
  | { readonly what: 'metal'; readonly part: Part; readonly name: string }
  /** A name that the part has nothing for. */
  | { readonly what: 'nothing'; readonly part: Part; readonly name: string }
  | { readonly what: 'line'; readonly line: Line; readonly end: string | undefined }
  | { readonly what: 'word'; readonly word: string };

export interface Floor {
  readonly car: Car;
  act: Act;
  /** Parts that came off, or lost their last joint, in this step. */
  readonly takenOff: Set<Part>;
  /** Holes that this job drills, as `part.hole`. */
  readonly toDrill: ReadonlySet<string>;
  note(kind: Harm['kind'], item: string, says: string): void;
}

/** How a thing is called in a sentence. */
export const nameOf = (one: { fact: { name: string }; label: string }): string =>
  one.label === '' ? one.fact.name : `${one.fact.name} (${one.label})`;

export const jointName = ({ part, fact }: Joint): string =>
  `${part.fact.name}.${fact.name}${part.label === '' ? '' : ` (${part.label})`}`;

const JOINT_VERBS = ['loosen', 'start', 'snug', 'torque'];
const WORKS_METAL = ['mark', 'drill', 'cut', 'weld', 'deburr', 'clean', 'coat', 'apply'];
const LIFTING = ['raise', 'lower', 'support', 'unsupport', 'chock', 'unchock', 'move'];

/** The things that an act is done to, in the order in which they are come to. */
export function thingsOf(car: Car, act: Act): readonly Thing[] {
  const known = car.meant.get(act.id) as readonly Thing[] | undefined;
  if (known !== undefined) return known;
  const things = act.targets.flatMap((target) => thingsNamed(car, target, act));
  car.meant.set(act.id, things);
  return things;
}

type Narrowed = Pick<Act, 'verb' | 'sides' | 'places' | 'raw'>;

function thingsNamed(car: Car, written: string, act: Narrowed): Thing[] {
  const [name = '', second, third] = written.split('.');
  if (isMetal(name) && second === undefined && LIFTING.includes(act.verb)) return [word(written)];
  if (car.facts.things.has(name)) {
    const parts = (car.parts.get(name) ?? []).filter((part) => within(part, act));
    const lines = (car.lines.get(name) ?? []).filter((line) => within(line, act));
    const end = second ?? (typeof act.raw.end === 'string' ? act.raw.end : undefined);
    return [
      ...parts.flatMap((part) => ofPart(part, second, third, act.verb)),
      ...lines.map((line) => ({ what: 'line' as const, line, end })),
    ];
  }
  const circuit = car.everyLine.filter((line) => line.fact.body.circuit === name && within(line, act));
  if (circuit.length > 0) return circuit.map((line) => ({ what: 'line', line, end: undefined }));
  return [word(written)];
}

const word = (written: string): Thing => ({ what: 'word', word: written });

function within(one: Part | Line, { sides, places }: { sides: readonly Side[]; places: Raw }): boolean {
  if (one.side !== '' && !sides.includes(one.side)) return false;
  return Object.entries(one.place).every(([key, value]) => {
    const wanted = texts(places[key]);
    return wanted.length === 0 || wanted.includes(value);
  });
}

function ofPart(part: Part, second: string | undefined, piece: string | undefined, verb: string): Thing[] {
  if (second === undefined) {
    if (JOINT_VERBS.includes(verb))
      return part.joints.map((joint) => ({ what: 'joint', joint, piece: undefined }));
    if (verb === 'free' || verb === 'seat')
      return [...part.seated.keys()].map((end) => ({ what: 'end', part, end }));
    return [{ what: 'part', part }];
  }
  const joint = part.joints.find(({ fact }) => fact.name === second);
  if (joint !== undefined) return [{ what: 'joint', joint, piece }];
  if (part.seated.has(second)) return [{ what: 'end', part, end: second }];
  if (part.fact.joints.some(({ name }) => name === second)) return []; // not in this variant
  if (!WORKS_METAL.includes(verb) && !part.metal.has(second) && !part.fact.faces.includes(second))
    return [{ what: 'nothing', part, name: second }];
  return [{ what: 'metal', part, name: second }];
}

/** Everything there is under a corner. */
export const beneath = (corner: Corner): string[] => [...corner.lift, ...corner.jack];

/** One name for one and many of an aid. */
export const aidsOf = (raw: Raw, key: string): string[] =>
  texts(raw[key]).map((aid) => aid.replace(/s$/, ''));
