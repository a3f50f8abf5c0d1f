/** The torque table: every joint that the guide tightens finally, in the order of the steps. */

import type { BoundOperation, BoundStep, Joint, Model } from '../model/model';
import { parseQuantity, type Quantity } from '../units/quantity';
import type { Diagram } from '../variants/diagram';
import { boltsInWords, jointsOf, variantsOf } from './done-on';
import { type BothUnits, bothUnits } from './figures';
import { nameInWords, titled } from './names';
import type { Table } from './table';
import { angleOf } from './text-in-words';
import { isPrinted, markOf } from './variants';

export interface PrintedTorque {
  readonly step: string;
  /** Place of its step among those of the guide, and the variants in which this figure counts. */
  readonly at: number;
  readonly set: Diagram;
  readonly joint: Joint;
  readonly operation: BoundOperation;
  readonly sides: string;
  /** Null where nothing says that there is more than one. */
  readonly bolts: string | null;
  /** Null where the vehicle maker's figure counts, or nobody says one. */
  readonly figure: BothUnits | null;
  readonly maker: boolean;
  /** `then 90°`, `in stages of 27 N·m, 41 N·m`, `star pattern`. */
  readonly how: readonly string[];
  readonly rideHeight: boolean;
  readonly when: string | null;
}

/** @param numbers printed numbers of steps, by path. */
export function torquesOf(
  model: Model,
  numbers: ReadonlyMap<string, string>,
  steps: readonly BoundStep[] = model.steps,
): PrintedTorque[] {
  return steps.flatMap((step) =>
    step.operations
      .filter(({ verb }) => verb === 'torque')
      .flatMap((operation) =>
        jointsOf(operation).flatMap((joint) =>
          figuresOf(model, operation, joint).map(({ figure, set, when }): PrintedTorque => {
            const { part } = joint;
            const only = operation.sides.length === 1 ? operation.sides[0]! : '';
            return {
              step: numbers.get(step.path) ?? step.path,
              at: model.steps.indexOf(step),
              set,
              joint,
              operation,
              sides: part.sided ? (only === '' ? 'left, right' : only) : '',
              bolts: boltsInWords(joint, operation),
              figure: figure === null || figure === 'maker' ? null : bothUnits(figure),
              maker: figure === 'maker',
              how: howOf(operation, joint),
              rideHeight: joint.bushed || operation.words.get('at') === 'ride-height',
              when,
            };
          }),
        ),
      ),
  );
}

/** What an operation tightens a joint to, variant by variant; what it does not say comes from the data. */
export function figuresOf(
  model: Model,
  operation: BoundOperation,
  joint: Joint,
): { readonly figure: Quantity | 'maker' | null; readonly set: Diagram; readonly when: string | null }[] {
  const { diagrams } = model.world;
  let left = variantsOf(model, operation, joint);
  const found: { figure: Quantity | 'maker' | null; set: Diagram; when: string | null }[] = [];
  for (const { set, value } of operation.figure) {
    const here = diagrams.and(left, set);
    if (here === 0) continue;
    found.push({ figure: value, set: here, when: markOf(model, here) });
    left = diagrams.and(left, diagrams.not(set));
  }
  if (isPrinted(model, left)) found.push({ figure: joint.torque, set: left, when: markOf(model, left) });
  return found;
}

function howOf(operation: BoundOperation, joint: Joint): string[] {
  const stages = stagesOf(operation, joint);
  const pattern = operation.words.get('pattern') ?? joint.pattern;
  const angle = angleOf(operation, joint);
  return [
    ...(stages.length > 1 ? [`in stages: ${inBothUnits(stages)}`] : []),
    ...(angle === null ? [] : [`then ${angle}`]),
    ...(pattern === null ? [] : [pattern === 'in-turn' ? 'one after another' : `${pattern} pattern`]),
  ];
}

/** The stages that a joint is tightened in; the last is its final torque. */
export function stagesOf({ qualifiers }: BoundOperation, joint: Joint): Quantity[] {
  const written = qualifiers.get('stages');
  if (!Array.isArray(written)) return [...joint.stages];
  return written.flatMap((stage) => {
    const read = parseQuantity(String(stage), 'torque');
    return read.ok ? [read.quantity] : [];
  });
}

/** `25, 50, 70 N·m (18, 37, 52 lbf·ft)`. */
function inBothUnits(stages: readonly Quantity[]): string {
  const both = stages.map(bothUnits);
  const inOne = (figures: readonly string[]): string => {
    const [unit] = figures.map((figure) => figure.slice(figure.indexOf(' ')));
    return figures.every((figure) => figure.endsWith(unit!))
      ? `${figures.map((figure) => figure.slice(0, -unit!.length)).join(', ')}${unit}`
      : figures.join(', ');
  };
  return `${inOne(both.map(({ metric }) => metric))} (${inOne(both.map(({ imperial }) => imperial))})`;
}

/** What stands in a table for a figure that is not the guide's. */
export const MAKERS = "vehicle maker's figure";
/** And where nobody says one. */
export const NO_FIGURE = 'no figure';

/** @param apart whether joints at ride height have a table of their own, so that no column says it. */
export function torqueTable(torques: readonly PrintedTorque[], title: string, apart: boolean): Table {
  return {
    title,
    columns: [
      { key: 'id', title: 'Id', hidden: true },
      { key: 'joint', title: 'Joint' },
      { key: 'sides', title: 'Sides', under: '' },
      { key: 'bolts', title: 'Bolts', under: 'bolts: ' },
      { key: 'thread', title: 'Thread', under: '' },
      { key: 'class', title: 'Class', under: 'class ' },
      { key: 'spanner', title: 'Spanner', under: 'spanner ' },
      { key: 'newton-metres', title: 'N·m', numeric: true },
      { key: 'pound-feet', title: 'lbf·ft', numeric: true },
      { key: 'how', title: 'How', under: '' },
      ...(apart ? [] : [{ key: 'ride-height', title: 'Ride height', under: '' }]),
      { key: 'when', title: 'Only with', under: 'only with ' },
      { key: 'step', title: 'Step', numeric: true },
    ],
    rows: torques.map(({ step, joint, sides, bolts, figure, maker, how, rideHeight, when }) => [
      joint.full,
      titled(nameInWords(joint.full)),
      sides,
      bolts,
      joint.thread,
      joint.class,
      joint.hex ?? (joint.key === null ? null : `${joint.key} key`),
      figure === null ? (maker ? MAKERS : NO_FIGURE) : figure.metric.replace(/ N·m$/, ''),
      figure === null ? null : figure.imperial.replace(/ lbf·ft$/, ''),
      how.join('; '),
      ...(apart ? [] : [rideHeight ? 'at ride height' : null]),
      when,
      step,
    ]),
    byHand: [{ title: 'Done' }],
    notes: [],
  };
}
