import type { Diagram, Diagrams } from '../variants/diagram';

/** An amount that counts in the variants of a set. */
export interface Term {
  readonly set: Diagram;
  readonly amount: number;
  /** Goes with the amount; told for the variant where the sum is highest. */
  readonly variance: number;
}

/** Levels of the manager with the value each has, for those that move the sum; the first such variant where several tie. */
export type Choice = readonly { readonly level: number; readonly value: number }[];

export interface Extremes {
  readonly lowest: number;
  readonly highest: number;
  readonly varianceAtHighest: number;
  readonly lowestAt: Choice;
  readonly highestAt: Choice;
  /** False where conditions were too entangled to be told apart: the true figures then lie within these. */
  readonly exact: boolean;
}

/**
 * States that the sweep keeps side by side before it falls back to bounds. A state is a way in which the rest of the
 * conditions may still turn out; conditions that share no variable never multiply. At the bound a sweep takes about a
 * tenth of a second.
 */
export const STATE_BOUND = 4096;

/**
 * The least and the greatest value that a sum of conditional amounts has over the variants of a universe, exactly.
 *
 * Conditions that share no variable are apart: the extremes of the sum are the sums of their extremes. Within one group
 * the variables are swept in the order of the manager; two partial assignments that leave every condition the same are
 * one state. Past `STATE_BOUND` states the group gives bounds (each amount alone), and `exact` says so.
 *
 * @param universe a set, not empty; an empty one gives zeros.
 */
export function extremesOf(diagrams: Diagrams, terms: readonly Term[], universe: Diagram): Extremes {
  const sums = new Map<Diagram, { amount: number; variance: number }>();
  let amount = 0;
  let variance = 0;
  for (const term of terms) {
    const inside = diagrams.and(term.set, universe);
    if (inside === 0) continue;
    if (inside === universe) {
      amount += term.amount;
      variance += term.variance;
      continue;
    }
    const known = sums.get(term.set) ?? { amount: 0, variance: 0 };
    sums.set(term.set, { amount: known.amount + term.amount, variance: known.variance + term.variance });
  }
  const merged = [...sums]
    .map(([set, sum]) => ({ set, ...sum }))
    .filter((term) => term.amount !== 0 || term.variance !== 0);
  const result = { lowest: amount, highest: amount, varianceAtHighest: variance, exact: true };
  const lowestAt: { level: number; value: number }[] = [];
  const highestAt: { level: number; value: number }[] = [];
  const factors = factorsOf(diagrams, universe);
  for (const group of groupsOf(diagrams, merged, factors)) {
    const part = sweep(diagrams, group);
    result.lowest += part.lowest;
    result.highest += part.highest;
    result.varianceAtHighest += part.varianceAtHighest;
    result.exact &&= part.exact;
    lowestAt.push(...part.lowestAt);
    highestAt.push(...part.highestAt);
  }
  const inOrder = (choice: { level: number; value: number }[]) => choice.sort((a, b) => a.level - b.level);
  return { ...result, lowestAt: inOrder(lowestAt), highestAt: inOrder(highestAt) };
}

/**
 * Which of some sets hold in one variant of a universe, as a choice of `extremesOf` over them says it.
 * Without a choice that tells all (`exact` false), those that hold in every variant, or in any.
 */
export function holdingAt(
  diagrams: Diagrams,
  sets: readonly Diagram[],
  universe: Diagram,
  extremes: Extremes,
  end: 'lowest' | 'highest',
): boolean[] {
  const assignment: number[] = new Array(diagrams.arities.length).fill(0);
  for (const { level, value } of end === 'lowest' ? extremes.lowestAt : extremes.highestAt)
    assignment[level] = value;
  return sets.map((set) => {
    const inside = diagrams.and(set, universe);
    if (inside === 0 || inside === universe) return inside !== 0;
    return extremes.exact ? diagrams.evaluate(set, assignment) !== 0 : end === 'highest';
  });
}

interface Group {
  readonly levels: readonly number[];
  readonly terms: readonly Term[];
  /** The factors of the universe that speak of these levels. */
  readonly within: readonly Diagram[];
}

/** The universe as a conjunction of sets that share no variable: what each variable alone allows, and one rest. */
function factorsOf(diagrams: Diagrams, universe: Diagram): Diagram[] {
  const factors: Diagram[] = [];
  let rest = universe;
  for (const level of diagrams.support(universe)) {
    const without = restrictions(diagrams, rest, level);
    const allowed = without.flatMap((restricted, value) => (restricted === 0 ? [] : [value]));
    const first = without[allowed[0] ?? 0];
    if (first === undefined || allowed.some((value) => without[value] !== first)) continue;
    factors.push(diagrams.literal(level, allowed));
    rest = first;
  }
  if (rest !== 1) factors.push(rest);
  return factors;
}

