/**
 * What can be said of a joint's torque from what its data say: thread, class or grade, oil, the nut's class.
 *
 * Torques in N·m. Assumes a hexagon by the standard of the thread on a medium hole, and friction as it is met (`usualFriction`); says what is
 * missing where the data do not reach, and never guesses a class.
 */

import { findUnit, fromBase, toBase } from '../units/table';
import { type NutVerdict, nutFor, parseGrade, type Strength, strengthOf } from './strength';
import { parseThread, type Thread } from './threads';
import {
  type ExpectedTorque,
  expectedTorque,
  judgeTorque,
  type TorqueJudgement,
  usualBearing,
  usualFriction,
} from './tightening';

export interface JointData {
  readonly thread?: string | undefined;
  readonly class?: string | undefined;
  readonly lubricated?: boolean | undefined;
  /** A bolt tightened into stretch goes past its proof load on purpose. */
  readonly stretch?: boolean | undefined;
}

/** Why nothing can be said: the property that is missing or not understood, or that no figures are known for. */
export type JointGap = 'thread' | 'class' | 'figures';

export interface KnownJoint {
  readonly thread: Thread;
  readonly strength: Strength;
  readonly expected: ExpectedTorque;
  /** What a torque does to it; a range is judged by its high end for proof and by its low end for being far under. */
  judge(low: number, high: number): TorqueJudgement;
  /**
   * The unit that was likely meant where a torque makes no sense in the one it is written in and fits in another: inch-pounds for foot-pounds,
   * above all. Null where it makes sense as it stands, or in no unit.
   * @param symbol the unit it is written in, `lbf·in`.
   */
  meantUnit(low: number, high: number, symbol: string): string | null;
  /** Whether a nut with this marking bears what the bolt does. */
  nut(marked: string): NutVerdict;
}

export type JointResult =
  | { readonly ok: true; readonly joint: KnownJoint }
  | { readonly ok: false; readonly gap: JointGap };

/** Units that are taken for one another, the likeliest first. */
const MISTAKEN = ['lbf·ft', 'lbf·in', 'N·m'] as const;
/** Makers go a little under the usual range; common practice. */
const NEARLY = 0.8;

/** What is known of a joint from its data. */
export function knownJoint(data: JointData): JointResult {
  const read = data.thread === undefined ? undefined : parseThread(data.thread);
  if (read?.ok !== true) return { ok: false, gap: 'thread' };
  const grade = data.class === undefined ? undefined : parseGrade(data.class);
  if (grade === undefined) return { ok: false, gap: 'class' };
  const { thread } = read;
  const strong = strengthOf(grade, thread);
  const bearing = usualBearing(thread);
  if (!strong.ok || bearing === undefined) return { ok: false, gap: 'figures' };
  const { strength } = strong;
  const friction = data.lubricated === true ? usualFriction.lubricated : usualFriction.asDelivered;
  const judge = (low: number, high: number): TorqueJudgement => {
    const most = judgeTorque(high, thread, strength, bearing, friction);
    const { farUnder, least } = judgeTorque(low, thread, strength, bearing, friction);
    return { ...most, least, farUnder, pastProof: data.stretch === true ? 'no' : most.pastProof };
  };
  return {
    ok: true,
    joint: {
      thread,
      strength,
      expected: expectedTorque(thread, strength, bearing, friction),
      judge,
      meantUnit(low, high, symbol) {
        const judged = judge(low, high);
        if (!judged.farUnder && judged.pastProof !== 'surely') return null;
        const written = findUnit(symbol, 'torque');
        const fits = MISTAKEN.find((name) => {
          const unit = findUnit(name, 'torque')!;
          if (written === undefined || unit.symbol === written.symbol) return false;
          const [least, most] = [low, high].map((torque) => toBase(fromBase(torque, written), unit));
          return least! >= NEARLY * judged.low && most! <= judged.high;
        });
        return fits ?? null;
      },
      nut: (marked) => nutFor(grade, marked),
    },
  };
}
