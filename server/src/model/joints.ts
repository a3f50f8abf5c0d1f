/** A joint from what is said of it. */

import type { Diagram } from '../variants/diagram';
import { type Body, cursorOf, EMPTY, field, flagOf, textOf, textsOf } from './body';
import { figureOf, type QuantityReader, quantityOf } from './measures';
import type { Joint, Part } from './model';
import type { PieceTable, SingleUse } from './pieces';

export type Mutable<T> = { -readonly [Key in keyof T]: T[Key] };

/** What is known beside the body. */
interface Known {
  readonly pieces: PieceTable;
  readonly quantities: QuantityReader;
}

/** How a part stands in the way of what it covers. */
export const COVERINGS = ['inside', 'under', 'behind'] as const;
const MATERIALS = ['steel', 'cast-iron', 'aluminium'] as const;
const NUTS: ReadonlySet<string> = new Set(['plain', 'flag', 'self-locking', 'slotted']);

/** @param presence the variants in which the joint exists, its part's included. Coverings are linked later. */
export function makeJoint(
  part: Part,
  name: string,
  body: Body,
  presence: Diagram,
  { pieces, quantities }: Known,
): Mutable<Joint> {
  const stack = textsOf(body, 'stack');
  const stages = textsOf(body, 'stages').flatMap((stage) => quantities.read(stage, 'torque') ?? []);
  const nutText = textOf(body, 'nut');
  const nut = nutText !== null && NUTS.has(nutText) ? (nutText as Joint['nut']) : null;
  const stretch = flagOf(body, 'stretch');
  const said = cursorOf(body, 'bushed')?.value;
  const lubricated = cursorOf(body, 'lubricated')?.value;
  const carries = cursorOf(body, 'structural')?.value;
  const bolts = Number(textOf(body, 'bolts') ?? 1);
  return {
    type: 'joint',
    name,
    part,
    full: `${part.name}.${name}`,
    declared: body.cursor === null ? null : body.cursor.keyPlace,
    presence,
    bolts: Number.isInteger(bolts) && bolts > 0 ? bolts : 1,
    thread: textOf(body, 'thread'),
    class: textOf(body, 'class'),
    hex: textOf(body, 'hex'),
    key: textOf(body, 'key'),
    counterhold: textOf(body, 'counterhold'),
    nut,
    nutClass: textOf(body, 'nut-class'),
    into: MATERIALS.find((one) => one === textOf(body, 'into')) ?? null,
    engagement: figureOf(body, 'engagement', 'length', quantities),
    stack,
    stretch,
    bushed: typeof said === 'boolean' ? said : stack.length === 0 && part.attributes.bushed,
    lubricated: typeof lubricated === 'boolean' ? lubricated : null,
    structural: carries === true,
    carries: typeof carries === 'boolean' ? carries : part.attributes.structural,
    loosenFirst: textOf(body, 'loosen-first') === 'on-ground' ? 'on-ground' : null,
    holdsSpring: flagOf(body, 'holds-spring'),
    handTight: flagOf(body, 'hand-tight'),
    torque: quantityOf(body, 'torque', 'torque', quantities) ?? stages.at(-1) ?? null,
    thenAngle: quantityOf(body, 'then', 'angle', quantities),
    pattern: textOf(body, 'pattern'),
    stages,
    coveredBy: [],
    ownCover: COVERINGS.some((how) => field(body, how) !== null),
    singleUse: singleUseOf(nut, stretch, stack, pieces),
    takesOver: null,
  };
}

/** A joint known from its use alone: nothing is said of it but by its part's kind. */
export const impliedJoint = (part: Part, name: string, known: Known): Mutable<Joint> =>
  makeJoint(part, name, EMPTY, part.presence, known);

function singleUseOf(
  nut: Joint['nut'],
  stretch: boolean,
  stack: readonly string[],
  pieces: PieceTable,
): Map<string, SingleUse> {
  const uses = new Map<string, SingleUse>();
  for (const piece of stack) {
    const use = pieces.singleUse(piece);
    if (use !== null) uses.set(piece, use);
  }
  if (nut === 'self-locking') uses.set('nut', 'out');
  if (nut === 'slotted') uses.set('pin', 'out');
  if (stretch) uses.set('bolt', 'slackened');
  return uses;
}
