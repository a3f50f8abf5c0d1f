import { lineEnd, moved, TreeNode } from './build';
import type { PieceReading } from './piece';
import type { PieceKind, SplitState } from './split';
import type { Node, Problem } from './tree';

/** A piece in its place in the document. */
export interface Piece {
  readonly kind: PieceKind;
  /** The splitter's state before its first line. */
  readonly before: SplitState;
  readonly reading: PieceReading;
  /** Its tree, and the offset in the document that the tree's places count from; moved when the piece has moved. */
  placed: { readonly offset: number; readonly root: TreeNode | null };
}

export interface Assembly {
  readonly root: Node | null;
  /** By the index of the piece: what is wrong with how it fits, in place of what is wrong inside it. */
  readonly misfits: ReadonlyMap<number, Problem>;
}

/** Grafts the trees of all pieces into one, and says which pieces do not fit where they stand. */
export function assemble(pieces: readonly Piece[], offsets: readonly number[]): Assembly {
  const assembler = new Assembler();
  const only = pieces.length === 1;
  for (let index = 0; index < pieces.length; index++)
    assembler.take(pieces[index]!, offsets[index]!, index, only);
  return assembler.finish();
}

const NO_COLON = 'A colon and a space are missing behind this name.';
const NOT_A_PAIR =
  'A name and a colon are missing at the start of this line, or it needs more spaces before it.';
const NO_DASH = 'A dash and a space are missing at the start of this line.';
const TIGHT_DASH = 'A space is missing behind this dash.';
const OUT_OF_LINE = 'This dash does not line up with the other dashes of its list.';

class Assembler {
  private readonly misfits = new Map<number, Problem>();
  private root: TreeNode | null = null;
  /** Collections that grow over several pieces, outermost first; their spans are set when all is in. */
  private readonly grown: TreeNode[] = [];
  /** The list or map under the last root key, and the steps under the last item's key. */
  private outer: TreeNode | null = null;
  private inner: TreeNode | null = null;
  private itemIsOwn = false;
  /** The piece of the last item. */
  private item: { index: number; piece: Piece; offset: number } | null = null;
  private misfitBefore = false;
  /** Column of the dashes of `inner`. */
  private dashColumn = 0;
  private toldOf: TreeNode | null = null;

  /** `only` is true when the document is one piece, which may then be anything. */
  take(piece: Piece, offset: number, index: number, only: boolean): void {
    let root = placedRoot(piece, offset);
    if (piece.kind === 'root') this.outer = null;
    if (piece.kind !== 'step') this.inner = null;
    if (only) this.root = root;
    if (root === null || (only && (root.kind !== 'map' || root.style === 'flow'))) return;
    if (piece.kind === 'item' || piece.kind === 'step') {
      if (root.kind !== 'seq' || root.style === 'flow') {
        const dash = root.kind !== 'alias' && piece.reading.text.trimStart().startsWith('-');
        this.misfit(index, piece, offset, root, dash ? TIGHT_DASH : NO_DASH);
        return;
      }
    } else if (root.kind !== 'map' || root.style === 'flow') {
      const bare = nameAlone(root);
      if (!piece.reading.damaged) this.misfit(index, piece, offset, root, bare ? NO_COLON : NOT_A_PAIR);
      if (bare === null) return;
      root = bare;
    }
    if (!this.misfits.has(index)) this.misfitBefore = false;
    switch (piece.kind) {
      case 'root':
        if (this.root === null || only) this.root = this.grow('map', root);
        this.addPairs(this.root, root);
        return;
      case 'entry':
        this.outer ??= this.under(this.root, 'map');
        this.addPairs(this.outer, root);
        return;
      case 'item':
        this.outer ??= this.under(this.root, 'seq');
        this.addItems(this.outer, root);
        this.itemIsOwn = false;
        this.item = { index, piece, offset };
        return;
      case 'part':
        this.addPairs(this.ownItem(), root);
        return;
      default:
        this.inner ??= this.under(this.ownItem(), 'seq');
        if (this.inner.items!.length === 0) this.dashColumn = root.start - offset;
        else if (root.start - offset !== this.dashColumn) this.outOfLine(index, root);
        this.addItems(this.inner, root);
    }
  }

