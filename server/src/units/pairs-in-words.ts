/** Figures of running words that are said in two units: `140 N·m (103 lbf·ft)`, `2.5 bar, which is 36 psi`. */

import type { SpokenFigure } from './spoken';

export interface SpokenPair {
  readonly first: SpokenFigure;
  readonly second: SpokenFigure;
}

/** What stands between the two: nothing else may. */
const BETWEEN: ReadonlySet<string> = new Set([
  '(',
  '/',
  '=',
  ', or',
  'or',
  ', which is',
  'which is',
  ', that is',
  'that is',
]);

/** The pairs of a text, and its figures with the second of each pair left out. */
export function pairsInWords(
  text: string,
  figures: readonly SpokenFigure[],
): { readonly pairs: readonly SpokenPair[]; readonly single: readonly SpokenFigure[] } {
  const pairs: SpokenPair[] = [];
  const single: SpokenFigure[] = [];
  for (const figure of figures) {
    const before = single.at(-1);
    const isSecond =
      before !== undefined &&
      !pairs.some(({ first }) => first === before) &&
      before.quantity.dimension === figure.quantity.dimension &&
      before.quantity.symbol !== figure.quantity.symbol &&
      BETWEEN.has(text.slice(before.end, figure.start).trim());
    if (isSecond) pairs.push({ first: before, second: figure });
    else single.push(figure);
  }
  return { pairs, single };
}
