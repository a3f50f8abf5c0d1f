/** Of a row of things that stands in another order: the fewest that must be moved. */

/**
 * The places in a row, each once, that may stay where they are: the heaviest rising run. The rest has moved.
 * @param order the new place of each thing, in the old order.
 * @param weight what it costs to move a thing; light ones move before heavy ones.
 */
export function staying(order: readonly number[], weight: (index: number) => number = () => 1): Set<number> {
  const places = [...order].sort((a, b) => a - b);
  const rank = new Map(places.map((place, index) => [place, index + 1]));
  // For each new place the heaviest run that ends at it or before, in a tree of prefixes.
  const best: { readonly sum: number; readonly index: number }[] = new Array(places.length + 1).fill({
    sum: 0,
    index: -1,
  });
  const before: number[] = [];
  let heaviest = { sum: 0, index: -1 };
  order.forEach((place, index) => {
    let run = { sum: 0, index: -1 };
    for (let at = rank.get(place)! - 1; at > 0; at -= at & -at) if (best[at]!.sum > run.sum) run = best[at]!;
    before.push(run.index);
    const mine = { sum: run.sum + weight(index), index };
    for (let at = rank.get(place)!; at <= places.length; at += at & -at)
      if (mine.sum > best[at]!.sum) best[at] = mine;
    if (mine.sum > heaviest.sum) heaviest = mine;
  });
  const kept = new Set<number>();
  for (let at = heaviest.index; at >= 0; at = before[at]!) kept.add(at);
  return kept;
}
