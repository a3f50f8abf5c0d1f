/** Circles of references: a part that is like itself, or can only be reached once it is off. */

import { type Report, shown } from './report';
import type { Cursor } from './source';

/** A reference from one name to another, where it is written. */
export interface Reference {
  readonly to: string;
  readonly cursor: Cursor;
}

const MOST_RELATED = 6;

/**
 * Reports each circle once, at the reference of its first member in document order.
 * @param how what a reference says, as in `front-arm is inside itself`.
 */
export function reportCircles(
  graph: ReadonlyMap<string, readonly Reference[]>,
  how: string,
  report: Report,
): void {
  const order = new Map([...graph.keys()].map((name, index) => [name, index]));
  const done = new Set<string>();
  for (const start of graph.keys()) {
    if (done.has(start)) continue;
    // Depth first without recursion: a chain may be longer than a stack is deep.
    const path: { name: string; next: number }[] = [{ name: start, next: 0 }];
    const onPath = new Map([[start, 0]]);
    for (let top = path.at(-1); top !== undefined; top = path.at(-1)) {
      const reference = graph.get(top.name)?.[top.next++];
      if (reference === undefined) {
        onPath.delete(top.name);
        done.add(top.name);
        path.pop();
        continue;
      }
      const from = onPath.get(reference.to);
      if (from !== undefined) {
        reportCircle(
          path.slice(from).map(({ name, next }) => ({ name, reference: graph.get(name)![next - 1]! })),
          order,
          how,
          report,
        );
      } else if (!done.has(reference.to) && graph.has(reference.to)) {
        onPath.set(reference.to, path.length);
        path.push({ name: reference.to, next: 0 });
      }
    }
  }
}

function reportCircle(
  circle: readonly { readonly name: string; readonly reference: Reference }[],
  order: ReadonlyMap<string, number>,
  how: string,
  report: Report,
): void {
  let first = 0;
  circle.forEach(({ name }, index) => {
    if (order.get(name)! < order.get(circle[first]!.name)!) first = index;
  });
  const turned = [...circle.slice(first), ...circle.slice(0, first)];
  const [head, ...others] = turned;
  const by = others
    .slice(0, 3)
    .map(({ name }) => `"${shown(name)}"`)
    .join(', ');
  const way = others.length === 0 ? '' : `, by way of ${by}${others.length > 3 ? ' and others' : ''}`;
  const related = others.slice(0, MOST_RELATED).map(({ name, reference }) => ({
    place: reference.cursor.place,
    message: `"${shown(name)}" leads on`,
  }));
  const place = head!.reference.cursor.place;
  report.add('circular-reference', place, `"${shown(head!.name)}" ${how} itself${way}.`, {
    related,
    item: head!.name,
  });
}
