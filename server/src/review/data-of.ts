/** What vehicle and kit say of the things of a guide, as facts by name, so that two versions can be held against each other. */

import type { Place } from '../findings/finding';
import { targetThings } from '../guide/done-on';
import type { Joint, Line, Model, Part, Thing } from '../model/model';
import { printQuantity } from '../units/format';
import type { Quantity } from '../units/quantity';
import { shownFigure, vital } from './operations-of';
import { type Variants, variantsOf } from './variants-told';

export interface ThingAccount {
  /** `front-shock`, or of a joint `front-shock.lower-bolt`. */
  readonly item: string;
  readonly sort: 'part' | 'line' | 'joint' | 'hardware';
  readonly origin: 'vehicle' | 'kit';
  readonly place: Place;
  /** The guide works on it, or the kit brings it. */
  readonly touched: boolean;
  readonly vital: boolean;
  /** In words; what nobody says is not there. */
  readonly facts: ReadonlyMap<string, string>;
  /** The variants that it is fitted to, whatever the guide covers; alike where they are, however conditions cut a numeric trait. */
  readonly fitted: string;
}

/** Things that vehicle and kit declare, by item. */
export function dataOf(model: Model): ReadonlyMap<string, ThingAccount> {
  const touched = touchedBy(model);
  const found = new Map<string, ThingAccount>();
  for (const thing of model.things.values()) {
    const { origin, declared } = thing;
    if (origin === 'implied' || declared === null) continue;
    // What lies across a part that is worked on is pulled at by it.
    const across = thing.type === 'line' && thing.spans.some((part) => touched.has(nameOf(part)));
    const shared = {
      origin,
      place: declared,
      touched: origin === 'kit' || touched.has(thing.name) || across,
    };
    const isVital = thing.type === 'part' ? vital(thing.attributes) : thing.lineType === 'hydraulic';
    found.set(thing.name, {
      ...shared,
      item: thing.name,
      sort: thing.type,
      vital: isVital,
      facts: factsOf(model, thing),
      fitted: fittedTo(model, thing).key,
    });
    if (thing.type !== 'part') continue;
    for (const joint of thing.joints.values())
      found.set(joint.full, {
        ...shared,
        item: joint.full,
        sort: 'joint',
        place: joint.declared ?? declared,
        vital: isVital || joint.structural,
        facts: jointFacts(model, joint),
        fitted: fittedTo(model, joint).key,
      });
  }
  for (const { name, declared, quantity, thread, class: marked, serves } of model.hardware)
    found.set(`hardware ${name}`, {
      item: name,
      sort: 'hardware',
      origin: 'kit',
      place: declared,
      touched: true,
      fitted: '',
      vital: serves.some(({ joint }) => joint.structural || vital(joint.part.attributes)),
      facts: said({
        quantity,
        thread,
        class: marked,
        for: serves
          .map(({ joint, piece }) => (piece === null ? joint.full : `${joint.full}.${piece}`))
          .sort(),
      }),
    });
  return found;
}

/** The things that the guide works on, gives, leaves or owes, and what these replace. */
function touchedBy({ steps, given, givenOperations, leaves, owes }: Model): ReadonlySet<string> {
  const names = new Set<string>();
  const add = (thing: Thing): void => {
    if (names.has(thing.name)) return;
    names.add(thing.name);
    for (const old of thing.replaces) add(old);
  };
  const targets = [
    ...[...steps.flatMap(({ operations }) => operations), ...givenOperations].flatMap((operation) => [
      ...operation.targets,
      ...operation.toTargets,
      ...operation.withTargets,
      ...(operation.onto.target === null ? [] : [operation.onto.target]),
    ]),
    ...[...given, ...leaves, ...owes].map(({ target }) => target),
  ];
  for (const target of targets) for (const thing of targetThings(target)) add(thing);
  return names;
}

type Fact = string | number | boolean | null | readonly string[] | undefined;

/** Facts that say something, as words. */
function said(facts: Readonly<Record<string, Fact>>): Map<string, string> {
  return new Map(
    Object.entries(facts).flatMap(([name, value]): [string, string][] => {
      if (value === null || value === undefined || value === false) return [];
      if (value === true) return [[name, 'yes']];
      const words = typeof value === 'object' ? value.join(', ') : String(value);
      return words === '' ? [] : [[name, words]];
    }),
  );
}

const nameOf = (one: Part | Line | Joint | string): string =>
  typeof one === 'string' ? one : one.type === 'joint' ? one.full : one.name;
const unit = (value: number | null, symbol: string): string | null =>
  value === null ? null : `${Number(value.toPrecision(6))} ${symbol}`;
