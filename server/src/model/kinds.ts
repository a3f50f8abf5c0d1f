/** Kinds of part and line: what packs and a file say of them, with their ancestors merged in. */

import { attributesOf } from './attributes';
import { type Body, bodyOf, bodyWithout, EMPTY, flagOf, mergeBodies, textOf, textsOf } from './body';
import { figureOf } from './measures';
import type { Kind } from './model';
import { Cursor, entriesAt, type OpenDocument } from './source';

/** Longer lines of descent are cut; nobody reads them and every kind carries its whole line. */
export const MOST_ANCESTORS = 64;

/** A kind's own words are not its children's. */
const NOT_INHERITED: ReadonlySet<string> = new Set(['words', 'kind', 'like', 'note']);

export interface MergedKind extends Kind {
  /** Everything that holds for a part of this kind. */
  readonly body: Body;
}

/** The kinds that the parts of one file may have. */
export class KindTable {
  /** What is said under each name, packs first, ancestors not merged in. */
  private readonly own = new Map<string, Body>();
  private readonly merged = new Map<string, MergedKind>();
  private readonly byWord = new Map<string, string>();
  private every: ReadonlyMap<string, Kind> | null = null;

  /**
   * @param documents in the order in which they add to each other: packs, then the file.
   * @param beside kinds that may be named though the file does not have them: for a kit, its vehicle's.
   * @param packs the kinds of the packs, where they have been read and are not among the documents.
   */
  constructor(
    documents: readonly OpenDocument[],
    beside: KindTable | null = null,
    packs: KindTable | null = null,
  ) {
    for (const table of [beside, packs])
      for (const name of table?.names ?? []) this.own.set(name, table!.own.get(name)!);
    const first = new Set<string>(packs?.names);
    for (const document of documents) {
      for (const [name, cursor] of entriesAt(Cursor.of(document), 'kinds')) {
        if (!cursor.isMap) continue;
        // What the vehicle adds to a kind of the packs holds in its own file alone.
        const before = first.has(name) ? this.own.get(name)! : EMPTY;
        first.add(name);
        this.own.set(name, mergeBodies(before, bodyOf(cursor)));
      }
    }
    for (const [name, body] of this.own) {
      for (const word of textsOf(body, 'words')) if (!this.byWord.has(word)) this.byWord.set(word, name);
    }
  }

  /** The kinds of some documents over those of the packs: the table of the packs itself where the documents add none. */
  static over(documents: readonly OpenDocument[], beside: KindTable | null, packs: KindTable): KindTable {
    const adds = documents.some((document) => entriesAt(Cursor.of(document), 'kinds').length > 0);
    return adds || (beside ?? packs) !== packs ? new KindTable(documents, beside, packs) : packs;
  }

  get names(): Iterable<string> {
    return this.own.keys();
  }

  /** Whether it is a kind's name or one of a kind's words. */
  has(name: string): boolean {
    return this.own.has(name) || this.byWord.has(name);
  }

  /** Every name and word by which a kind may be written. */
  get written(): string[] {
    return [...this.own.keys(), ...this.byWord.keys()];
  }

  /** The kind that a name or word stands for; the name itself where no kind has it. */
  nameOf(written: string): string {
    return this.own.has(written) ? written : (this.byWord.get(written) ?? written);
  }

  /** What is said under the name itself. */
  ownBody(name: string): Body | null {
    return this.own.get(name) ?? null;
  }

  /** The name of the base that a kind gives, null where it gives none. */
  baseOf(name: string): string | null {
    const body = this.own.get(name);
    const base = body === undefined ? null : textOf(body, 'kind');
    return base === null ? null : this.nameOf(base);
  }

  /** A kind by its name or one of its words, with its ancestors merged in; null where nobody declares it. A circle of bases is cut where it closes. */
  get(written: string): MergedKind | null {
    const name = this.nameOf(written);
    const chain: string[] = [];
    const onChain = new Set<string>();
    for (let at: string | null = name; at !== null && this.own.has(at); at = this.baseOf(at)) {
      if (this.merged.has(at) || onChain.has(at)) break;
      onChain.add(at);
      chain.push(at);
    }
    for (let index = chain.length - 1; index >= 0; index--) this.merge(chain[index]!);
    return this.merged.get(name) ?? null;
  }

  /** Merges a kind onto its base, which has been merged before unless a circle was cut there. */
  private merge(name: string): void {
    const own = this.own.get(name)!;
    const base = this.merged.get(this.baseOf(name) ?? '');
    const line = [name, ...(base?.line ?? [])].slice(0, MOST_ANCESTORS);
    const body = mergeBodies(base?.body ?? EMPTY, bodyWithout(own, NOT_INHERITED));
    const lineType = textOf(body, 'line-type');
    this.merged.set(name, {
      name,
      line,
      words: textsOf(own, 'words'),
      // The pack's `line` is the ancestor of hoses and leads that carry nothing a rule asks for.
      forLines: lineType !== null || line.includes('line'),
      attributes: attributesOf(body, line),
      lineType,
      sided: flagOf(body, 'sided'),
      mass: figureOf(body, 'mass', 'mass'),
      body,
    });
  }

  /** The kind that a name speaks of: the longest run of its last words that is a kind's name or one of its words. */
  guess(name: string): MergedKind | null {
    let start = 0;
    for (;;) {
      const words = name.slice(start);
      const kind = this.own.has(words) ? words : this.byWord.get(words);
      if (kind !== undefined) return this.get(kind);
      const dash = name.indexOf('-', start);
      if (dash < 0) return null;
      start = dash + 1;
    }
  }

  all(): ReadonlyMap<string, Kind> {
    this.every ??= new Map([...this.own.keys()].map((name) => [name, this.get(name)!]));
    return this.every;
  }
}
