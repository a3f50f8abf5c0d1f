/** Small pieces on joints: what packs say of them, and the names a joint knows them by. */

import type { Joint } from './model';
import { Cursor, entriesAt, type OpenDocument, textAt, textsAt } from './source';

export type SingleUse = 'out' | 'slackened';

/** The `pieces` of all packs, later packs over earlier ones. */
export class PieceTable {
  private readonly uses = new Map<string, SingleUse | null>();
  private readonly byWord = new Map<string, string>();
  /** Words for the pin of a slotted nut. */
  private readonly pins = new Set(['pin']);

  constructor(packs: readonly OpenDocument[]) {
    for (const pack of packs) {
      for (const [name, cursor] of entriesAt(Cursor.of(pack), 'pieces')) {
        const use = textAt(cursor, 'single-use');
        this.uses.set(name, use === 'out' || use === 'slackened' ? use : null);
        const words = textsAt(cursor, 'words');
        for (const word of words) if (!this.byWord.has(word)) this.byWord.set(word, name);
        if (name === 'pin' || words.includes('pin')) for (const word of [name, ...words]) this.pins.add(word);
      }
    }
  }

  /** Every name and word of the packs, and those that a joint has without any pack. */
  get names(): string[] {
    return ['nut', 'bolt', 'pin', ...this.uses.keys(), ...this.byWord.keys()];
  }

  /** The pack's name for a piece, null where no pack knows it. */
  known(written: string): string | null {
    if (this.uses.has(written)) return written;
    return this.byWord.get(written) ?? null;
  }

  /** When a piece so named is used up, null where it is not or nobody knows. */
  singleUse(written: string): SingleUse | null {
    const name = this.known(written);
    return name === null ? null : (this.uses.get(name) ?? null);
  }

  /** The name by which a joint knows a piece: its own word where it has one, whatever the writer's. */
  nameOn(joint: Joint, written: string): string {
    if (written === 'nut' || written === 'bolt' || joint.stack.includes(written)) return written;
    if (joint.nut === 'slotted' && this.pins.has(written)) return 'pin';
    const meant = this.known(written);
    const own =
      joint.stack.find((piece) => meant !== null && this.known(piece) === meant) ??
      joint.stack.find((piece) => samePlural(piece, written));
    if (own !== undefined) return own;
    return meant === 'nut' || meant === 'bolt' ? meant : written;
  }
}

const samePlural = (piece: string, written: string): boolean =>
  written === `${piece}s` || written === `${piece}es` || piece === `${written}s`;
