import type { Entry, Item, Node, Reading } from './tree';

/**
 * The reader's view of a tree. Nothing is expanded beforehand: each call looks one level deep, an alias is followed
 * when it is met, and a document that would grow without measure has no aliases to follow (`alias-bomb`).
 */

/**
 * The value that a node stands for: an alias gives what it names, anything else itself. An alias that is unknown,
 * circular or refused gives itself; it has been reported, so readers take kind `alias` as "not known" and say nothing.
 */
export function follow(node: Node, reading: Reading): Node {
  return node.kind === 'alias' ? (reading.targets.get(node) ?? node) : node;
}

/** The values of a list in their order; none for anything but a list. */
export function items(list: Node, reading: Reading): Item[] {
  const followed = follow(list, reading);
  if (followed.kind !== 'seq' || followed.items === null) return [];
  return followed.items.map((written) => ({ value: follow(written, reading), written }));
}

/**
 * The pairs of a map, merge keys (`<<`) expanded: its own first, in their order, then what it merges. A key stands once:
 * the map's own wins over merged ones, an earlier source over a later one, the first of two equal keys over the second.
 * None for anything but a map.
 */
export function entries(map: Node, reading: Reading): Entry[] {
  const found = new Map<string, Entry>();
  const seen = new Set<Node>();
  // A stack, not recursion: a chain of maps, each merging the next, may be long.
  const waiting: { map: Node; source: Node | null }[] = [{ map: follow(map, reading), source: null }];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { map: current, source } = next;
    if (current.kind !== 'map' || current.keys === null || current.items === null || seen.has(current))
      continue;
    seen.add(current);
    const merges: { map: Node; source: Node }[] = [];
    for (let index = 0; index < current.keys.length; index++) {
      const key = current.keys[index]!;
      const item = current.items[index]!;
      if (isMergeKey(key)) {
        for (const merged of mergeSources(item, reading)) {
          merges.push({ map: merged.value, source: source ?? merged.written });
        }
        continue;
      }
      const name = keyName(key, reading);
      if (name === null || found.has(name)) continue;
      found.set(name, {
        key,
        value: follow(item, reading),
        written: source ?? item,
        merged: source !== null,
      });
    }
    for (const merge of merges.reverse()) waiting.push(merge);
  }
  return [...found.values()];
}

/** The pair of a map with this key, merges included; undefined when there is none. */
export function find(map: Node, key: string, reading: Reading): Entry | undefined {
  const followed = follow(map, reading);
  if (followed.kind !== 'map' || followed.keys === null) return undefined;
  let merges = false;
  for (let index = 0; index < followed.keys.length; index++) {
    const node = followed.keys[index]!;
    if (isMergeKey(node)) merges = true;
    else if (keyName(node, reading) === key) {
      const written = followed.items![index]!;
      return { key: node, value: follow(written, reading), written, merged: false };
    }
  }
  return merges ? entries(followed, reading).find((entry) => keyName(entry.key, reading) === key) : undefined;
}

/** A key as readers name it: text as it is, numbers and truth values as text; null for what cannot name anything. */
export function keyName(key: Node, reading: Reading): string | null {
  const node = follow(key, reading);
  return node.kind === 'scalar' && node.value !== null ? String(node.value) : null;
}

/** True for `<<` written plainly: a quoted one is an ordinary key. */
export function isMergeKey(key: Node): boolean {
  return (
    key.kind === 'scalar' &&
    key.value === '<<' &&
    key.style === 'plain' &&
    (key.tag === null || key.tag === MERGE_TAG)
  );
}

const MERGE_TAG = 'tag:yaml.org,2002:merge';

/** What a merge key brings in, in order of precedence. */
function mergeSources(value: Node, reading: Reading): Item[] {
  const followed = follow(value, reading);
  // A list of sources that is itself written here names each source; one behind an alias is written at the alias.
  if (followed.kind === 'seq') {
    return items(followed, reading).map((item) =>
      value.kind === 'alias' ? { ...item, written: value } : item,
    );
  }
  return [{ value: followed, written: value }];
}

/**
 * Visits a node and everything written beneath it, keys included, in document order. Aliases are handed over unfollowed,
 * so that each place is visited once.
 */
export function walk(node: Node, visit: (node: Node) => void): void {
  visit(node);
  if (node.items === null) return;
  for (let index = 0; index < node.items.length; index++) {
    const key = node.keys?.[index];
    if (key) walk(key, visit);
    walk(node.items[index]!, visit);
  }
}
