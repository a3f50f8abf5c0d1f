import { distance } from 'fastest-levenshtein';
import { keyName } from '../text/access';
import type { Node, Reading } from '../text/tree';

/** The key that every document of ours begins with. */
export const FIRST_KEY = 'kitproof';

/** Whether a word is a slip of the pen for our first key: `kitprof`, `Kitproof`, `kit-proof`. The key itself is none. */
export function isNearFirstKey(word: string): boolean {
  if (word === FIRST_KEY || word.length > 2 * FIRST_KEY.length) return false;
  return distance(word.toLowerCase().replaceAll(/[-_ ]/g, ''), FIRST_KEY) <= 2;
}

/**
 * The first key of a document where it is misspelt and its value looks like what stands under it, `install/1`; else null.
 * Without such a value the document may be anything.
 */
export function misspeltFirstKey(root: Node, reading: Reading): Node | null {
  const key = root.kind === 'map' ? root.keys?.[0] : undefined;
  const value = root.items?.[0];
  if (!key || !value || !isNearFirstKey(keyName(key, reading) ?? '')) return null;
  return value.kind === 'scalar' && /^ *[A-Za-z]{2,12} *\/ *[0-9]{1,3} *$/.test(String(value.value))
    ? key
    : null;
}
