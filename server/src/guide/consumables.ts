/** What is used up, and what has to be bought beside the kit. */

import type { BoundOperation, Joint, Model } from '../model/model';
import { instancesOf, targetThings, variantsOf } from './done-on';
import { nameInWords, targetInWords, titled } from './names';
import { stepsInWords, type Table } from './table';
import { BRUSHES } from './tools';
import { isPrinted } from './variants';

interface Row {
  readonly sort: 'consumable' | 'new part';
  readonly what: string;
  readonly uses: string[];
  count: number;
  readonly notes: Set<string>;
  readonly steps: string[];
}

/** @param numbers printed numbers of steps, by path. */
export function consumableTable(model: Model, numbers: ReadonlyMap<string, string>): Table {
  const rows = new Map<string, Row>();
  for (const step of model.steps) {
    const number = numbers.get(step.path) ?? step.path;
    const add = (
      sort: Row['sort'],
      what: string,
      use: string,
      count = 0,
      note: string | null = null,
    ): void => {
      const key = `${sort} ${what.toLowerCase()}`;
      const row = rows.get(key) ?? { sort, what, uses: [], count: 0, notes: new Set(), steps: [] };
      rows.set(key, row);
      if (use !== '' && !row.uses.includes(use)) row.uses.push(use);
      row.count += count;
      if (note !== null) row.notes.add(note);
      if (row.steps.at(-1) !== number) row.steps.push(number);
    };
    for (const operation of step.operations) {
      if (!isPrinted(model, variantsOf(model, operation, null))) continue;
      for (const { what, use } of stuffOf(operation)) add('consumable', what, use);
      for (const { what, use, count } of newPiecesOf(model, operation))
        add('new part', what, use, count, operation.ifNeeded ? 'if needed' : null);
    }
  }
  const all = [...rows.values()];
  return {
    title: 'Consumables and new parts beside the kit',
    columns: [
      { key: 'what', title: 'What' },
      { key: 'quantity', title: 'Pieces', numeric: true },
      { key: 'for', title: 'For' },
      { key: 'note', title: 'Note' },
      { key: 'steps', title: 'Steps' },
    ],
    rows: [
      ...all.filter(({ sort }) => sort === 'consumable'),
      ...all.filter(({ sort }) => sort !== 'consumable'),
    ].map(({ what, count, uses, notes, steps }) => [
      titled(what),
      count === 0 ? null : count,
      uses.join('; '),
      [...notes].join(', '),
      stepsInWords(steps),
    ]),
    byHand: [],
    notes: [],
  };
}

/** Paint, oil, fluid, threadlocker: what an operation puts on or in. */
function stuffOf(operation: BoundOperation): { readonly what: string; readonly use: string }[] {
  const { verb, targets, toTargets, words, aids } = operation;
  const on = (list: typeof targets) => list.map(targetInWords).join(', ');
  switch (verb) {
    case 'apply':
      return targets.map((target) => ({ what: targetInWords(target), use: on(toTargets) }));
    case 'coat':
      return aids.map(({ name }) => ({ what: nameInWords(name), use: on(targets) }));
    case 'clean':
      return aids
        .filter(({ name }) => !BRUSHES.test(name))
        .map(({ name }) => ({ what: nameInWords(name), use: on(targets) }));
    case 'bleed':
      return aids
        .filter(({ known }) => !known)
        .map(({ name }) => ({ what: nameInWords(name), use: on(targets) }));
    case 'fill': {
      const amount = words.get('amount');
      const fluids = aids.some(({ known }) => !known)
        ? aids.filter(({ known }) => !known).map(({ name }) => nameInWords(name))
        : [`fluid for ${on(targets)}`];
      return fluids.map((fluid) => ({
        what: amount === undefined ? fluid : `${fluid}, ${amount}`,
        use: on(targets),
      }));
    }
    default:
      return [];
  }
}

/** New pieces that an operation takes and no kit brings. */
function newPiecesOf(
  model: Model,
  operation: BoundOperation,
): { readonly what: string; readonly use: string; readonly count: number }[] {
  if (operation.verb === 'renew')
    return operation.targets.flatMap((target) => {
      if (target.type === 'piece' || target.type === 'joint') {
        const { joint } = target;
        const piece = target.type === 'piece' ? target.piece : null;
        if (isBrought(model, joint, piece)) return [];
        const count = piecesOf(operation, joint, piece);
        return [{ what: pieceInWords(joint, piece), use: nameInWords(joint.full), count }];
      }
      const things = targetThings(target).filter(({ origin }) => origin !== 'kit');
      return things.map((thing) => ({
        what: nameInWords(thing.name),
        use: '',
        count: instancesOf(operation, thing),
      }));
    });
  if (operation.newPieces.length === 0) return [];
  return operation.targets.flatMap((target) => {
    if (target.type !== 'joint') return [];
    const { joint } = target;
    return operation.newPieces.flatMap((piece) =>
      isBrought(model, joint, piece)
        ? []
        : [
            {
              what: pieceInWords(joint, piece),
              use: nameInWords(joint.full),
              count: piecesOf(operation, joint, piece),
            },
          ],
    );
  });
}

/** `nut M12x1.25`: what somebody who buys it has to know. */
function pieceInWords({ thread }: Joint, piece: string | null): string {
  const name = piece === null ? 'bolts and nuts' : nameInWords(piece);
  return thread === null || piece === 'bush' ? name : `${name}, ${thread}`;
}

/** On each bolt as many as its stack has of that name. */
function piecesOf(operation: BoundOperation, joint: Joint, piece: string | null): number {
  const each = Math.max(1, joint.stack.filter((one) => one === piece).length);
  return each * joint.bolts * instancesOf(operation, joint.part);
}

/** Whether a kit has the piece: by its hardware, or since the joint is the kit's own. */
function isBrought({ hardware }: Model, joint: Joint, piece: string | null): boolean {
  if (piece !== null && joint.takesOver?.newPieces.has(piece) === true) return true;
  if (joint.part.origin === 'kit' && joint.takesOver === null) return true;
  return hardware.some(({ serves }) =>
    serves.some((one) => one.joint === joint && (one.piece === null || one.piece === piece)),
  );
}
