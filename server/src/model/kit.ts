/** Kit hardware, and what comes new with a kit part that takes over joints. */

import type { Assembled } from './assemble';
import { type Body, cursorOf, fieldsOf, mergeBodies, textsOf } from './body';
import type { Mutable } from './joints';
import type { Hardware, Joint } from './model';
import type { BuildingPart, BuildingThing } from './parts';
import type { PieceTable } from './pieces';
import { Cursor, entriesAt, itemsAt, type OpenDocument, textAt } from './source';

/** What hardware says of the joint it is for: all of it, or what concerns the one piece. */
const SAYS: Readonly<Record<string, readonly string[]>> = {
  joint: ['thread', 'class', 'hex', 'nut', 'torque'],
  bolt: ['thread', 'class', 'hex', 'torque'],
  nut: ['nut', 'torque'],
};

/**
 * Adds what kit hardware says to the joints it is for, and to those that take them over. On a vehicle's own joint the
 * figure alone changes: the hardware is not on it yet. What a kit's part says itself wins.
 */
export function withHardware(
  assembled: Map<string, Assembled>,
  kits: readonly OpenDocument[],
): Map<string, Assembled> {
  const newer = new Map<string, string[]>();
  for (const one of assembled.values())
    for (const old of one.replaced) newer.set(old, [...(newer.get(old) ?? []), one.name]);
  for (const kit of kits) {
    for (const [, cursor] of entriesAt(Cursor.of(kit), 'hardware')) {
      if (!cursor.isMap) continue;
      for (const item of itemsAt(cursor, 'for')) {
        const [partName = '', jointName, piece] = (item.text ?? '').split('.');
        for (const name of [partName, ...(newer.get(partName) ?? [])]) {
          const one = assembled.get(name);
          if (one !== undefined)
            assembled.set(name, overlaid(one, jointName ?? null, piece ?? 'joint', cursor));
        }
      }
    }
  }
  return assembled;
}

function overlaid(one: Assembled, jointName: string | null, piece: string, hardware: Cursor): Assembled {
  const says = one.origin === 'kit' ? SAYS[piece] : (SAYS[piece] ?? []).filter((key) => key === 'torque');
  const fields = new Map<string, Body>();
  for (const key of says ?? []) {
    const cursor = hardware.get(key);
    if (cursor !== null) fields.set(key, { cursor, fields: null });
  }
  const joints = [...fieldsOf(one.body, 'joints').keys()].filter(
    (name) => jointName === null || name === jointName,
  );
  if (fields.size === 0 || joints.length === 0) return one;
  const overlay: Body = { cursor: null, fields };
  const body: Body = {
    cursor: null,
    fields: new Map([['joints', { cursor: null, fields: new Map(joints.map((name) => [name, overlay])) }]]),
  };
  const merged = mergeBodies(one.body, body);
  return { ...one, body: one.origin === 'kit' ? mergeBodies(merged, one.own) : merged };
}

/** The hardware of the kits, with what it is for. */
export function hardwareOf(
  kits: readonly OpenDocument[],
  things: ReadonlyMap<string, BuildingThing>,
  pieces: PieceTable,
): Hardware[] {
  return kits.flatMap((kit) =>
    entriesAt(Cursor.of(kit), 'hardware').flatMap(([name, cursor]): Hardware[] => {
      if (!cursor.isMap) return [];
      const serves = itemsAt(cursor, 'for').flatMap((item) => servedBy(item.text, things, pieces));
      const quantity = Number(textAt(cursor, 'quantity') ?? Number.NaN);
      return [
        {
          name,
          declared: cursor.keyPlace,
          quantity: Number.isInteger(quantity) ? quantity : null,
          thread: textAt(cursor, 'thread'),
          class: textAt(cursor, 'class'),
          serves,
        },
      ];
    }),
  );
}

function servedBy(
  written: string | null,
  things: ReadonlyMap<string, BuildingThing>,
  pieces: PieceTable,
): Hardware['serves'] {
  const [partName = '', jointName, ...rest] = (written ?? '').split('.');
  const part = things.get(partName);
  if (part === undefined || part.type !== 'part') return [];
  if (jointName === undefined) return [...part.joints.values()].map((joint) => ({ joint, piece: null }));
  const joint = part.joints.get(jointName);
  if (joint === undefined) return [];
  return [{ joint, piece: rest.length === 0 ? null : pieces.nameOn(joint, rest.join('.')) }];
}

/** Ties the joints of kit parts to those they take over, with the pieces that come new. */
export function linkTakenJoints(
  assembled: ReadonlyMap<string, Assembled>,
  things: ReadonlyMap<string, BuildingThing>,
): void {
  for (const [name, one] of assembled) {
    const part = things.get(name)!;
    if (part.type !== 'part') continue;
    for (const joint of part.joints.values()) {
      const old = part.replaces.flatMap((thing) =>
        thing.type === 'part' ? (thing.joints.get(joint.name) ?? []) : [],
      )[0];
      if (old === undefined) continue;
      const said = fieldsOf(one.own, 'joints').get(joint.name) ?? null;
      (joint as Mutable<Joint>).takesOver = { joint: old, newPieces: new Set(saidPieces(said, joint)) };
    }
  }
}

/** Pieces that the kit's part says itself: they are in the box. */
function saidPieces(body: Body | null, joint: Joint): string[] {
  if (body === null) return [];
  const pieces: string[] = [...textsOf(body, 'stack')];
  // A slotted nut brings its pin.
  if (cursorOf(body, 'nut') !== null) pieces.push('nut', ...(joint.nut === 'slotted' ? ['pin'] : []));
  if (cursorOf(body, 'class') !== null) pieces.push('bolt');
  return pieces;
}

/** Hardware for a joint, or for the one that it takes over, brings its pieces new. */
export function addHardwarePieces(
  hardware: readonly Hardware[],
  things: ReadonlyMap<string, BuildingThing>,
): void {
  const served = new Map<Joint, (string | null)[]>();
  for (const { serves } of hardware) {
    for (const { joint, piece } of serves) served.set(joint, [...(served.get(joint) ?? []), piece]);
  }
  if (served.size === 0) return;
  for (const thing of things.values()) {
    if (thing.type !== 'part') continue;
    for (const joint of (thing as BuildingPart).joints.values()) {
      if (joint.takesOver === null) continue;
      const news = [...(served.get(joint) ?? []), ...(served.get(joint.takesOver.joint) ?? [])];
      if (news.length === 0) continue;
      const all = ['nut', 'pin', 'bolt', ...joint.stack];
      const newPieces = new Set([
        ...joint.takesOver.newPieces,
        ...news.flatMap((piece) => (piece === null ? all : [piece])),
      ]);
      (joint as Mutable<Joint>).takesOver = { joint: joint.takesOver.joint, newPieces };
    }
  }
}
