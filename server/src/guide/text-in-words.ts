import type { BoundOperation, BoundStep, Joint, Model } from '../model/model';
import type { GuideOutline } from '../model/outline';
import { textReferences } from '../model/texts';
import { printQuantity } from '../units/format';
import type { Quantity } from '../units/quantity';
import { markOf } from './variants';

/** A stretch of a text. What was written as `{part:…}`, `{torque:…}`, `{step:…}` is printed and marked. */
export interface Words {
  readonly text: string;
  readonly kind: 'plain' | 'part' | 'torque' | 'step';
}

/**
 * A text with what it names printed: a part by its name, a torque by the figure that the step uses, else by that of the
 * data, a step by its number. What is not known stays as it is written.
 * @param numbers printed numbers of steps, by path; without them a step has that of its own document.
 */
export function textInWords(
  text: string,
  model: Model,
  guide: GuideOutline,
  step: BoundStep,
  numbers: ReadonlyMap<string, string> | null = null,
): Words[] {
  const words: Words[] = [];
  let from = 0;
  for (const { kind, name, start, end } of textReferences(text)) {
    const printed =
      kind === 'part'
        ? name.replaceAll('-', ' ').replace('.', ', ')
        : kind === 'torque'
          ? torqueOf(name, model, step)
          : kind === 'step'
            ? stepNumber(name, guide, step, numbers)
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

/** The torque of what is named, as this step has it; null where its joints have several, or none. */
function torqueOf(name: string, model: Model, step: BoundStep): string | null {
  const [partName = '', jointName] = name.split('.');
  const thing = model.things.get(partName);
  if (thing?.type !== 'part') return null;
  const joints = jointName === undefined ? [...thing.joints.values()] : [thing.joints.get(jointName)];
  const figures = new Set(joints.map((joint) => (joint === undefined ? null : figureOf(joint, model, step))));
  const [only] = figures;
  return figures.size === 1 ? (only ?? null) : null;
}

/** What a joint gets in a step: by the operation, variant by variant where that says more than one, else by the data. */
function figureOf(joint: Joint, model: Model, step: BoundStep): string | null {
  const operation = step.operations.find(
    ({ verb, targets }) =>
      verb === 'torque' &&
      targets.some(
        (target) =>
          (target.type === 'joint' && target.joint === joint) ||
          (target.type === 'part' && target.part === joint.part),
      ),
  );
  const angle = operation === undefined ? null : angleOf(operation, joint);
  const printed = (figure: Quantity | 'maker'): string =>
    figure === 'maker'
      ? "the vehicle maker's figure"
      : `${printQuantity(figure)}${angle === null ? '' : ` then ${angle}`}`;
  if (operation === undefined || operation.figure.length === 0)
    return joint.torque === null ? null : printed(joint.torque);
  const { diagrams } = model.world;
  let left = diagrams.and(model.universe, diagrams.and(operation.guard, joint.part.presence));
  const found = operation.figure.flatMap(({ set, value }) => {
    const here = diagrams.and(left, set);
    left = diagrams.and(left, diagrams.not(set));
    return here === 0 ? [] : [{ figure: printed(value), set: here }];
  });
  if (left !== 0 && joint.torque !== null) found.push({ figure: printed(joint.torque), set: left });
  if (new Set(found.map(({ figure }) => figure)).size < 2) return found[0]?.figure ?? null;
  return found
    .map(({ figure, set }) => {
      const when = markOf(model, set);
      return when === null ? figure : `${figure} (${when})`;
    })
    .join(' or ');
}

/** The angle that is turned further after a torque, as it is printed. */
export function angleOf({ words }: BoundOperation, joint: Joint): string | null {
  return words.get('then') ?? (joint.thenAngle === null ? null : printQuantity(joint.thenAngle));
}

/** The number of a step of the same document, as it runs here: in a used section that of the step that uses it comes before. */
function stepNumber(
  id: string,
  guide: GuideOutline,
  { path }: BoundStep,
  numbers: ReadonlyMap<string, string> | null,
): string | null {
  const step = guide.byId.get(id);
  if (step === undefined) return null;
  const here = path.slice(0, path.lastIndexOf('/') + 1) + step.path;
  return `step ${numbers?.get(here) ?? step.path}`;
}
