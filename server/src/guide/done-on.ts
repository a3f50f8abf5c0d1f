/** What an operation is done on, joint by joint and thing by thing, with the variants in which it is. */

import type { BoundOperation, Joint, Model, Part, Side, Target, Thing } from '../model/model';
import type { Diagram } from '../variants/diagram';

/** The joints that an operation works on: a part named where a joint belongs means all of its joints. */
export function jointsOf({ targets }: BoundOperation): Joint[] {
  const joints = targets.flatMap((target): Joint[] => {
    if (target.type === 'joint' || target.type === 'piece') return [target.joint];
    return target.type === 'part' ? [...target.part.joints.values()] : [];
  });
  return [...new Set(joints)];
}

/** The part or lines that a target is or belongs to; nothing for built-in things and words. */
export function targetThings(target: Target): readonly Thing[] {
  switch (target.type) {
    case 'part':
      return [target.part];
    case 'joint':
    case 'piece':
      return [target.joint.part];
    case 'end':
      return [target.end.part];
    case 'hole':
      return [target.hole.part];
    case 'face':
      return [target.face.part];
    case 'line':
      return target.lines;
    default:
      return [];
  }
}

/** The printed variants in which an operation is done on something. */
export function variantsOf(model: Model, operation: BoundOperation, thing: Thing | Joint | null): Diagram {
  const { diagrams } = model.world;
  const done = diagrams.and(model.universe, operation.guard);
  if (thing === null) return done;
  const there = diagrams.and(done, thing.presence);
  return thing.type === 'joint' ? diagrams.and(there, thing.part.presence) : there;
}

/** How many of a part an operation is done on: left and right are two. */
export function instancesOf({ sides }: BoundOperation, { instances }: Thing): number {
  return instances.filter(({ side }) => side === '' || sides.includes(side)).length;
}

/** `left and right`, `left side only`; null for what has no sides. */
export function sidesInWords(sides: readonly Side[], sided: boolean): string | null {
  if (!sided) return null;
  const [only] = sides;
  if (sides.length === 1 && only !== undefined && only !== '') return `${only} side only`;
  return 'left and right';
}

/** `2 × 5`; how many bolts a joint is, on each of its sides. Null for one, which is what a joint is that says nothing. */
export function boltsInWords(joint: Joint, operation: BoundOperation): string | null {
  if (joint.bolts === 1) return null;
  const count = instancesOf(operation, joint.part);
  return count > 1 ? `${count} × ${joint.bolts}` : String(joint.bolts);
}

export const isPart = (thing: Thing): thing is Part => thing.type === 'part';
