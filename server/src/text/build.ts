import type { Scalar } from './scalar';
import type { Node, NodeKind, NodeStyle } from './tree';

/** A node while its producer still works on it; everyone else sees it as a `Node`. */
export class TreeNode implements Node {
  keys: TreeNode[] | null = null;
  items: TreeNode[] | null = null;

  constructor(
    public readonly kind: NodeKind,
    public start: number,
    public end: number,
    public readonly value: Scalar,
    public style: NodeStyle,
    public tag: string | null,
    public anchor: string | null,
  ) {
    if (kind === 'map') this.keys = [];
    if (kind === 'map' || kind === 'seq') this.items = [];
  }
}

/** True for a flow map or list that is written with its brackets; `[a: 1]` holds a map without. */
export function hasBrackets(node: TreeNode, text: string): boolean {
  if (node.style !== 'flow') return false;
  if (node.kind === 'seq') return true;
  return text.charCodeAt(node.start) === 123 && node.keys?.[0]?.start !== node.start;
}

/** A deep copy of a node, moved by `by` characters. */
export function moved(node: TreeNode, by: number): TreeNode {
  const copy = new TreeNode(
    node.kind,
    node.start + by,
    node.end + by,
    node.value,
    node.style,
    node.tag,
    node.anchor,
  );
  if (node.items) copy.items = node.items.map((item) => moved(item, by));
  if (node.keys) copy.keys = node.keys.map((key) => moved(key, by));
  return copy;
}

/** The first place at or after `at` that is neither blank, line break nor comment. */
export function skipBlanks(text: string, at: number): number {
  let place = at;
  for (;;) {
    const code = text.charCodeAt(place);
    if (isBlank(code) || code === 0xfeff) place++;
    else if (code === 35 && (place === 0 || isBlank(text.charCodeAt(place - 1))))
      place = lineEnd(text, place);
    else return place;
  }
}

/** The end of text before `at`, trailing blanks and line breaks dropped, never before `from`. */
export function trimBack(text: string, from: number, at: number): number {
  let place = at;
  while (place > from && isBlank(text.charCodeAt(place - 1))) place--;
  return place;
}

/** Where the line that holds `at` ends, its line break excluded. */
export function lineEnd(text: string, at: number): number {
  let place = at;
  while (place < text.length) {
    const code = text.charCodeAt(place);
    if (code === 10 || code === 13) break;
    place++;
  }
  return place;
}

/** Where the line that holds `at` starts. */
export function lineStart(text: string, at: number): number {
  let place = at;
  while (place > 0) {
    const code = text.charCodeAt(place - 1);
    if (code === 10 || code === 13) break;
    place--;
  }
  return place;
}

function isBlank(code: number): boolean {
  return code === 32 || code === 9 || code === 10 || code === 13;
}
