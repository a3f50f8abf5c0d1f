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

export const listAids = (value: unknown): string[] => (value === '' ? [] : String(value).split('+'));

export function addAids(value: unknown, aids: readonly Aid[]): string {
  return [...new Set([...listAids(value), ...aids.map((aid) => aid.name)])].sort().join('+');
}

export function removeAids(value: unknown, gone: (name: string) => boolean): string {
  return listAids(value)
    .filter((name) => !gone(name))
    .join('+');
}

/** An aid by the name that stands in a state. */
export function aidNamed(model: Model, name: string): Aid {
  return name === UNNAMED.name ? UNNAMED : (model.aids.get(name) ?? { ...UNNAMED, name });
}
