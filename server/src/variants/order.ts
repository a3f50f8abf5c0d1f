/** Groups larger than this link only neighbours: all pairs of a hostile condition would be too many. */
const PAIRED_GROUP = 12;

/**
 * An order of the variables in which those that conditions use together stand together, which keeps diagrams small:
 * ten pairs `a1 = b1` to `a10 = b10` declared apart cost some 2,000 nodes, side by side some 20.
 * The strongest links are laid first, as links of chains; chains that touch stay neighbours.
 * Deterministic: ties go by the declared order. With nothing to link, the declared order comes back.
 *
 * @param variables names in declared order, without doubles.
 * @param groups names that are used together; unknown names are left out.
 */
export function orderVariables(
  variables: readonly string[],
  groups: readonly (readonly string[])[],
): string[] {
  const places = new Map(variables.map((name, place) => [name, place]));
  const links = weighedLinks(groups, places, variables.length);
  const chainOf = variables.map((_, place) => [place]);
  const region = variables.map((_, place) => place);
  const regionOf = (place: number): number => {
    let at = place;
    while (region[at] !== at) {
      region[at] = region[region[at]!]!;
      at = region[at]!;
    }
    return at;
  };
  for (const { a, b } of links) {
    const [low, high] = [regionOf(a), regionOf(b)].sort((x, y) => x - y) as [number, number];
    region[high] = low;
    const chainA = chainOf[a]!;
    const chainB = chainOf[b]!;
    if (chainA === chainB || !isEnd(chainA, a) || !isEnd(chainB, b)) continue;
    const left = chainA[chainA.length - 1] === a ? chainA : chainA.reverse();
    const right = chainB[0] === b ? chainB : chainB.reverse();
    const joined = [...left, ...right];
    for (const place of joined) chainOf[place] = joined;
  }
  const chains = [...new Set(chainOf)].map((chain) => {
    const turned = chain[0]! > chain[chain.length - 1]! ? chain.reverse() : chain;
    return { chain: turned, first: Math.min(...turned), region: regionOf(turned[0]!) };
  });
  chains.sort((x, y) => x.region - y.region || x.first - y.first);
  return chains.flatMap(({ chain }) => chain.map((place) => variables[place]!));
}

const isEnd = (chain: readonly number[], place: number): boolean =>
  chain[0] === place || chain[chain.length - 1] === place;

interface Link {
  readonly a: number;
  readonly b: number;
  weight: number;
}

function weighedLinks(
  groups: readonly (readonly string[])[],
  places: ReadonlyMap<string, number>,
  count: number,
): Link[] {
  const links = new Map<number, Link>();
  const link = (x: number, y: number, weight: number): void => {
    const [a, b] = x < y ? [x, y] : [y, x];
    const key = a * count + b;
    const known = links.get(key);
    if (known) known.weight += weight;
    else links.set(key, { a, b, weight });
  };
  for (const group of groups) {
    const known = [...new Set(group.flatMap((name) => places.get(name) ?? []))].sort((x, y) => x - y);
    for (let i = 1; i < known.length; i++) {
      // A pair alone binds more than a pair within a crowd.
      const from = known.length > PAIRED_GROUP ? i - 1 : 0;
      for (let j = from; j < i; j++) link(known[j]!, known[i]!, 1 / (known.length - 1));
    }
  }
  return [...links.values()].sort((x, y) => y.weight - x.weight || x.a - y.a || x.b - y.b);
}
