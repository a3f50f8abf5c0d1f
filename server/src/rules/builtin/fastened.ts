/** What is known of the bolts of joints and of what is torqued, for the rules that hold figures against them. */

import { type KnownJoint, knownJoint } from '../../calc/joint';
import type { BoundOperation, Hardware, Joint, Model } from '../../model/model';
import type { Branch } from '../../simulate/state';
import type { Quantity } from '../../units/quantity';
import { findUnit, fromBase } from '../../units/table';

/** What is known of a joint's bolt and nut, once the kit's hardware is in it. */
export interface Fastened {
  readonly known: KnownJoint;
  /** `an M8x1.25 bolt of class 8.8`. */
  readonly bolt: string;
  readonly nutClass: string | null;
}

/** The hardware of the kit that is for some pieces of a joint; null stands for the joint as a whole. */
export const hardwareFor = (
  { hardware }: Model,
  joint: Joint,
  ...pieces: readonly (string | null)[]
): Hardware | undefined =>
  hardware.find(({ serves }) => serves.some((one) => one.joint === joint && pieces.includes(one.piece)));

/** Joints judged once each: the same is torqued on both sides, in many variants. Kept as long as their model is. */
export class KnownJoints {
  private readonly known = new WeakMap<Model, Map<Joint, Fastened | null>>();

  /** What thread and class say; null where the data do not say both. */
  of(model: Model, joint: Joint): Fastened | null {
    const joints = this.known.get(model) ?? new Map<Joint, Fastened | null>();
    this.known.set(model, joints);
    const before = joints.get(joint);
    if (before !== undefined) return before;
    const made = fastened(model, joint);
    joints.set(joint, made);
    return made;
  }
}

function fastened(model: Model, joint: Joint): Fastened | null {
  const bolt = hardwareFor(model, joint, null, 'bolt');
  const thread = bolt?.thread ?? joint.thread;
  // A new bolt whose class is not told may be of any.
  const grade = bolt === undefined ? joint.class : bolt.class;
  if (thread === null || grade === null) return null;
  const result = knownJoint({
    thread,
    class: grade,
    lubricated: joint.lubricated === true,
    stretch: joint.stretch,
  });
  if (!result.ok) return null;
  return {
    known: result.joint,
    bolt: `${/^(?:M|8|11|18)/.test(thread) ? 'an' : 'a'} ${thread} bolt of class ${grade}`,
    nutClass: hardwareFor(model, joint, 'nut')?.class ?? joint.nutClass,
  };
}

/** The figure of an operation in the variants of a branch, else that of the data; null where there is none, or the maker's counts. */
export function figureFor(branch: Branch, operation: BoundOperation, joint: Joint): Quantity | null {
  const said = operation.figure.find(({ set }) => branch.within(set));
  const figure = said === undefined ? joint.torque : said.value;
  return figure === 'maker' ? null : figure;
}

/** A joint that is turned on by an angle goes past its proof load on purpose, and its torque tells little. */
export const turnsOn = (operation: BoundOperation, joint: Joint): boolean =>
  operation.qualifiers.has('then') || joint.thenAngle !== null || joint.stretch;

/** A range of torques, in the unit that a writer uses, in whole ones from 10 on. */
export function rangeInWords(low: number, high: number, { unit }: Quantity): string {
  const own = findUnit(unit, 'torque');
  const round = (base: number) => {
    const figure = own === undefined ? base : fromBase(base, own);
    return figure < 10 ? Math.round(figure * 10) / 10 : Math.round(figure);
  };
  return `${round(low)}–${round(high)} ${own?.symbol ?? 'N·m'}`;
}
