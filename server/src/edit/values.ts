/** What a node says, as a value that can be written again. */

import { entries, follow, items, keyName } from '../text/access';
import type { Node, Reading } from '../text/tree';
import type { Value } from './write';

/** Aliases and merges are followed, so that what is written of it stands by itself. */
export function dataOf(node: Node, reading: Reading): Value {
  const value = follow(node, reading);
  if (value.kind === 'seq') return items(value, reading).map((item) => dataOf(item.value, reading));
  if (value.kind === 'map')
    return Object.fromEntries(
      entries(value, reading).map((entry) => [
        keyName(entry.key, reading) ?? '',
        dataOf(entry.value, reading),
      ]),
    );
  return value.kind === 'alias' ? null : value.value;
}
