/** The located tree: what a YAML document says, every value with its span. Both producers make exactly this. */

export type NodeKind = 'scalar' | 'map' | 'seq' | 'alias';
export type NodeStyle = 'plain' | 'single' | 'double' | 'literal' | 'folded' | 'block' | 'flow';

/** A value with its place. Offsets are UTF-16 units in the document, end excluded. */
export interface Node {
  readonly kind: NodeKind;
  readonly start: number;
  readonly end: number;
  /** Scalars: the value in YAML's core schema. Aliases: the anchor's name. Else null. */
  readonly value: string | number | boolean | null;
  readonly style: NodeStyle;
  readonly tag: string | null;
  readonly anchor: string | null;
  /** Maps: the keys, parallel to `items`. */
  readonly keys: readonly Node[] | null;
  /** Maps and sequences: the values. */
  readonly items: readonly Node[] | null;
}

/** Something wrong with the characters or the structure, at its place. */
export interface Problem {
  readonly rule: string;
  readonly start: number;
  readonly end: number;
  readonly message: string;
}

/** A pair of a map as readers see it: merge keys expanded, aliases followed. */
export interface Entry {
  readonly key: Node;
  /** The value, aliases followed to what they name. */
  readonly value: Node;
  /** Where the value is written in this map: the alias, or the value itself. */
  readonly written: Node;
  /** True when the pair came in through a merge key. */
  readonly merged: boolean;
}
