/** What must not be changed, or moved, because it is repeated elsewhere. */

import { walk } from '../text/access';
import type { Node } from '../text/tree';
import type { Source } from './source';

/**
 * True where a value is written once and read in several places: it, or something around it, has an anchor that an alias
 * follows. Changing it would change those places too.
 */
export function isRepeated({ reading }: Source, node: Node): boolean {
  for (const target of reading.targets.values())
    if (target.start <= node.start && node.end <= target.end) return true;
  return false;
}

/** True where an alias outside a value follows an anchor in it. */
export function isFollowedFromOutside({ reading }: Source, node: Node): boolean {
  for (const [alias, target] of reading.targets) {
    const inside = node.start <= target.start && target.end <= node.end;
    if (inside && !(node.start <= alias.start && alias.end <= node.end)) return true;
  }
  return false;
}

/** True where something beneath a value has an anchor, or stands for one elsewhere. */
export function hasAnchorsOrAliases(node: Node): boolean {
  let found = false;
  walk(node, ({ kind, anchor }) => {
    found ||= kind === 'alias' || anchor !== null;
  });
  return found;
}
