/** How the neighbours of something new are written. */

import type { Node } from '../text/tree';
import { dashOf } from './extent';
import { columnOf, type Source } from './source';
import type { Layout } from './write';

/**
 * The layout of the elements of a list, nearest to a place first; what they do not show is taken from `others`, lists
 * like it. What no neighbour shows stands in brackets.
 */
export function layoutOf(source: Source, list: Node, index: number, others: readonly Node[] = []): Layout {
  const near = [...(list.items ?? [])]
    .map((item, at) => ({ item, away: Math.abs(at - index + 0.5) }))
    .sort((a, b) => a.away - b.away)
    .map(({ item }) => item);
  const samples = [...near, ...others.flatMap((other) => other.items ?? [])].slice(0, MOST_SAMPLES);
  const shown = new Map<string, boolean>();
  const marks: { dash: number | null; padded: boolean | null } = { dash: null, padded: null };
  for (const sample of samples) look(source, sample, 0, shown, marks);
  return {
    flow: (kind, depth) => shown.get(`${kind} ${depth}`) ?? depth > 0,
    dash: marks.dash ?? 2,
    padded: marks.padded ?? true,
  };
}

/** Neighbours that are looked at. */
const MOST_SAMPLES = 40;

function look(
  source: Source,
  node: Node,
  depth: number,
  shown: Map<string, boolean>,
  marks: { dash: number | null; padded: boolean | null },
): void {
  if (node.items === null) return;
  const kind = node.kind === 'seq' ? 'list' : 'map';
  // A list of words says nothing of how a list of maps is written.
  const telling = kind === 'map' ? node.items.length > 0 : node.items.some(({ items }) => items !== null);
  if (telling && !shown.has(`${kind} ${depth}`)) shown.set(`${kind} ${depth}`, node.style === 'flow');
  if (source.text[node.start] === '{' && node.kind === 'map' && node.items.length > 0)
    marks.padded ??= source.text[node.start + 1] === ' ';
  for (let index = 0; index < node.items.length; index++) {
    const item = node.items[index]!;
    const key = node.keys?.[index];
    if (key !== undefined && item.kind === 'seq' && item.style === 'block') {
      const dash = dashOf(source, item, 0);
      if (dash !== null)
        marks.dash ??= Math.max(0, columnOf(source.text, dash) - columnOf(source.text, key.start));
    }
    look(source, item, depth + 1, shown, marks);
  }
}