/** A diagram where the variable of a level has each of its values. */
function restrictions(diagrams: Diagrams, f: Diagram, level: number): Diagram[] {
  const arity = diagrams.arities[level]!;
  return Array.from({ length: arity }, (_, value) => {
    const known = new Map<Diagram, Diagram>();
    const restricted = (at: Diagram): Diagram => {
      const top = diagrams.levelOf(at);
      if (top > level) return at;
      if (top === level) return diagrams.child(at, value);
      const before = known.get(at);
      if (before !== undefined) return before;
      const children = Array.from({ length: diagrams.arities[top]! }, (_, kid) =>
        restricted(diagrams.child(at, kid)),
      );
      const made = diagrams.node(top, children);
      known.set(at, made);
      return made;
    };
    return restricted(f);
  });
}

/** Terms whose conditions are tied by shared variables, directly, through each other or through a factor. */
function groupsOf(diagrams: Diagrams, terms: readonly Term[], factors: readonly Diagram[]): Group[] {
  const leader = new Map<number, number>();
  const find = (level: number): number => {
    let at = level;
    while ((leader.get(at) ?? at) !== at) at = leader.get(at)!;
    return at;
  };
  const tie = (levels: readonly number[]): void => {
    for (const level of levels) if (!leader.has(level)) leader.set(level, level);
    for (const level of levels.slice(1)) leader.set(find(level), find(levels[0]!));
  };
  for (const set of [...terms.map((term) => term.set), ...factors]) tie(diagrams.support(set));
  const groups = new Map<number, { levels: number[]; terms: Term[]; within: Diagram[] }>();
  for (const term of terms) {
    const root = find(diagrams.support(term.set)[0]!);
    const group = groups.get(root) ?? { levels: [], terms: [], within: [] };
    groups.set(root, group);
    group.terms.push(term);
  }
  for (const level of leader.keys()) groups.get(find(level))?.levels.push(level);
  for (const factor of factors) groups.get(find(diagrams.support(factor)[0]!))?.within.push(factor);
  return [...groups.values()].map((group) => ({ ...group, levels: group.levels.sort((a, b) => a - b) }));
}

interface Path {
  readonly level: number;
  readonly value: number;
  readonly before: Path | null;
}

interface State {
  /** What is left of each term's set and, after them, of each factor. */
  readonly left: readonly Diagram[];
  lowest: number;
  highest: number;
  variance: number;
  lowPath: Path | null;
  highPath: Path | null;
}

function sweep(diagrams: Diagrams, group: Group): Extremes {
  const count = group.terms.length;
  let states: State[] = [
    {
      left: [...group.terms.map((term) => term.set), ...group.within],
      lowest: 0,
      highest: 0,
      variance: 0,
      lowPath: null,
      highPath: null,
    },
  ];
  for (const level of group.levels) {
    const next = new Map<string, State>();
    for (const state of states) {
      for (let value = 0; value < diagrams.arities[level]!; value++) {
        let amount = 0;
        let variance = 0;
        let outside = false;
        const left = state.left.map((set, index) => {
          if (diagrams.levelOf(set) !== level) return set;
          const child = diagrams.child(set, value);
          if (index >= count) outside ||= child === 0;
          else if (child === 1) {
            amount += group.terms[index]!.amount;
            variance += group.terms[index]!.variance;
          }
          // What is decided is counted and forgotten, so that states merge.
          return child === 1 ? 0 : child;
        });
        if (outside) continue;
        join(next, left, {
          left,
          lowest: state.lowest + amount,
          highest: state.highest + amount,
          variance: state.variance + variance,
          lowPath: { level, value, before: state.lowPath },
          highPath: { level, value, before: state.highPath },
        });
        if (next.size > STATE_BOUND) return bounds(group);
      }
    }
    states = [...next.values()];
  }
  const end = states[0];
  if (end === undefined) return { ...NOTHING };
  return {
    lowest: end.lowest,
    highest: end.highest,
    varianceAtHighest: end.variance,
    lowestAt: choiceOf(end.lowPath),
    highestAt: choiceOf(end.highPath),
    exact: true,
  };
}

const NOTHING: Extremes = {
  lowest: 0,
  highest: 0,
  varianceAtHighest: 0,
  lowestAt: [],
  highestAt: [],
  exact: true,
};

function join(states: Map<string, State>, left: readonly Diagram[], made: State): void {
  const key = left.join(' ');
  const known = states.get(key);
  if (known === undefined) {
    states.set(key, made);
    return;
  }
  if (made.lowest < known.lowest) {
    known.lowest = made.lowest;
    known.lowPath = made.lowPath;
  }
  if (made.highest > known.highest || (made.highest === known.highest && made.variance > known.variance)) {
    known.highest = made.highest;
    known.variance = made.variance;
    known.highPath = made.highPath;
  }
}

function choiceOf(path: Path | null): Choice {
  const choice: { level: number; value: number }[] = [];
  for (let at = path; at !== null; at = at.before) choice.push({ level: at.level, value: at.value });
  return choice.reverse();
}

function bounds(group: Group): Extremes {
  let lowest = 0;
  let highest = 0;
  let variance = 0;
  for (const term of group.terms) {
    lowest += Math.min(0, term.amount);
    highest += Math.max(0, term.amount);
    variance += term.variance;
  }
  return { lowest, highest, varianceAtHighest: variance, lowestAt: [], highestAt: [], exact: false };
}
