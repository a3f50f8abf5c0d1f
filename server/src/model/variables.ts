/** Traits and options as they are declared: what a variant can be. */

import { type Dimension, parseQuantity, type Quantity } from '../units/quantity';
import type { DeclaredVariable } from '../variants/world';
import { Cursor, entriesAt, type OpenDocument, textAt } from './source';

/** Whatever a trait may measure, in the order in which a unit is tried. */
export const ANY_DIMENSION: readonly Dimension[] = [
  'length',
  'mass',
  'torque',
  'distance',
  'pressure',
  'angle',
  'volume',
  'force',
  'temperature',
  'voltage',
  'current',
  'resistance',
  'power',
  'time',
];

/** The traits of a vehicle, in declared order. A trait without a value is left out. */
export function traitsOf(vehicle: OpenDocument): DeclaredVariable[] {
  return entriesAt(Cursor.of(vehicle), 'traits').flatMap(([name, cursor]) => traitOf(name, cursor) ?? []);
}

/** The options of a kit, in declared order. */
export function optionsOf(kit: OpenDocument): DeclaredVariable[] {
  return entriesAt(Cursor.of(kit), 'options').flatMap(([name, cursor]) => {
    const declared = traitOf(name, cursor);
    return declared === null ? [] : [{ ...declared, kind: 'option' as const }];
  });
}

/** The dimension of a numeric trait, null for one with words as values. */
export function dimensionOf(variable: DeclaredVariable): Dimension | null {
  return 'numeric' in variable && variable.numeric !== undefined ? variable.numeric.dimension : null;
}

function traitOf(name: string, cursor: Cursor): DeclaredVariable | null {
  if (cursor.isMap) return rangeTrait(name, cursor);
  const values = [...new Set(cursor.texts)];
  if (values.length === 0) return null;
  const measures = measured(values);
  if (measures === null) return { name, values, kind: 'trait' };
  const list = values.map((value, index) => ({ name: value, value: measures[index]!.nominal }));
  return { name, kind: 'trait', numeric: { dimension: measures[0]!.dimension, list } };
}

function rangeTrait(name: string, cursor: Cursor): DeclaredVariable | null {
  const ends = measured([textAt(cursor, 'from') ?? '', textAt(cursor, 'to') ?? '']);
  if (ends === null) return null;
  const [from, to] = ends as [Quantity, Quantity];
  const unit = textAt(cursor, 'unit');
  const symbol = unit !== null && parseQuantity(`1 ${unit}`, from.dimension).ok ? unit : from.symbol;
  return {
    name,
    kind: 'trait',
    numeric: { dimension: from.dimension, from: from.nominal, to: to.nominal, symbol },
  };
}

/** All values as quantities of one dimension, or null. */
function measured(values: readonly string[]): Quantity[] | null {
  const read = values.map((value) => parseQuantity(value, ANY_DIMENSION));
  const quantities = read.flatMap((result) => (result.ok ? [result.quantity] : []));
  const dimension = quantities[0]?.dimension;
  return quantities.length === values.length && quantities.every((one) => one.dimension === dimension)
    ? quantities
    : null;
}
