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

/** What was read of one document. Plain data; a later edit makes a new one and leaves this as it is. */
export interface Reading {
  /** Null when the document is empty or nothing of it can be read. */
  readonly root: Node | null;
  /** In order of place; at most one for one mistake. */
  readonly problems: readonly Problem[];
  /** Pieces that could not be read whole (a step, a part): what is missing there is an echo, not a finding. */
  readonly damaged: readonly { readonly start: number; readonly end: number }[];
  /** Every alias that may be followed, to the value it names. Unknown and circular ones are left out. */
  readonly targets: ReadonlyMap<Node, Node>;
  /** Characters in the document. */
  readonly length: number;
}

/** A pair of a map as readers see it: merge keys expanded, aliases followed. */
export interface Entry {
  readonly key: Node;
  /** The value, an alias followed to what it names; an alias that cannot be followed stays one (kind `alias`). */
  readonly value: Node;
  /** Where the value is written in this map: the alias, the merge's source, or the value itself. */
  readonly written: Node;
  /** True when the pair came in through a merge key. */
  readonly merged: boolean;
}

/** A value of a list as readers see it. */
export interface Item {
  /** The value, an alias followed to what it names. */
  readonly value: Node;
  /** Where the value is written in this list: the alias, or the value itself. */
  readonly written: Node;
}
