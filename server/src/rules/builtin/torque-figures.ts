import { readQuantity } from '../../model/measures';
import type { BoundOperation } from '../../model/model';
import type { Branch } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import type { Quantity } from '../../units/quantity';
import type { Builtin } from './builtin';

/** Two figures are the same up to the larger of 1 N·m and 1 % (design §2.1). */
const tolerance = (figure: number) => Math.max(1, Math.abs(figure) * 0.01) + 1e-9;

/** Whether a figure is that of the data: the middle of a range counts. */
export function isFigureOf(data: Quantity, figure: { readonly low: number; readonly high: number }): boolean {
  const middle = (figure.low + figure.high) / 2;
  return middle >= data.low - tolerance(data.low) && middle <= data.high + tolerance(data.high);
}

const figureOf = (branch: Branch, operation: BoundOperation) =>
  operation.figure.find(({ set }) => branch.within(set))?.value ?? null;

/** The figure a guide gives, or expects where it looks, is that of the vehicle's or kit's data. */
export const torqueDiffers: Builtin = {
  name: 'torque-differs',
  watch: () => ({
    verbs: ['torque', 'check', 'measure'],
    before(sim, branch, event) {
      const { subject, operation } = event;
      if (subject.type !== 'joint' || event.within !== null) return undefined;
      const data = subject.joint.torque;
      if (data === null) return undefined;
      const looked = event.verb !== 'torque';
      const figure = looked ? expectedTorque(operation) : figureOf(branch, operation);
      if (figure === null || figure === 'maker') return undefined;
      ask(sim, branch, event, 'torque-differs');
      const angle = looked ? null : angleOf(operation);
      const due = looked || subject.joint.thenAngle === null ? null : middleOf(subject.joint.thenAngle);
      const angleFits = (angle === null) === (due === null) && Math.abs((angle ?? 0) - (due ?? 0)) <= 1;
      const fits = isFigureOf(data, figure) && angleFits;
      if (!fits)
        flag(sim, branch, event, 'torque-differs', subject.joint.full, {
          facts: {
            figure: `${range(figure.low, figure.high)} N·m${angleFits ? '' : inAngle(angle)}`,
            data: `${range(data.low, data.high)} N·m${angleFits ? '' : inAngle(due)}`,
          },
        });
      return undefined;
    },
  }),
};

/** The torque that a check of a joint expects, where it is one figure. */
function expectedTorque(operation: BoundOperation): { low: number; high: number } | null {
  const written = operation.qualifiers.get('expect');
  const text = typeof written === 'object' && written !== null ? (written as { is?: unknown }).is : written;
  return text === undefined ? null : readQuantity(String(text), 'torque');
}

/** Stages go up: each pulls the pattern down a little more. */
export const stagesNotRising: Builtin = {
  name: 'stages-not-rising',
  watch: () => ({
    verbs: ['torque'],
    before(sim, branch, event) {
      const { subject, operation } = event;
      if (subject.type !== 'joint' || event.within !== null) return undefined;
      const written = operation.qualifiers.get('stages');
      const stages = (Array.isArray(written) ? written : []).flatMap(
        (stage) => readQuantity(String(stage), 'torque')?.nominal ?? [],
      );
      if (stages.length > 1) ask(sim, branch, event, 'stages-not-rising');
      if (stages.some((stage, index) => index > 0 && stage <= stages[index - 1]!))
        flag(sim, branch, event, 'stages-not-rising', subject.joint.full);
      return undefined;
    },
  }),
};

/** A final torque has a figure somewhere: in the guide, in the kit, in the vehicle's data, or the maker's. */
export const torqueWithoutFigure: Builtin = {
  name: 'torque-without-figure',
  watch: () => ({
    verbs: ['torque'],
    before(sim, branch, event) {
      const { subject, operation } = event;
      if (subject.type !== 'joint' || event.within !== null) return undefined;
      ask(sim, branch, event, 'torque-without-figure');
      if (subject.joint.torque !== null) return undefined;
      if (figureOf(branch, operation) === null)
        flag(sim, branch, event, 'torque-without-figure', subject.joint.full);
      return undefined;
    },
  }),
};

const inAngle = (angle: number | null) => (angle === null ? ' without an angle' : ` then ${round(angle)}°`);
const middleOf = ({ low, high }: { low: number; high: number }) => (low + high) / 2;

/** The angle that the operation adds, in degrees. */
function angleOf(operation: BoundOperation): number | null {
  const written = operation.qualifiers.get('then');
  return written === undefined ? null : (readQuantity(String(written), 'angle')?.nominal ?? null);
}

const round = (figure: number) => String(Math.round(figure * 10) / 10);
const range = (low: number, high: number) => (low === high ? round(low) : `${round(low)}-${round(high)}`);
