/** What the trade's arithmetic has to say of a figure where a vehicle or kit file writes it. */

import { parseQuantity } from '../units/quantity';
import { parseTyre, type Tyre } from '../units/tyre';
import type { At } from './at';
import type { Closure } from './project';
import { boltInWords, handsInWords, tapInWords, tyreInWords } from './trade-facts';

/** Facts of the value under the pointer; none where it is no such figure. */
export function tradeAt({ keys, schema, written, onKey }: At, closure: Closure): string[] {
  const key = keys.at(-1);
  if (onKey || written === null) return [];
  if (keys[0] === 'clearances' && schema?.['x-tyre'] === true) {
    const read = parseTyre(written);
    return read.ok ? tyreInWords(read.tyre, ownTyre(closure)) : [];
  }
  if (keys[0] !== 'parts' && keys[0] !== 'kinds') return [];
  if (schema?.['x-tyre'] === true) {
    const read = parseTyre(written);
    return read.ok ? tyreInWords(read.tyre, replacedTyre(closure, keys)) : [];
  }
  if (key === 'mass' && keys.length === 3) {
    const read = parseQuantity(written, 'mass');
    return read.ok ? handsInWords(read.quantity.nominal) : [];
  }
  if (keys[2] !== 'holes') return [];
  return key === 'bolt' ? boltInWords(written) : key === 'tap' ? tapInWords(written) : [];
}

/** The tyre of the vehicles that a kit may be for, where all their wheels have one size. */
function ownTyre({ library: { vehicles = [] } }: Closure): Tyre | null {
  const codes = vehicles.flatMap(({ value }) =>
    ['kinds', 'parts'].flatMap((group) =>
      Object.values(under(value, group) ?? {}).map((one) => under(one, 'tyre')),
    ),
  );
  const sizes = new Map<number, Tyre>();
  for (const code of codes) {
    const read = parseTyre(typeof code === 'string' ? code : '');
    if (read.ok) sizes.set(read.tyre.diameter, read.tyre);
  }
  return sizes.size === 1 ? [...sizes.values()][0]! : null;
}

/** The tyre, as files say it, of the first thing that a part of a kit replaces. */
function replacedTyre(closure: Closure, [group, name]: At['keys']): Tyre | null {
  const own = under(closure.opened(closure.document).value, group, name);
  const replaced = under(own, 'replaces');
  for (const old of [replaced].flat()) {
    if (typeof old !== 'string') continue;
    for (const { value } of closure.library.vehicles ?? []) {
      const part = under(value, 'parts', old);
      const code = under(part, 'tyre') ?? under(value, 'kinds', under(part, 'kind'), 'tyre');
      const read = parseTyre(typeof code === 'string' ? code : '');
      if (read.ok) return read.tyre;
    }
  }
  return null;
}

/** What stands under keys of plain data; undefined where nothing does. */
function under(value: unknown, ...keys: readonly unknown[]): unknown {
  let at = value;
  for (const key of keys) {
    if (typeof at !== 'object' || at === null || typeof key !== 'string' || !Object.hasOwn(at, key))
      return undefined;
    at = (at as Record<string, unknown>)[key];
  }
  return at;
}
