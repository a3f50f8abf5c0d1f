/** What is looked at, measured and written down; and what of it stands between the workshop and the road. */

import type { BoundOperation, Duty, Model, Target } from '../model/model';
import { variantsOf } from './done-on';
import { nameInWords, targetInWords, titled } from './names';
import type { Cell, Table } from './table';
import { isPrinted, markOf } from './variants';

const LOOKS = new Set(['check', 'measure', 'record']);

/** @param numbers printed numbers of steps, by path. */
export function checkTables(
  model: Model,
  numbers: ReadonlyMap<string, string>,
): { readonly checks: Table; readonly beforeDriving: Table } {
  const rows: {
    readonly at: number;
    readonly verb: string;
    readonly sealed: boolean;
    readonly cells: readonly Cell[];
  }[] = [];
  let landed = -1;
  model.steps.forEach((step, at) => {
    for (const operation of step.operations) {
      if (isLanding(operation)) landed = at;
      if (!LOOKS.has(operation.verb)) continue;
      const done = variantsOf(model, operation, null);
      if (!isPrinted(model, done)) continue;
      const { verb, targets, words } = operation;
      const expect =
        words.get('expect')?.replaceAll('-', ' ') ?? (verb === 'record' ? 'write down' : 'in order');
      for (const target of targets)
        rows.push({
          at,
          verb,
          sealed: isSealed(target),
          cells: [
            titled(targetInWords(target)),
            expect,
            markOf(model, done),
            numbers.get(step.path) ?? step.path,
          ],
        });
    }
  });
  const duties = model.owes.filter(
    ({ qualifiers, set }) => qualifiers.get('before') === 'road' && isPrinted(model, set),
  );
  const last = rows.filter(({ at, verb, sealed }) => verb !== 'record' && (at >= landed || sealed));
  const columns: Table['columns'] = [
    { key: 'what', title: 'What' },
    { key: 'expected', title: 'As it must be' },
    { key: 'when', title: 'Only with' },
    { key: 'step', title: 'Step', numeric: true },
  ];
  return {
    checks: {
      title: 'Checks and readings',
      columns,
      rows: rows.map(({ cells }) => cells),
      byHand: [{ title: 'Found', room: true }],
      notes: [],
    },
    beforeDriving: {
      title: 'Before the vehicle is driven',
      columns,
      rows: [
        ...last.map(({ cells }) => cells),
        ...duties.map((duty): readonly Cell[] => [
          titled(dutyInWords(duty)),
          'done',
          markOf(model, duty.set),
          null,
        ]),
        ...(hasTorques(model) ? [['Torque table', 'every joint ticked', null, null]] : []),
        ['Tools, rags and old parts', 'none left on the vehicle', null, null],
      ],
      byHand: [{ title: 'Done' }],
      notes: [],
    },
  };
}

/** A line that holds pressure or fuel: whether it is dry matters more than when it was looked at. */
const isSealed = (target: Target): boolean =>
  target.type === 'line' &&
  target.lines.some(({ lineType }) => lineType === 'hydraulic' || lineType === 'fuel');

const hasTorques = ({ steps }: Model): boolean =>
  steps.some(({ operations }) => operations.some(({ verb }) => verb === 'torque'));

/** The vehicle comes down to the ground. */
const isLanding = ({ verb, targets, words, onto }: BoundOperation): boolean =>
  verb === 'lower' &&
  onto.aids.length === 0 &&
  onto.target === null &&
  !words.has('by') &&
  targets.some((target) => target.type === 'built-in');

const dutyInWords = ({ target }: Duty): string => targetInWords(target);

/** The hand-over sheet: what is to be done after delivery, for whoever drives away. */
export function handoverTable(model: Model): Table {
  // What is owed before the road stands with what is looked at before driving.
  const after = model.owes.filter(
    ({ qualifiers, set }) => qualifiers.get('before') !== 'road' && isPrinted(model, set),
  );
  return {
    title: 'After delivery',
    columns: [
      { key: 'what', title: 'What is to be checked or done' },
      { key: 'when-due', title: 'When' },
      { key: 'because', title: 'Why' },
      { key: 'when', title: 'Only with' },
    ],
    rows: after.map((duty) => [
      titled(dutyInWords(duty)),
      dueOf(duty),
      duty.qualifiers.get('because') ?? null,
      markOf(model, duty.set),
    ]),
    byHand: [{ title: 'Done on', room: true }],
    notes: [],
  };
}

function dueOf({ qualifiers }: Duty): string {
  const before = qualifiers.get('before');
  const after = qualifiers.get('after');
  if (before !== undefined) return `before ${nameInWords(before)}`;
  return after === undefined ? '' : `after ${after}`;
}
