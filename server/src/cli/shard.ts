import type { Project } from '../workspace/project';
import { UsageError } from './io';

/** One of several equal shares of a check. */
export interface Shard {
  /** From 1. */
  readonly number: number;
  readonly of: number;
}

const MOST_SHARDS = 1000;

/** Reads `2/5`. */
export function shardOf(written: string | undefined): Shard | null {
  if (written === undefined) return null;
  const [, number, of] = /^([0-9]{1,4})\/([0-9]{1,4})$/.exec(written) ?? [];
  const shard = { number: Number(number), of: Number(of) };
  if (!(shard.number >= 1 && shard.of <= MOST_SHARDS && shard.number <= shard.of))
    throw new UsageError(`--shard takes a share such as 2/5, the second of five; "${written}" is none.`);
  return shard;
}

/**
 * The share of some documents that a shard checks. The longest go first, each to the shard that has least by then: all have about
 * as much text, and the same files give the same shares on every machine.
 */
export async function shareOf(
  project: Project,
  names: readonly string[],
  { number, of }: Shard,
): Promise<ReadonlySet<string>> {
  const sized: { name: string; size: number }[] = [];
  for (const name of names) sized.push({ name, size: (await project.open(name))?.text.length ?? 0 });
  sized.sort((a, b) => b.size - a.size || (a.name < b.name ? -1 : 1));
  const loads = new Array<number>(of).fill(0);
  const share = new Set<string>();
  for (const { name, size } of sized) {
    const least = loads.indexOf(Math.min(...loads));
    // An empty file is something to do too.
    loads[least]! += size + 1;
    if (least === number - 1) share.add(name);
  }
  return share;
}
