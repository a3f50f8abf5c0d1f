/** What a target is, or belongs to. */

import type { Part, Target, Thing } from './model';

/** Of a target, or of what it comes to in one instance, as much as says whose it is. */
type Owned =
  | { readonly type: 'part'; readonly part: Part }
  | { readonly type: 'joint' | 'piece'; readonly joint: { readonly part: Part } }
  | { readonly type: 'end'; readonly end: { readonly part: Part } }
  | { readonly type: 'hole'; readonly hole: { readonly part: Part } }
  | { readonly type: 'face'; readonly face: { readonly part: Part } }
  | { readonly type: 'line' | 'built-in' | 'words' };

/** The part that something is or belongs to; null for lines, systems and free words. */
export function partOf(owned: Owned): Part | null {
  switch (owned.type) {
    case 'part':
      return owned.part;
    case 'joint':
    case 'piece':
      return owned.joint.part;
    case 'end':
      return owned.end.part;
    case 'hole':
      return owned.hole.part;
    case 'face':
      return owned.face.part;
    default:
      return null;
  }
}

/** The part or line that a target is or belongs to; null for what is neither. */
export function thingOfTarget(target: Target): Thing | null {
  return target.type === 'line' ? (target.lines[0] ?? null) : partOf(target);
}
