/** The torque table: every joint that the guide tightens finally, in the order of the steps. */

import type { BoundOperation, BoundStep, Joint, Model } from '../model/model';
import { printQuantity } from '../units/format';
import type { Quantity } from '../units/quantity';
import { boltsInWords, jointsOf, variantsOf } from './done-on';
import { type BothUnits, bothUnits } from './figures';
import { nameInWords, titled } from './names';
import type { Table } from './table';
import { isPrinted, markOf } from './variants';

export interface PrintedTorque {
  readonly step: string;
  readonly joint: Joint;
  readonly operation: BoundOperation;
  readonly sides: string;
  readonly bolts: string;
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
          figuresOf(model, operation, joint).map(({ figure, when }): PrintedTorque => {
            const { part } = joint;
            const only = operation.sides.length === 1 ? operation.sides[0]! : '';
            return {
              step: numbers.get(step.path) ?? step.path,
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
function figuresOf(
  model: Model,
  operation: BoundOperation,
  joint: Joint,
): { readonly figure: Quantity | 'maker' | null; readonly when: string | null }[] {
  const { diagrams } = model.world;
  let left = variantsOf(model, operation, joint);
  const found: { figure: Quantity | 'maker' | null; when: string | null }[] = [];
  for (const { set, value } of operation.figure) {
    const here = diagrams.and(left, set);
    if (here === 0) continue;
    found.push({ figure: value, when: markOf(model, here) });
    left = diagrams.and(left, diagrams.not(set));
  }
  if (isPrinted(model, left)) found.push({ figure: joint.torque, when: markOf(model, left) });
  return found;
}

function howOf({ words, qualifiers }: BoundOperation, joint: Joint): string[] {
  const written = qualifiers.get('stages');
  const stages = Array.isArray(written)
    ? written.map(String)
    : joint.stages.map((stage) => printQuantity(stage));
  const angle = words.get('then') ?? (joint.thenAngle === null ? null : printQuantity(joint.thenAngle));
  const pattern = words.get('pattern') ?? joint.pattern;
  return [
    ...(stages.length > 1 ? [`in stages: ${stages.join(', ')}`] : []),
    ...(angle === null ? [] : [`then ${angle}`]),
    ...(pattern === null ? [] : [pattern === 'in-turn' ? 'one after another' : `${pattern} pattern`]),
  ];
}

/** What stands in a table for a figure that is not the guide's. */
export const MAKERS = "vehicle maker's figure";

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
      figure === null ? (maker ? MAKERS : 'no figure') : figure.metric.replace(/ N·m$/, ''),
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
