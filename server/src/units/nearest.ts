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

/** True where a unit is written with one letter for another, or two that changed places, and no other unit is so near. */
export function isOnlyUnit(written: string, symbol: string, dimensions: readonly Dimension[]): boolean {
  const key = unitKey(written);
  const near = new Set<string>();
  for (const dimension of dimensions)
    for (const spelling of spellingsOf(dimension)) {
      const sameLetters = [...spelling.key].sort().join('') === [...key].sort().join('');
      const oneOther = spelling.key.length === key.length && distance(spelling.key, key) === 1;
      if (sameLetters || oneOther) near.add(spelling.symbol);
    }
  return near.size === 1 && near.has(symbol);
}
