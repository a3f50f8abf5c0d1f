/** Sets of aids as state values: names in order, joined by `+`. */

import type { Aid, Model } from '../model/model';

/** The aid of an operation that names none: it can do what is asked of it. */
export const UNNAMED: Aid = {
  name: 'unnamed',
  known: false,
  raises: true,
  carries: true,
  lowers: true,
  workUnder: false,
  holds: true,
  compresses: true,
  jack: false,
  takesWheels: false,
  rating: null,
};

/** What a `raise` without `with` puts there: nobody can say that it was left. */
export const UNNAMED_JACK: Aid = { ...UNNAMED, name: 'unnamed-jack' };

export const listAids = (value: unknown): string[] => (value === '' ? [] : String(value).split('+'));

export function addAids(value: unknown, aids: readonly Aid[]): string {
  return addAidNames(
    value,
    aids.map((aid) => aid.name),
  );
}

export const addAidNames = (value: unknown, names: readonly string[]): string =>
  [...new Set([...listAids(value), ...names])].sort().join('+');

export function removeAids(value: unknown, gone: (name: string) => boolean): string {
  return listAids(value)
    .filter((name) => !gone(name))
    .join('+');
}

/** An aid by the name that stands in a state. */
export function aidNamed(model: Model, name: string): Aid {
  if (name === UNNAMED.name) return UNNAMED;
  return name === UNNAMED_JACK.name ? UNNAMED_JACK : (model.aids.get(name) ?? { ...UNNAMED, name });
}
