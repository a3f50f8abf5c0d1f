import type { Node } from '../../server/src/text/tree';

/** A tree as plain data, every field and span in it, for comparing. */
export function outline(node: Node | null): unknown {
  if (node === null) return null;
  const value =
    typeof node.value === 'number' ? `number ${Object.is(node.value, -0) ? '-0' : node.value}` : node.value;
  return [
    node.kind,
    node.start,
    node.end,
    value,
    node.style,
    node.tag,
    node.anchor,
    node.keys?.map(outline) ?? null,
    node.items?.map(outline) ?? null,
  ];
}
