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
  /** Its tree in document offsets, kept for as long as the piece stays where it is. */
  placed: { readonly offset: number; readonly root: TreeNode } | null;
}

export interface Assembly {
  readonly root: Node | null;
  readonly problems: readonly Problem[];
}

/** Grafts the trees of all pieces into one, and says which pieces do not fit where they stand. */
export function assemble(pieces: readonly Piece[], offsets: readonly number[]): Assembly {
  const assembler = new Assembler();
  for (let index = 0; index < pieces.length; index++)
    assembler.take(pieces[index]!, offsets[index]!, index === 0);
  return assembler.finish();
}

const NOT_A_PAIR =
  'A name, a colon and a space are missing at the start of this line, or it needs more spaces before it.';
const NOT_AN_ITEM = 'A dash and a space are missing at the start of this line.';

class Assembler {
  private readonly problems: Problem[] = [];
  private root: TreeNode | null = null;
  /** Collections that grow over several pieces, outermost first; their spans are set when all is in. */
  private readonly grown: TreeNode[] = [];
  /** The list or map under the last root key, and the steps under the last item's key. */
  private outer: TreeNode | null = null;
  private inner: TreeNode | null = null;
  private itemIsOwn = false;

  take(piece: Piece, offset: number, first: boolean): void {
    const root = placedRoot(piece, offset);
    if (piece.kind === 'root') this.outer = null;
    if (piece.kind !== 'step') this.inner = null;
    if (root === null) return;
    const wanted = piece.kind === 'item' || piece.kind === 'step' ? 'seq' : 'map';
    if (root.kind !== wanted || root.style === 'flow') {
      if (first) this.root = root;
      else this.misfit(piece, root, offset, wanted);
      return;
    }
    switch (piece.kind) {
      case 'root':
        this.root = this.addPairs(this.root?.kind === 'map' ? this.root : this.grow('map', root), root);
        return;
      case 'entry':
        this.outer ??= this.under(this.root, 'map');
        this.addPairs(this.outer, root);
        return;
      case 'item':
        this.outer ??= this.under(this.root, 'seq');
        this.addItems(this.outer, root);
        this.itemIsOwn = false;
        return;
      case 'part':
        this.addPairs(this.ownItem(), root);
        return;
      default:
        this.inner ??= this.under(this.ownItem(), 'seq');
        this.addItems(this.inner, root);
    }
  }

  finish(): Assembly {
    // Inner ones were begun later than those around them, so that going back sets the inner spans first.
    for (const node of this.grown.reverse()) {
      const last = node.items!.at(-1);
      if (last) node.end = last.end;
      if (node.keys?.[0]) node.start = node.keys[0].start;
    }
    return { root: this.root, problems: this.problems };
  }

  private misfit(piece: Piece, root: TreeNode, offset: number, wanted: 'map' | 'seq'): void {
    if (piece.reading.problem !== null) return;
    const text = piece.reading.text;
    const end = Math.min(root.end, offset + lineEnd(text, root.start - offset));
    const message = wanted === 'map' ? NOT_A_PAIR : NOT_AN_ITEM;
    this.problems.push({ rule: 'yaml-syntax', start: root.start, end, message });
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
    if (last?.kind === 'map') this.addPairs(own, last);
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
  const { root } = piece.reading;
  if (root === null) return null;
  if (piece.placed?.offset !== offset)
    piece.placed = { offset, root: offset === 0 ? root : moved(root, offset) };
  return piece.placed.root;
}
