// A seeded source of choices: the same seed, the same project.

export interface Random {
  /** A number from 0 (inclusive) to `below` (exclusive). */
  below: (below: number) => number;
  /** Whether something with this chance happens. */
  chance: (chance: number) => boolean;
  /** One of a list. */
  one: <T>(from: readonly T[]) => T;
  /** Between `least` and `most` of a list, in its order. */
  some: <T>(from: readonly T[], least: number, most: number) => T[];
}

/** The mulberry32 generator, from memory: small, and good enough to spread choices. */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const below = (limit: number): number => Math.floor(next() * limit);
  const one = <T>(from: readonly T[]): T => from[below(from.length)]!;
  return {
    below,
    chance: (chance) => next() < chance,
    one,
    some: (from, least, most) => {
      const wanted = Math.min(from.length, least + below(most - least + 1));
      const picked = new Set<number>();
      while (picked.size < wanted) picked.add(below(from.length));
      return from.filter((_, index) => picked.has(index));
    },
  };
}
