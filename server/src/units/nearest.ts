import { distance } from 'fastest-levenshtein';
import { type Dimension, spellingsOf, unitKey } from './table';

/** The symbol whose spelling is nearest to an unknown one; undefined where none is near. */
export function nearestUnit(written: string, dimensions: readonly Dimension[]): string | undefined {
  const key = unitKey(written);
  let best: string | undefined;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const dimension of dimensions) {
    for (const spelling of spellingsOf(dimension)) {
      const away = distance(key, spelling.key);
      if (away < bestDistance && away <= Math.max(1, Math.floor(spelling.key.length / 2))) {
        best = spelling.symbol;
        bestDistance = away;
      }
    }
  }
  return best;
}
