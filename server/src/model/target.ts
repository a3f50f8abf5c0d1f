/** What a target is, or belongs to. */

import type { Target, Thing } from './model';

/** The part or line that a target is or belongs to; null for what is neither. */
export function thingOfTarget(target: Target): Thing | null {
  switch (target.type) {
    case 'part':
      return target.part;
    case 'joint':
    case 'piece':
      return target.joint.part;
    case 'end':
      return target.end.part;
    case 'hole':
      return target.hole.part;
    case 'face':
      return target.face.part;
    case 'line':
      return target.lines[0] ?? null;
    default:
      return null;
  }
}
