/** A thing of the model as it stands on the vehicle: one instance for each place and side it has. */

import type { Side } from './model';

export interface Instance {
  readonly side: Side;
  readonly place: string;
  /** The key of `places` that `place` is one of; empty where there is none. */
  readonly placeKey: string;
  /** Suffix that tells it from its like: `@left`, `@front/left`, or nothing. */
  readonly key: string;
  /** `left`, `front/left`, `front` or nothing: how findings name it. */
  readonly label: string;
}

const SIDED: readonly Side[] = ['left', 'right'];
const UNSIDED: readonly Side[] = [''];

/** All instances of a thing: places in declared order, and in each left before right. */
export function makeInstances(
  sided: boolean,
  places: { readonly key: string; readonly values: readonly string[] } | null,
): readonly Instance[] {
  return (places?.values ?? ['']).flatMap((place) =>
    (sided ? SIDED : UNSIDED).map((side) => {
      const label = place !== '' && side !== '' ? `${place}/${side}` : place || side;
      return { side, place, placeKey: places?.key ?? '', key: label === '' ? '' : `@${label}`, label };
    }),
  );
}

/** Whether two instances belong together: same side and same place, where both have one. */
export function belongTogether(a: Instance, b: Instance): boolean {
  const sides = a.side === '' || b.side === '' || a.side === b.side;
  const places = a.place === '' || b.place === '' || a.placeKey !== b.placeKey || a.place === b.place;
  return sides && places;
}

/** Those of `candidates` that belong with an instance. */
export function matching(candidates: readonly Instance[], instance: Instance): readonly Instance[] {
  return candidates.filter((candidate) => belongTogether(candidate, instance));
}
