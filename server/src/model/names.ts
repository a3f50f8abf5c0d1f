/** What a name in a guide stands for. */

import { isBuiltIn, SPATIAL, STRUCTURE, SYSTEMS } from './builtins';
import type { Line } from './model';
import { NameGuesser } from './nearest';
import type { BuildingThing } from './parts';
import type { VerbInfo } from './verbs';

export type Found =
  | { readonly type: 'thing'; readonly thing: BuildingThing }
  | { readonly type: 'circuit'; readonly lines: readonly Line[] }
  | { readonly type: 'built-in'; readonly name: string }
  /** Kit hardware or a small piece: it is there, and has no state of its own. */
  | { readonly type: 'loose' };

export class Names {
  private readonly circuits = new Map<string, Line[]>();
  private readonly guesser: NameGuesser;
  /** Made once all implied things are there. */
  private slips: NameGuesser | null = null;
  private readonly builtIns = new NameGuesser([...SPATIAL, ...SYSTEMS]);

  /**
   * @param things as declared; implied ones are added to the map later.
   * @param loose whether a name is hardware or a piece.
   * @param complete a vehicle file is there, so that a name which no file has is likely to be a slip.
   */
  constructor(
    readonly things: Map<string, BuildingThing>,
    private readonly loose: (name: string) => boolean,
    readonly complete: boolean,
  ) {
    for (const thing of things.values()) {
      if (thing.type === 'line' && thing.circuit !== null && !things.has(thing.circuit)) {
        this.circuits.set(thing.circuit, [...(this.circuits.get(thing.circuit) ?? []), thing]);
      }
    }
    this.guesser = new NameGuesser([...things.keys(), ...this.circuits.keys(), ...SPATIAL, ...SYSTEMS]);
  }

  /** What has this very name, seen from a verb; null where nothing has it.
   * @param within something that belongs to it is meant: its hole, its joint. */
  find(name: string, info: VerbInfo, within = false): Found | null {
    const thing = this.things.get(name);
    // The frame is what carries, save to who works its metal or names a hole in it.
    if (thing !== undefined && STRUCTURE.has(name) && info.acts.has('hole')) {
      if (within || !info.acts.has('spatial')) return { type: 'thing', thing };
    }
    if (isBuiltIn(name)) {
      // A file may declare the battery as a part: it is then both, and the verb says which is meant.
      const asBuiltIn = SPATIAL.has(name) || info.acts.has('system');
      if (thing === undefined || (asBuiltIn && !(info.acts.has('part') && SYSTEMS.has(name))))
        return { type: 'built-in', name };
    }
    if (thing !== undefined) return { type: 'thing', thing };
    const lines = this.circuits.get(name);
    if (lines !== undefined) return { type: 'circuit', lines };
    return this.loose(name) ? { type: 'loose' } : null;
  }

  /**
   * The name of a thing that was meant where any words may stand: of a single hyphenated word, or what stands before a
   * dot, that nothing has and that is near.
   */
  slip(written: string): string | null {
    const [name = ''] = written.split('.');
    if (/\s/.test(written) || !/[-.]/.test(written)) return null;
    this.slips ??= new NameGuesser(this.things.keys());
    return this.slips.nearest(name);
  }

  /** `left-front-wheel` where there is a sided `front-wheel`: the name and the side; null where it is nothing of the sort. */
  withoutSide(written: string): { readonly name: string; readonly side: 'left' | 'right' } | null {
    const words = written.split('-');
    for (const side of ['left', 'right'] as const) {
      const at = words.indexOf(side);
      if (at < 0) continue;
      const name = [...words.slice(0, at), ...words.slice(at + 1)].join('-');
      const thing = this.things.get(name);
      if (thing !== undefined && thing.origin !== 'implied' && thing.sided) return { name, side };
    }
    return null;
  }

  /** The known name that a writer most likely meant; null where the name is taken as it stands. */
  isOnly(name: string, near: string): boolean {
    return this.complete && this.guesser.isOnly(name, near);
  }

  nearest(name: string, info: VerbInfo): string | null {
    if (this.complete) return this.withoutSide(name)?.name ?? this.guesser.nearest(name);
    return info.acts.has('spatial') || info.acts.has('system') ? this.builtIns.nearest(name) : null;
  }
}
