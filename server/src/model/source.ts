/** A way to walk through an opened document that keeps, with every value, where it is written. */

import type { Place, Span } from '../findings/finding';
import type { OpenDocument } from '../schema/document';
import { isMergeKey } from '../text/access';
import type { Node } from '../text/tree';
import type { Known } from './known';

export type { OpenDocument } from '../schema/document';

/** What binding may ask for other documents by; `workspace/` hands it in. */
export interface Library {
  /** The document with this uri, null where there is none. */
  document(uri: string): OpenDocument | null;
  /** The uri that a path written in the document `from` leads to. */
  resolve(from: string, path: string): string;
  /** Of a uri that leads nowhere: the last part of the name of a file beside it that is likely meant; null where none is. */
  meant?(uri: string): string | null;
  /** Whether a picture of this name is not there. */
  isLost?(uri: string): boolean;
  /** Rule packs in order: the base pack first, then the house's own. */
  readonly packs: readonly OpenDocument[];
  /** What these packs say, kept from one binding to the next; without it every binding reads them anew. */
  readonly known?: Known;
  /** Vehicles known to the project; a kit's references are held against those it is `for`. */
  readonly vehicles?: readonly OpenDocument[];
}

type Key = string | number;

/** Where a pair of a map is written, known without a search. */
interface Written {
  readonly key: Node;
  readonly value: Node;
}

/** A value in a document. Maps and lists are entered with `get`, `entries` and `items`. */
export class Cursor {
  /** Read once, when they are asked for. */
  private pairs: readonly (readonly [string, Cursor])[] | null = null;

  private constructor(
    readonly document: OpenDocument,
    private readonly holder: object | null,
    private readonly key: Key,
    readonly value: unknown,
    private readonly written: Written | null,
  ) {}

  /** The document's root. */
  static of(document: OpenDocument): Cursor {
    return new Cursor(document, null, '', document.value, null);
  }

  get isMap(): boolean {
    return typeof this.value === 'object' && this.value !== null && !Array.isArray(this.value);
  }

  get isList(): boolean {
    return Array.isArray(this.value);
  }

  /** The value under a key of a map; null where there is none. */
  get(key: string): Cursor | null {
    if (!this.isMap || !Object.hasOwn(this.value as object, key)) return null;
    const value = (this.value as Record<string, unknown>)[key];
    return isNothing(value) ? null : new Cursor(this.document, this.value as object, key, value, null);
  }

  /** The pairs of a map in the order in which they are written; none for anything else. */
  entries(): readonly (readonly [string, Cursor])[] {
    if (!this.isMap) return NO_PAIRS;
    this.pairs ??= this.readPairs();
    return this.pairs;
  }

  private readPairs(): (readonly [string, Cursor])[] {
    const map = this.value as Record<string, unknown>;
    const pairs: (readonly [string, Cursor])[] = [];
    const add = (key: string, written: Written | null): void => {
      const value = map[key];
      if (!isNothing(value)) pairs.push([key, new Cursor(this.document, map, key, value, written)]);
    };
    const written = plainPairs(this.document.at.node(map));
    if (written === null) for (const key of this.document.at.keys(map)) add(key, null);
    else for (const [key, pair] of written) if (Object.hasOwn(map, key)) add(key, pair);
    return pairs;
  }

  /** The values of a list, or the one value that stands for a list of one. */
  items(): Cursor[] {
    if (isNothing(this.value)) return [];
    const list = this.value;
    if (!Array.isArray(list)) return [this];
    const items: Cursor[] = [];
    list.forEach((value, index) => {
      if (!isNothing(value)) items.push(new Cursor(this.document, list, index, value, null));
    });
    return items;
  }

  /** A scalar as text, null for maps, lists and nothing. */
  get text(): string | null {
    const { value } = this;
    if (typeof value === 'string') return value;
    return typeof value === 'number' || typeof value === 'boolean' ? String(value) : null;
  }

