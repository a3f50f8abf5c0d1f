import type { BoundStep, Joint, Model } from '../model/model';
import type { GuideOutline } from '../model/outline';
import { textReferences } from '../model/texts';
import { printQuantity } from '../units/format';

/** A stretch of a text. What was written as `{part:…}`, `{torque:…}`, `{step:…}` is printed and marked. */
export interface Words {
  readonly text: string;
  readonly kind: 'plain' | 'part' | 'torque' | 'step';
}

/**
 * A text with what it names printed: a part by its name, a torque by the figure that the step uses, else by that of the
 * data, a step by its number. What is not known stays as it is written.
 */
export function textInWords(text: string, model: Model, guide: GuideOutline, step: BoundStep): Words[] {
  const words: Words[] = [];
  let from = 0;
  for (const { kind, name, start, end } of textReferences(text)) {
    const printed =
      kind === 'part'
        ? name.replaceAll('-', ' ').replace('.', ', ')
        : kind === 'torque'
          ? torqueOf(name, model, step)
          : kind === 'step'
            ? stepNumber(name, guide)
            : null;
    if (printed === null) continue;
    if (start > from) words.push({ text: text.slice(from, start), kind: 'plain' });
    words.push({ text: printed, kind: kind as Words['kind'] });
    from = end;
  }
  if (from < text.length) words.push({ text: text.slice(from), kind: 'plain' });
  return words;
}

/** The words without their marks. */
export const plainText = (words: readonly Words[]): string => words.map(({ text }) => text).join('');

function torqueOf(name: string, model: Model, step: BoundStep): string | null {
  const [partName = '', jointName] = name.split('.');
  const thing = model.things.get(partName);
  if (thing?.type !== 'part') return null;
  const joints = jointName === undefined ? [...thing.joints.values()] : [thing.joints.get(jointName)];
  const figures = new Set(joints.map((joint) => (joint === undefined ? null : figureOf(joint, step))));
  const [only] = figures;
  return figures.size === 1 ? (only ?? null) : null;
}

function figureOf(joint: Joint, step: BoundStep): string | null {
  for (const operation of step.operations) {
    if (operation.verb !== 'torque' || operation.figure.length === 0) continue;
    const meant = operation.targets.some(
      (target) =>
        (target.type === 'joint' && target.joint === joint) ||
        (target.type === 'part' && target.part === joint.part),
    );
    if (!meant) continue;
    const figures = operation.figure.map(({ value }) =>
      value === 'maker' ? "the vehicle maker's figure" : printQuantity(value),
    );
    return [...new Set(figures)].join(' or ');
  }
  return joint.torque === null ? null : printQuantity(joint.torque);
}

function stepNumber(id: string, guide: GuideOutline): string | null {
  const step = guide.byId.get(id);
  return step === undefined ? null : `step ${step.path}`;
}
