import type { Place } from '../findings/finding';
import { entries, find, keyName } from '../text/access';
import type { Entry, Node, Reading } from '../text/tree';

/** Where the values of a document are written. Objects and lists are known by identity. */
export interface Located {
  readonly uri: string;
  /** Where a map or a list itself is written; under an alias: at its anchor. */
  object(holder: object): Place;
  /** The key of a map. For a pair that came through a merge: where the merge is written. */
  key(holder: object, key: string): Place;
  /** A value, as it is written at this use: the alias or the merge, where it came through one. */
  value(holder: object, key: string | number): Place;
  /** Where a value that came through an alias or a merge is written itself; else null. */
  origin(holder: object, key: string | number): Place | null;
  /** The alias or merge by which this copy was reached, the outermost one; null for what is written here. */
  use(holder: object): Place | null;
  /** A short place that stands for the whole: the first key of a map, else the thing itself. */
  header(holder: object): Place;
  /** The keys of a map in the order they are written, those of merges last, dropped ones left out. */
  keys(holder: object): readonly string[];
  /** The index of a list's element as it is written, counted from 0, dropped ones counted. */
  writtenIndex(list: object, index: number): number;
  /** The node that a map or list was read from, null where there is none. */
  node(holder: object): Node | null;
}

/** What is known of one map or list. */
export interface Holding {
  readonly node: Node;
  readonly via: Node | null;
  /** Lists of which elements were dropped: the written index of each that is left. */
  indexes: readonly number[] | null;
  /** Maps of many keys: their pairs by name, once they were asked for. */
  pairs: ReadonlyMap<string, Entry> | null;
}

/** Maps of more keys are indexed before a pair is looked for, so that asking for each is not quadratic. */
const MANY_KEYS = 12;

/** The places of a document's values. Only `convert` and the checks of structure write to `holdings`. */
export class Places implements Located {
  readonly holdings = new Map<object, Holding>();

  constructor(
    readonly uri: string,
    readonly reading: Reading,
  ) {}

  hold(holder: object, node: Node, via: Node | null): void {
    this.holdings.set(holder, { node, via, indexes: null, pairs: null });
  }

  place(node: Node): Place {
    return { uri: this.uri, span: { start: node.start, end: node.end } };
  }

  node(holder: object): Node | null {
    return this.holdings.get(holder)?.node ?? null;
  }

  object(holder: object): Place {
    return this.place(this.node(holder) ?? this.rootNode());
  }

  key(holder: object, key: string): Place {
    const entry = this.entry(holder, key);
    if (entry) return this.place(entry.merged ? entry.written : entry.key);
    return this.header(holder);
  }

  value(holder: object, key: string | number): Place {
    const written = this.written(holder, key);
    return written ? this.place(written) : this.header(holder);
  }

  origin(holder: object, key: string | number): Place | null {
    if (typeof key === 'string') {
      const entry = this.entry(holder, key);
      return entry && (entry.merged || entry.written.kind === 'alias') ? this.place(entry.value) : null;
    }
    const written = this.written(holder, key);
    const target = written?.kind === 'alias' ? this.reading.targets.get(written) : undefined;
    return target ? this.place(target) : null;
  }

  use(holder: object): Place | null {
    const via = this.holdings.get(holder)?.via;
    return via ? this.place(via) : null;
  }

  header(holder: object): Place {
    const node = this.node(holder);
    const first = node?.kind === 'map' ? node.keys?.[0] : undefined;
    return this.place(first && first.end > first.start ? first : (node ?? this.rootNode()));
  }

  keys(holder: object): readonly string[] {
    const node = this.node(holder);
    if (node?.kind !== 'map') return Object.keys(holder);
    const names: string[] = [];
    for (const entry of entries(node, this.reading)) {
      const name = keyName(entry.key, this.reading);
      if (name !== null && Object.hasOwn(holder, name)) names.push(name);
    }
    return names;
  }

  writtenIndex(list: object, index: number): number {
    return this.holdings.get(list)?.indexes?.[index] ?? index;
  }

  /** True when the holder overlaps a piece that could not be read whole. */
  damaged(holder: object): boolean {
    const { damaged } = this.reading;
    if (damaged.length === 0) return false;
    const node = this.node(holder) ?? this.rootNode();
    // What could not be read may have held anything of the document itself.
    if (node === this.rootNode()) return true;
    return damaged.some((piece) => piece.start < node.end && node.start < piece.end);
  }

  /** True when the holder overlaps a piece that could not be read whole, or the next thing after it is one. */
  cutShort(holder: object, source: string | null): boolean {
    if (this.damaged(holder)) return true;
    const end = this.node(holder)?.end ?? 0;
    return this.reading.damaged.some(
      (piece) => piece.start >= end && source !== null && source.slice(end, piece.start).trim() === '',
    );
  }

  /** True when a place lies in a piece that could not be read whole: what is odd there may be an echo. */
  inDamage(place: Place): boolean {
    return this.reading.damaged.some(
      (piece) => piece.start <= place.span.start && place.span.end <= piece.end,
    );
  }

  private entry(holder: object, key: string): Entry | undefined {
    const holding = this.holdings.get(holder);
    if (holding?.node.kind !== 'map') return undefined;
    if ((holding.node.keys?.length ?? 0) <= MANY_KEYS) return find(holding.node, key, this.reading);
    holding.pairs ??= new Map(
      entries(holding.node, this.reading).map((entry) => [keyName(entry.key, this.reading) ?? '', entry]),
    );
    return holding.pairs.get(key);
  }

  /** The node of a value as it is written at this use. */
  written(holder: object, key: string | number): Node | null {
    if (typeof key === 'string') return this.entry(holder, key)?.written ?? null;
    const node = this.node(holder);
    // One thing where a list may stand was made a list of one: the element is the thing itself.
    if (node?.kind !== 'seq') return key === 0 ? node : null;
    return node.items?.[this.writtenIndex(holder, key)] ?? null;
  }

  private rootNode(): Node {
    return this.reading.root ?? NOWHERE;
  }
}

const NOWHERE: Node = {
  kind: 'scalar',
  start: 0,
  end: 0,
  value: null,
  style: 'plain',
  tag: null,
  anchor: null,
  keys: null,
  items: null,
};