  finish(): Assembly {
    // Inner ones were begun later than those around them, so that going back sets the inner spans first.
    for (const node of this.grown.reverse()) {
      const last = node.items!.at(-1);
      if (last) node.end = last.end;
      if (node.keys?.[0]) node.start = node.keys[0].start;
      else if (node.start < 0) node.start = node.items![0]?.start ?? 0;
    }
    return { root: this.root, misfits: this.misfits };
  }

  private misfit(index: number, piece: Piece, offset: number, root: TreeNode, message: string): void {
    const again = this.misfitBefore;
    this.misfitBefore = true;
    // A run of such pieces, prose say, is one mistake.
    if (again) return;
    const end = offset + lineEnd(piece.reading.text, root.start - offset);
    this.misfits.set(index, {
      rule: 'yaml-syntax',
      start: root.start,
      end: Math.min(root.end, end),
      message,
    });
  }

  /** Told once for a list: which of its dashes is the one out of line is anyone's guess. */
  private outOfLine(index: number, root: TreeNode): void {
    if (this.inner === this.toldOf) return;
    this.toldOf = this.inner;
    this.misfits.set(index, {
      rule: 'yaml-syntax',
      start: root.start,
      end: root.start + 1,
      message: OUT_OF_LINE,
    });
  }

  private grow(kind: 'map' | 'seq', like: TreeNode): TreeNode {
    const node = new TreeNode(kind, like.start, like.end, null, 'block', like.tag, like.anchor);
    this.grown.push(node);
    return node;
  }

  /** The collection under a map's last key, which was read without a value since its items are pieces of their own. */
  private under(map: TreeNode | null, kind: 'map' | 'seq'): TreeNode {
    const last = map?.items?.at(-1);
    const empty = last !== undefined && last.kind === 'scalar' && last.start === last.end;
    const node = this.grow(kind, last ?? new TreeNode(kind, 0, 0, null, 'block', null, null));
    node.start = -1;
    if (empty) map!.items![map!.items!.length - 1] = node;
    return node;
  }

  /** The last item of the list as a map that may grow; the piece's own tree must stay as it is. */
  private ownItem(): TreeNode {
    this.outer ??= this.under(this.root, 'seq');
    const items = this.outer.items!;
    const last = items.at(-1);
    if (this.itemIsOwn && last !== undefined) return last;
    this.itemIsOwn = true;
    const own = this.grow('map', last ?? this.outer);
    const begun = last?.kind === 'map' ? last : last && nameAlone(last);
    if (begun) this.addPairs(own, begun);
    if (last && last.kind !== 'map' && last.start < last.end && this.item) {
      const { index, piece, offset } = this.item;
      if (!piece.reading.damaged) this.misfit(index, piece, offset, last, begun ? NO_COLON : NOT_A_PAIR);
    }
    if (items.length === 0) items.push(own);
    else items[items.length - 1] = own;
    return own;
  }

  private addPairs(map: TreeNode, from: TreeNode): TreeNode {
    for (const key of from.keys!) map.keys!.push(key);
    for (const item of from.items!) map.items!.push(item);
    return map;
  }

  private addItems(list: TreeNode, from: TreeNode): void {
    if (list.start < 0) list.start = from.start;
    for (const item of from.items!) list.items!.push(item);
  }
}

function placedRoot(piece: Piece, offset: number): TreeNode | null {
  const { placed } = piece;
  if (placed.root !== null && placed.offset !== offset) {
    piece.placed = { offset, root: moved(placed.root, offset - placed.offset) };
  }
  return piece.placed.root;
}

/** A word that lacks its colon still, as a map with that key and no value. */
function nameAlone(root: TreeNode): TreeNode | null {
  if (root.kind !== 'scalar' || root.style !== 'plain' || root.start === root.end) return null;
  const map = new TreeNode('map', root.start, root.end, null, 'block', null, null);
  map.keys!.push(root);
  map.items!.push(new TreeNode('scalar', root.end, root.end, null, 'plain', null, null));
  return map;
}
