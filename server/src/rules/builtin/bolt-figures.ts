import type { KnownJoint } from '../../calc/joint';
import type { Joint, Model } from '../../model/model';
import type { Event } from '../../simulate/event';
import type { Simulation } from '../../simulate/simulation';
import type { Branch } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import { printQuantity } from '../../units/format';
import type { Quantity } from '../../units/quantity';
import { findUnit, fromBase } from '../../units/table';
import type { Builtin } from './builtin';
import { figureFor, KnownJoints, rangeInWords, turnsOn } from './fastened';
import { isFigureOf } from './torque-figures';

interface Judged {
  readonly joint: Joint;
  readonly known: KnownJoint;
  readonly bolt: string;
  readonly figure: Quantity;
  /** The unit that was likely meant, where the figure makes no sense in its own. */
  readonly meant: string | null;
}

/** What a torque is held against; null where there is nothing to hold it against. */
function judged(
  joints: KnownJoints,
  model: Model,
  branch: Branch,
  { subject, operation, within }: Event,
): Judged | null {
  if (subject.type !== 'joint' || within !== null || turnsOn(operation, subject.joint)) return null;
  const { joint } = subject;
  const fastened = joints.of(model, joint);
  const figure = fastened === null ? null : figureFor(branch, operation, joint);
  if (fastened === null || figure === null) return null;
  // A figure that is not the data's is told as that.
  if (joint.torque !== null && !isFigureOf(joint.torque, figure)) return null;
  const { known, bolt } = fastened;
  // Where a second unit stands beside it and agrees, the unit is meant.
  const meant = figure.second === undefined ? known.meantUnit(figure.low, figure.high, figure.unit) : null;
  return { joint, known, bolt, figure, meant };
}

function boltFigure(
  name: string,
  asks: (judged: Judged) => boolean,
  tells: (judged: Judged) => Readonly<Record<string, string>> | null,
): Builtin {
  return {
    name,
    watch() {
      const joints = new KnownJoints();
      return {
        verbs: ['torque'],
        before(sim, branch, event) {
          const found = judged(joints, sim.model, branch, event);
          if (found === null && name === FAR_UNDER) leaveUnknown(joints, sim, event);
          if (found === null || !asks(found)) return undefined;
          ask(sim, branch, event, name);
          const facts = tells(found);
          if (facts === null) return undefined;
          const { joint, known, bolt, figure } = found;
          const { low, high } = known.expected;
          flag(sim, branch, event, name, joint.full, {
            facts: {
              figure: printQuantity(figure),
              bolt,
              usual: rangeInWords(low, high, figure),
              ...facts,
            },
          });
          return undefined;
        },
      };
    },
  };
}

/** A torque that makes no sense in the unit it is written in, and does in another: inch-pounds for foot-pounds above all. */
export const torqueUnitMeant = boltFigure(
  'torque-unit-meant',
  ({ figure }) => figure.second === undefined,
  ({ figure, meant }) => {
    if (meant === null) return null;
    const unit = findUnit(meant, 'torque')!;
    const own = findUnit(figure.unit, 'torque');
    const number = own === undefined ? figure.nominal : fromBase(figure.nominal, own);
    return { meant: `${Number(number.toFixed(2))} ${unit.symbol}` };
  },
);

/** A torque that stretches the bolt past its proof load at any friction that is met. */
export const boltPastProof = boltFigure(
  'bolt-past-proof',
  () => true,
  ({ known, figure, meant }) =>
    meant === null && known.judge(figure.low, figure.high).pastProof === 'surely' ? {} : null,
);

const FAR_UNDER = 'torque-far-under';

/** A structural joint of a known thread whose class nobody says: whether its torque is enough stays open. */
function leaveUnknown(joints: KnownJoints, sim: Simulation, { subject, operation, within }: Event): void {
  if (subject.type !== 'joint' || within !== null || turnsOn(operation, subject.joint)) return;
  const { joint } = subject;
  if (!joint.structural || joint.thread === null || joint.class !== null) return;
  if (joints.of(sim.model, joint) === null) sim.leaveUndecided(FAR_UNDER, joint.full, 'class');
}

/** A joint that carries the structure and gets far less than its bolt is used at. */
export const torqueFarUnder = boltFigure(
  FAR_UNDER,
  ({ joint }) => joint.carries,
  ({ known, figure, meant }) => (meant === null && known.judge(figure.low, figure.high).farUnder ? {} : null),
);