  /** The scalars of a list (or the one scalar) as text. */
  get texts(): string[] {
    return this.items().flatMap((item) => item.text ?? []);
  }

  /** The number of this element of a list as it is written, from 0. */
  get writtenIndex(): number {
    const { holder, key } = this;
    return holder === null || typeof key === 'string' ? 0 : this.document.at.writtenIndex(holder, key);
  }

  get place(): Place {
    if (this.holder === null) return this.document.at.header(this.value as object);
    return this.written ? this.placeOf(this.written.value) : this.document.at.value(this.holder, this.key);
  }

  get span(): Span {
    return this.place.span;
  }

  /** The key that this value stands under; null for a list's element and the root. */
  get keyText(): string | null {
    return this.holder === null || typeof this.key === 'number' ? null : this.key;
  }

  /** Where the key that this value stands under is written; of a list's element, the element. */
  get keyPlace(): Place {
    if (this.holder === null || typeof this.key === 'number') return this.place;
    return this.written ? this.placeOf(this.written.key) : this.document.at.key(this.holder, this.key);
  }

  /** A short place that stands for a whole map: its first key. */
  get header(): Place {
    return this.isMap || this.isList ? this.document.at.header(this.value as object) : this.place;
  }

  /** Where a character of a text stands in the document; null where the text is not written as it reads (escapes, folded lines). */
  offsetOf(index: number): number | null {
    const node = this.scalarNode();
    if (node === null || typeof this.value !== 'string') return null;
    const quotes = node.style === 'single' || node.style === 'double' ? 1 : 0;
    if ((node.style !== 'plain' && quotes === 0) || node.end - node.start - 2 * quotes !== this.value.length)
      return null;
    return node.start + quotes + index;
  }

  private scalarNode(): Node | null {
    if (this.written !== null) return this.written.value.kind === 'scalar' ? this.written.value : null;
    if (this.holder === null) return null;
    const holder = this.document.at.node(this.holder);
    const index =
      typeof this.key === 'number'
        ? this.document.at.writtenIndex(this.holder, this.key)
        : (holder?.keys?.findIndex((key) => key.value === this.key) ?? -1);
    const node = holder?.kind === 'scalar' ? holder : holder?.items?.[index];
    return node?.kind === 'scalar' ? node : null;
  }

  private placeOf(node: Node): Place {
    return { uri: this.document.uri, span: { start: node.start, end: node.end } };
  }
}

/** Values that an alias names and nobody knows are symbols; like nothing at all, they have been reported. */
const isNothing = (value: unknown): boolean =>
  value === null || value === undefined || typeof value === 'symbol';

/** The pairs of a map by name, so that none of thousands is searched for; null where keys come by a merge or an alias. */
function plainPairs(node: Node | null): ReadonlyMap<string, Written> | null {
  if (node?.kind !== 'map' || node.keys === null || node.items === null) return null;
  const pairs = new Map<string, Written>();
  for (let index = 0; index < node.keys.length; index++) {
    const key = node.keys[index]!;
    if (key.kind !== 'scalar' || key.value === null || isMergeKey(key)) return null;
    const name = String(key.value);
    if (!pairs.has(name)) pairs.set(name, { key, value: node.items[index]! });
  }
  return pairs;
}

const NO_PAIRS: readonly (readonly [string, Cursor])[] = [];

/** A value under a key as text, null where it is none. */
export const textAt = (cursor: Cursor, key: string): string | null => cursor.get(key)?.text ?? null;
/** The texts of a list or single value under a key. */
export const textsAt = (cursor: Cursor, key: string): string[] => cursor.get(key)?.texts ?? [];
/** The items of a list or single value under a key. */
export const itemsAt = (cursor: Cursor, key: string): Cursor[] => cursor.get(key)?.items() ?? [];
/** The pairs of a map under a key. */
export const entriesAt = (cursor: Cursor, key: string): readonly (readonly [string, Cursor])[] =>
  cursor.get(key)?.entries() ?? [];
