import { entries, follow, isMergeKey, keyName } from '../text/access';
import type { Node } from '../text/tree';
import type { Places } from './located';

/** Stands for a value that an alias names and nobody knows; it has been reported, so readers say nothing. */
export const UNKNOWN = Symbol('unknown');

/** A value of a document: texts, numbers, truth values, null, lists, maps without a prototype, and `UNKNOWN`. */
export type Value = string | number | boolean | null | typeof UNKNOWN | Value[] | { [key: string]: Value };

/** Values that one document may have when what aliases name is counted at every use. */
const MAX_VALUES = 400_000;
/** Lists and maps within one another, aliases followed. */
const MAX_DEPTH = 150;

export interface Converted {
  readonly value: Value;
  /** The alias at which the values grew beyond measure; from there on none is followed. */
  readonly grewAt: Node | null;
}

/** Makes plain values of a tree and remembers where each map and list is written. What an alias names is made anew at every use. */
export function convert(root: Node, places: Places): Converted {
  const { reading } = places;
  let left = MAX_VALUES;
  let grewAt: Node | null = null;

  const of = (written: Node, via: Node | null, depth: number): Value => {
    const node = follow(written, reading);
    if (node.kind === 'alias') return UNKNOWN;
    const through = written === node ? via : (via ?? written);
    if (through !== null && (left <= 0 || depth > MAX_DEPTH)) {
      grewAt ??= through;
      return UNKNOWN;
    }
    left--;
    if (node.kind === 'scalar') return node.value;
    if (depth > MAX_DEPTH) return UNKNOWN;
    if (node.kind === 'seq') {
      const list: Value[] = [];
      places.hold(list, node, through);
      for (const item of node.items ?? []) list.push(of(item, through, depth + 1));
      return list;
    }
    const map: { [key: string]: Value } = Object.create(null);
    places.hold(map, node, through);
    const keys = node.keys ?? [];
    if (keys.some(isMergeKey)) {
      for (const entry of entries(node, reading)) {
        const name = keyName(entry.key, reading)!;
        map[name] = of(
          entry.value,
          entry.merged ? (through ?? entry.written) : aliasOf(entry.written, through),
          depth + 1,
        );
      }
      return map;
    }
    for (let index = 0; index < keys.length; index++) {
      const name = keyName(keys[index]!, reading);
      // Of two equal keys the first counts; the second has been reported.
      if (name !== null && !(name in map)) map[name] = of(node.items![index]!, through, depth + 1);
    }
    return map;
  };
  return { value: of(root, null, 0), grewAt };
}

const aliasOf = (written: Node, via: Node | null): Node | null =>
  via ?? (written.kind === 'alias' ? written : null);
