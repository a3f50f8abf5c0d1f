/** Workshop aids: what the packs say they can do. Singular and plural are one. */

import { type Body, bodyOf, EMPTY, flagOf, mergeBodies, textsOf } from './body';
import { figureOf } from './measures';
import type { Aid } from './model';
import { isOnlyNear, NameGuesser } from './nearest';
import { Cursor, entriesAt, type OpenDocument } from './source';

export class AidTable {
  readonly aids = new Map<string, Aid>();
  private readonly byWord = new Map<string, string>();
  private readonly unknown = new Map<string, Aid>();
  private guesser: NameGuesser | null = null;

  constructor(packs: readonly OpenDocument[]) {
    const bodies = new Map<string, Body>();
    for (const pack of packs) {
      for (const [name, cursor] of entriesAt(Cursor.of(pack), 'aids')) {
        if (cursor.isMap) bodies.set(name, mergeBodies(bodies.get(name) ?? EMPTY, bodyOf(cursor)));
      }
    }
    for (const [name, body] of bodies) {
      this.aids.set(name, aidOf(name, body, true));
      for (const word of [name, ...textsOf(body, 'words')]) {
        for (const form of [word, singular(word)]) if (!this.byWord.has(form)) this.byWord.set(form, name);
      }
    }
  }

  /** The aid that a word names, null where no pack has it. */
  find(written: string): Aid | null {
    const exact = this.aids.get(written);
    if (exact !== undefined) return exact;
    const name = this.byWord.get(written) ?? this.byWord.get(singular(written));
    return name === undefined ? null : this.aids.get(name)!;
  }

  /** An aid that no pack has: what it can do is not known. */
  unnamed(written: string): Aid {
    const name = singular(written);
    const known = this.unknown.get(name);
    if (known !== undefined) return known;
    const made = aidOf(name, EMPTY, false);
    this.unknown.set(name, made);
    return made;
  }

  /** Whether a word is a slip of words for one aid alone. */
  isOnly(written: string, near: string): boolean {
    const meant = this.find(near);
    const others = [...this.aids.keys(), ...this.byWord.keys()].filter((word) => this.find(word) !== meant);
    return isOnlyNear(written, near, others);
  }

  nearest(written: string): string | null {
    this.guesser ??= new NameGuesser([...this.aids.keys(), ...this.byWord.keys()]);
    return this.guesser.nearest(written);
  }
}

function aidOf(name: string, body: Body, known: boolean): Aid {
  return {
    name,
    known,
    raises: flagOf(body, 'raises'),
    carries: flagOf(body, 'carries'),
    lowers: flagOf(body, 'lowers'),
    workUnder: flagOf(body, 'work-under'),
    holds: flagOf(body, 'holds'),
    compresses: flagOf(body, 'compresses'),
    jack: flagOf(body, 'jack'),
    takesWheels: flagOf(body, 'takes-wheels'),
    rating: figureOf(body, 'rating', 'mass'),
  };
}

/** `axle-stands` and `axle-stand` are one. */
function singular(word: string): string {
  if (word.endsWith('ss') || word.length < 4) return word;
  if (/(?:s|x|z|ch|sh)es$/.test(word)) return word.slice(0, -2);
  return word.endsWith('s') ? word.slice(0, -1) : word;
}