const figure = (value: Quantity | null): string | null => (value === null ? null : printQuantity(value));

/** Of all variants there are: what the guide covers is its own affair, and no change of the data. */
const fittedTo = (model: Model, { presence }: Thing | Joint): Variants => variantsOf(model, presence, 1);

function factsOf(model: Model, thing: Thing): Map<string, string> {
  const shared = {
    kind: thing.kind,
    'each side': thing.sided,
    places: thing.places?.values,
    'fitted to': fittedTo(model, thing).words,
    replaces: thing.replaces.map(nameOf),
    ...(thing.origin === 'kit' ? { quantity: thing.quantity, spare: thing.spare } : {}),
  };
  return thing.type === 'part'
    ? said({ ...shared, ...partFacts(thing) })
    : said({ ...shared, ...lineFacts(thing) });
}

function partFacts(part: Part): Record<string, Fact> {
  const { pressure } = part;
  const holes = [...part.holes.values()].flatMap(({ name, count, size, bolt, tap }) => [
    [`hole ${name}`, [`${count}`, unit(size, 'mm'), bolt, tap].filter(Boolean).join(' × ')] as const,
  ]);
  const ends = [...part.ends.values()].map(
    ({ name, seat }) => [`end ${name}`, seat ?? 'held by itself'] as const,
  );
  return {
    joins: part.joins.map(nameOf).sort(),
    mass: unit(part.mass, 'kg'),
    drop: unit(part.drop, 'mm'),
    'free at': unit(part.freeAt, 'mm'),
    pressure: pressure === null ? null : `${pressure.low} to ${pressure.high} kPa`,
    'limited by': part.limitedBy.map((chain) => chain.map(nameOf).join(' and ')).sort(),
    'reached by taking off': part.coveredBy.map(({ how, part: other }) => `${how} ${other.name}`).sort(),
    'left and right articles': part.handed,
    faces: [...part.faces.keys()].sort(),
    ...Object.fromEntries(holes),
    ...Object.fromEntries(ends),
    ...attributeFacts(part),
  };
}

const attributeFacts = ({ attributes }: Part): Record<string, Fact> => ({
  system: attributes.system,
  'limits the drop': attributes.limitsDrop,
  'stores energy': attributes.storesEnergy,
  'bonded bushes': attributes.bushed,
  reach: attributes.reach,
});

function lineFacts(line: Line): Record<string, Fact> {
  return {
    type: line.lineType,
    spans: line.spans.map(nameOf),
    ends: line.ends.filter((end) => end !== ''),
    'held by': line.heldBy?.name,
    slack: unit(line.slack, 'mm'),
    'slack once free': unit(line.slackFree, 'mm'),
    paths: [...line.paths].map(([name, slack]) => [name, unit(slack, 'mm')].filter(Boolean).join(' ')),
    'runs back': line.retracts,
    circuit: line.circuit,
  };
}

/** Facts of a joint whose change a mechanic wants to see at once. */
export const SERIOUS: ReadonlySet<string> = new Set([
  'torque',
  'then turned',
  'stages',
  'pattern',
  'bolts',
  'thread',
  'class',
  'nut',
  'used up',
  'stretch bolt',
  'structural',
  'slackened first',
  'holds a spring',
  'bonded bush',
  'limited by',
  'stores energy',
  'limits the drop',
]);

function jointFacts(model: Model, joint: Joint): Map<string, string> {
  return said({
    torque: joint.torque === null ? null : shownFigure(joint.torque),
    'then turned': figure(joint.thenAngle),
    stages: joint.stages.map((stage) => printQuantity(stage)),
    pattern: joint.pattern,
    bolts: joint.bolts,
    thread: joint.thread,
    class: joint.class,
    hex: joint.hex,
    key: joint.key,
    counterhold: joint.counterhold,
    nut: joint.nut,
    'nut class': joint.nutClass,
    'screwed into': joint.into,
    engagement: unit(joint.engagement, 'mm'),
    stack: joint.stack,
    'used up': [...joint.singleUse].map(([piece, when]) => `${piece} once ${when}`).sort(),
    'stretch bolt': joint.stretch,
    'bonded bush': joint.bushed,
    lubricated: joint.lubricated,
    structural: joint.structural,
    'slackened first': joint.loosenFirst,
    'holds a spring': joint.holdsSpring,
    'by hand': joint.handTight,
    'fitted to': fittedTo(model, joint).words,
    'reached by taking off': joint.ownCover
      ? joint.coveredBy.map(({ how, part }) => `${how} ${part.name}`).sort()
      : [],
  });
}
