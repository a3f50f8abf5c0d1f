/** What packs, vehicles and kits say, worked out once: every binding asks it until one of them changes. */

import { AidTable } from './aids';
import { type Said, saidBy } from './files';
import { KindTable } from './kinds';
import { QuantityReader } from './measures';
import { PieceTable } from './pieces';
import type { OpenDocument } from './source';

/** Combinations of vehicle and kits that are kept; a project's guides share few. */
const MOST_KEPT = 16;

export class Known {
  readonly pieces: PieceTable;
  readonly aids: AidTable;
  readonly quantities = new QuantityReader();
  readonly kinds: KindTable;
  private readonly kept: { readonly documents: readonly (OpenDocument | null)[]; readonly said: Said }[] = [];

  /** @param packs in the order in which they add to each other. */
  constructor(readonly packs: readonly OpenDocument[]) {
    this.kinds = new KindTable(packs);
    this.pieces = new PieceTable(packs);
    this.aids = new AidTable(packs);
  }

  /** What a vehicle and kits say together. Documents are known by identity: a changed one is another. */
  of(vehicle: OpenDocument | null, kits: readonly OpenDocument[]): Said {
    const documents = [vehicle, ...kits];
    const at = this.kept.findIndex(
      (one) =>
        one.documents.length === documents.length &&
        one.documents.every((document, index) => document === documents[index]),
    );
    const [found] = at < 0 ? [] : this.kept.splice(at, 1);
    const one = found ?? { documents, said: saidBy(vehicle, kits, this.kinds) };
    this.kept.unshift(one);
    if (this.kept.length > MOST_KEPT) this.kept.pop();
    return one.said;
  }
}
