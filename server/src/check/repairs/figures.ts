/** Figures put right by the data. */

import type { Value } from '../../edit/write';
import type { Joint } from '../../model/model';
import { printQuantity } from '../../units/format';
import { parseQuantity } from '../../units/quantity';
import type { Fault, Plan } from './repair';

const jointOf = ({ event }: Fault): Joint | null =>
  event?.subject.type === 'joint' ? event.subject.joint : null;

/** `torque-differs`: the figure, and the angle, of the vehicle's or the kit's data. */
export function* torqueOfTheData(fault: Fault): Generator<Plan | null> {
  const { path, guide, operation } = fault;
  const joint = jointOf(fault);
  if (path === null || joint?.torque == null || operation === null) return;
  const figure = printQuantity(joint.torque);
  const staged = operation.qualifiers.get('stages');
  const edits =
    Array.isArray(staged) && staged.length > 0
      ? guide.setKey(path, 'stages', [...stagesBelow(staged.map(String), joint.torque.nominal), figure])
      : guide.setKey(path, 'to', figure);
  if (!operation.qualifiers.has('then') && joint.thenAngle === null) {
    yield inPlace(`Write ${figure}, as the data have it`, edits);
    if (staged === undefined) yield inPlace('Leave the figure to the data', guide.removeKey(path, 'to'));
    return;
  }
  const angle = joint.thenAngle === null ? null : printQuantity(joint.thenAngle);
  const turned = angle === null ? guide.removeKey(path, 'then') : guide.setKey(path, 'then', angle);
  yield inPlace(angle === null ? 'Take out the angle' : `Write then ${angle}, as the data have it`, turned);
  if (edits !== null && turned !== null)
    yield inPlace(`Write ${figure}${angle === null ? '' : ` then ${angle}`}, as the data have it`, [
      ...edits,
      ...turned,
    ]);
}

/** The stages as written, the last apart, where they rise to a figure; else those of all that do, in order. */
function stagesBelow(written: readonly string[], figure: number): string[] {
  const nominal = (text: string) => {
    const read = parseQuantity(text, 'torque');
    return read.ok ? read.quantity.nominal : Number.NaN;
  };
  const earlier = written.slice(0, -1);
  const rise = earlier.every(
    (text, at) => nominal(text) < (at + 1 < earlier.length ? nominal(earlier[at + 1]!) : figure),
  );
  if (rise) return earlier;
  const below = written.filter((text) => nominal(text) < figure).sort((a, b) => nominal(a) - nominal(b));
  return below.filter((text, at) => at === 0 || nominal(text) > nominal(below[at - 1]!));
}

/** `torque-without-figure`: the vehicle maker's. */
export function* makersFigure({ path, guide }: Fault): Generator<Plan | null> {
  if (path !== null)
    yield inPlace("Print the vehicle maker's figure (to: maker)", guide.setKey(path, 'to', 'maker'));
}

/** `torque-unit-meant`: the same number in the unit in which it makes sense, where the guide writes it. */
export function* unitThatFits(fault: Fault): Generator<Plan | null> {
  const { path, guide, operation } = fault;
  const meant = fault.fact('meant');
  if (path === null || meant === '' || typeof operation?.qualifiers.get('to') !== 'string') return;
  yield inPlace(`Write ${meant}`, guide.setKey(path, 'to', meant));
}

/** `stages-not-rising`: the same stages in rising order. */
export function* risingStages({ path, guide, operation }: Fault): Generator<Plan | null> {
  const written = operation?.qualifiers.get('stages');
  if (path === null || !Array.isArray(written)) return;
  const stages = written.map(String).flatMap((text) => {
    const read = parseQuantity(text, 'torque');
    return read.ok ? [{ text, figure: read.quantity.nominal }] : [];
  });
  if (stages.length !== written.length) return;
  const rising = [...stages].sort((a, b) => a.figure - b.figure);
  const texts = rising
    .filter((one, index) => one.figure !== rising[index - 1]?.figure)
    .map(({ text }) => text);
  yield inPlace('Put the stages in rising order', guide.setKey(path, 'stages', texts));
}

/** `drilled-oversize`: the size of the hole. */
export function* sizeOfTheHole({ path, guide, event }: Fault): Generator<Plan | null> {
  if (path === null || event?.subject.type !== 'hole' || event.subject.hole.size === null) return;
  const size = `${Math.round(event.subject.hole.size * 10) / 10} mm`;
  yield inPlace(`Write ${size}, the size of the hole`, guide.setKey(path, 'to', size));
}

/** `over-inflated`: the most that the spring takes. */
export function* mostPressure({ path, guide, event }: Fault): Generator<Plan | null> {
  if (path === null || event?.subject.type !== 'part' || event.subject.part.pressure === null) return;
  const bar = barOf(event.subject.part.pressure.high);
  yield inPlace(`Write ${bar}, the most that it takes`, guide.setKey(path, 'to', bar));
}

/** `spring-loaded` and `line-stretched`: the axle let down as far as is needed, or as far as the line reaches. */
export function* otherTravel(fault: Fault): Generator<Plan | null> {
  const { thing, simulation, guide, event } = fault;
  if (event === null) return;
  const target =
    fault.finding.rule === 'spring-loaded'
      ? thing?.type === 'part'
        ? thing.freeAt
        : null
      : Number.parseFloat(fault.fact('slack'));
  if (target === null || !Number.isFinite(target)) return;
  const lowered = simulation.events.filter(
    ({ verb, run, operation, subject }) =>
      verb === 'lower' && run <= event.run && operation.by !== null && subject.type === 'part',
  );
  const last = lowered[lowered.length - 1];
  if (last === undefined || last.operation.path.includes('/')) return;
  const by = `${target} mm`;
  const name = last.target.written.replaceAll('-', ' ');
  yield inPlace(`Let the ${name} down by ${by}`, guide.setKey(last.operation.path, 'by', by as Value));
}

/** A pressure as it is written: kPa to `2.5 bar`. */
export const barOf = (kilopascals: number): string => `${Math.round(kilopascals) / 100} bar`;

export function inPlace(title: string, edits: Plan['edits'] | null): Plan | null {
  return edits === null ? null : { kind: 'in place', title, edits, drafts: 0 };
}
