// What the fitter's hands do to each sort of thing, by verb.
import type { Variant } from '../condition.ts';
import { isIn, type Joint, type Line, type Part } from './car.ts';
import { aidsOf, type Floor, nameOf, type Thing } from './floor.ts';
import * as joints from './joints.ts';
import * as lines from './lines.ts';
import * as parts from './parts.ts';
import * as rest from './rest.ts';
import * as weight from './weight.ts';

type Of<What extends Thing['what']> = Extract<Thing, { what: What }>;

/** Does an act to one thing. What a verb does not change is left as it is. */
export function perform(floor: Floor, thing: Thing, variant: Variant): void {
  const { verb } = floor.act;
  const any = ON_ANY[verb];
  if (thing.what === 'nothing')
    floor.note('cannot', thing.part.fact.name, `${nameOf(thing.part)} has no ${thing.name}.`);
  else if (any !== undefined) any(floor, thing);
  else if (thing.what === 'part') ON_PARTS[verb]?.(floor, thing.part);
  else if (thing.what === 'joint') ON_JOINTS[verb]?.(floor, thing.joint, variant, thing.piece);
  else if (thing.what === 'end') ON_ENDS[verb]?.(floor, thing);
  else if (thing.what === 'line') ON_LINES[verb]?.(floor, thing.line, thing.end);
  else if (thing.what === 'word') ON_WORDS[verb]?.(floor, thing.word);
}

const ON_ANY: Record<string, (floor: Floor, thing: Thing) => void> = {
  raise: weight.raise,
  lower: weight.lower,
  support: weight.support,
  unsupport: weight.unsupport,
  chock: (floor, thing) => weight.chock(floor, thing, true),
  unchock: (floor, thing) => weight.chock(floor, thing, false),
  move: weight.move,
  check: rest.look,
  measure: rest.look,
  set: rest.set,
  adjust: rest.adjust,
  mark: rest.mark,
  drill: rest.drill,
  cut: rest.cut,
  weld: rest.cut,
  deburr: rest.deburr,
  coat: rest.coat,
  apply: rest.apply,
};

const aids = ({ act }: Floor): string[] => aidsOf(act.raw, 'with');

const ON_PARTS: Record<string, (floor: Floor, part: Part) => void> = {
  unbolt: parts.unbolt,
  remove: parts.remove,
  swing: parts.swing,
  fit: parts.fit,
  'bolt-up': boltUp,
  discard: parts.discard,
  transfer: parts.transfer,
  offer: parts.offer,
  withdraw: parts.withdraw,
  renew: parts.renew,
  hold: (floor, part) => lines.tie(floor, part, aids(floor)),
  release: lines.untie,
  compress: rest.compress,
  relax: rest.relax,
  inflate: rest.inflate,
  deflate: (_, part) => {
    part.pressure = 0;
  },
  drain: ({ car }, part) => car.drained.add(nameOf(part)),
  fill: ({ car }, part) => car.drained.delete(nameOf(part)),
};

function boltUp(floor: Floor, part: Part): void {
  if (part.where !== 'on') parts.fit(floor, part);
  else if (part.joints.length > 0 && part.joints.every(isIn))
    floor.note('cannot', part.fact.name, `${nameOf(part)} is bolted up already.`);
  for (const joint of part.joints) joints.start(floor, joint);
}

const ON_JOINTS: Record<
  string,
  (floor: Floor, joint: Joint, variant: Variant, piece: string | undefined) => void
> = {
  loosen: joints.loosen,
  remove: joints.takeOut,
  start: joints.start,
  snug: joints.snug,
  torque: joints.torque,
  renew: (floor, joint, _, piece) => {
    if (piece === undefined) joint.spent.clear();
    else joints.renewPiece(floor, joint, piece);
  },
};

/** Tapers, presses and clamps hold by themselves until somebody parts them. */
const ON_ENDS: Record<string, (floor: Floor, thing: Of<'end'>) => void> = {
  free: (floor, { part, end }) => {
    const name = `The ${end} of ${nameOf(part)}`;
    if (part.seated.get(end) === false) floor.note('cannot', part.fact.name, `${name} is free already.`);
    const [word] = end.split('-');
    const nut = part.joints.find(({ fact }) => fact.name.split('-')[0] === word);
    if (nut !== undefined && nut.grip !== 'out' && nut.grip !== 'slack')
      floor.note('cannot', part.fact.name, `${name} does not part: its nut is on.`);
    parts.inReach(floor, part);
    part.seated.set(end, false);
    parts.movesWheels(floor, part);
    parts.fallsByHand(floor, part);
  },
  seat: (floor, { part, end }) => {
    if (part.seated.get(end) === true)
      floor.note('cannot', part.fact.name, `The ${end} of ${nameOf(part)} is seated already.`);
    part.seated.set(end, true);
  },
};

const ON_LINES: Record<string, (floor: Floor, line: Line, end: string | undefined) => void> = {
  disconnect: lines.disconnect,
  connect: lines.connect,
  unclip: lines.unclip,
  clip: lines.clip,
  route: lines.route,
  hold: (floor, line) => lines.tie(floor, line, aids(floor)),
  release: lines.untie,
  bleed: rest.bleed,
  discard: (_, line) => {
    line.gone = true;
  },
};

const ON_WORDS: Record<string, (floor: Floor, word: string) => void> = {
  isolate: rest.isolate,
  restore: rest.restore,
  switch: ({ car, act }, word) => car.switched.set(word, String(act.raw.to)),
  drain: ({ car }, word) => car.drained.add(word),
  fill: ({ car }, word) => car.drained.delete(word),
};
