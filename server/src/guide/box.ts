/** What is in the box: parts and lines of the kits, and their loose hardware. */

import type { Model, Thing } from '../model/model';
import { thingOfTarget } from '../model/target';
import { printMeasure } from '../units/format';
import { nameInWords, titled } from './names';
import type { Table } from './table';
import { isPrinted, markOf } from './variants';

export function partTable(model: Model): Table {
  const things = [...model.things.values()].filter(
    (thing) => thing.origin === 'kit' && isPrinted(model, thing.presence) && !isDone(model, thing),
  );
  return {
    title: 'In the box',
    columns: [
      { key: 'id', title: 'Id', hidden: true },
      { key: 'part', title: 'Part' },
      { key: 'quantity', title: 'Pieces', numeric: true },
      { key: 'handed', title: 'Sides' },
      { key: 'replaces', title: 'In place of' },
      { key: 'mass', title: 'Mass of one' },
      { key: 'when', title: 'Only with' },
    ],
    rows: things.map((thing) => [
      thing.name,
      titled(nameInWords(thing.name)),
      thing.quantity,
      isHanded(thing) ? 'left and right differ' : null,
      thing.replaces.map(({ name }) => nameInWords(name)).join(', '),
      thing.type === 'part' && thing.mass !== null ? printMeasure(thing.mass, 'mass', 'kg') : null,
      markOf(model, thing.presence),
    ]),
    byHand: [{ title: 'In the box' }],
    notes: [],
  };
}

/** What the guide before this one has fitted, connected or scrapped is in the box no more. */
const isDone = ({ follows }: Model, thing: Thing): boolean =>
  follows?.done.some(({ target }) => thingOfTarget(target) === thing) === true;

const isHanded = (thing: Thing): boolean => thing.type === 'part' && thing.handed;

export function hardwareTable(model: Model): Table {
  return {
    title: 'Hardware',
    columns: [
      { key: 'id', title: 'Id', hidden: true },
      { key: 'piece', title: 'Piece' },
      { key: 'quantity', title: 'Pieces', numeric: true },
      { key: 'thread', title: 'Thread' },
      { key: 'class', title: 'Class' },
      { key: 'for', title: 'Goes to' },
    ],
    rows: model.hardware.map(({ name, quantity, thread, class: grade, serves }) => [
      name,
      titled(nameInWords(name)),
      quantity,
      thread,
      grade,
      serves
        .map(({ joint, piece }) => nameInWords(piece === null ? joint.full : `${joint.full}.${piece}`))
        .join('; '),
    ]),
    byHand: [{ title: 'In the box' }],
    notes: [],
  };
}
