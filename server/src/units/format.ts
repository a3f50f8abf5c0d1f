import type { Quantity } from './quantity';
import { baseSymbols, type Dimension, findUnit, fromBase, type Unit } from './table';

/** The unit that the other half of the trade reads, per symbol. */
const otherSymbols: Readonly<Record<string, string>> = {
  N·m: 'lbf·ft',
  kN·m: 'lbf·ft',
  daN·m: 'lbf·ft',
  cN·m: 'lbf·in',
  kgf·m: 'N·m',
  lbf·ft: 'N·m',
  lbf·in: 'N·m',
  mm: 'in',
  cm: 'in',
  m: 'ft',
  in: 'mm',
  ft: 'm',
  km: 'mi',
  mi: 'km',
  kg: 'lb',
  g: 'oz',
  t: 'lb',
  lb: 'kg',
  oz: 'g',
  kPa: 'psi',
  MPa: 'psi',
  bar: 'psi',
  psi: 'bar',
  N: 'lbf',
  kN: 'lbf',
  kgf: 'N',
  lbf: 'N',
  L: 'US qt',
  ml: 'US fl oz',
  'US gal': 'L',
  'US qt': 'L',
  'US fl oz': 'ml',
  '°C': '°F',
  '°F': '°C',
};

/** Below this a torque is read in lbf·in on the other side; common practice. */
const SMALL_TORQUE_NM = 15;

/**
 * The step to which a figure in a unit is rounded when it was converted.
 * Torques as a torque wrench can be set: N·m to 1 above 20, to 0.5 above 5, to 0.1 below; lbf·ft to 1 above 15, to 0.5
 * above 4, to 0.1 below; lbf·in to 1. Lengths to 1 mm above 100, 0.1 below; inches to 0.01. The rest to about three
 * digits. All common practice.
 */
export function roundingStepOf(value: number, symbol: string): number {
  const size = Math.abs(value);
  if (symbol === 'N·m') return size > 20 ? 1 : size > 5 ? 0.5 : 0.1;
  if (symbol === 'lbf·ft') return size > 15 ? 1 : size > 4 ? 0.5 : 0.1;
  if (symbol === 'lbf·in') return 1;
  if (symbol === 'mm') return size > 100 ? 1 : 0.1;
  if (symbol === 'in') return 0.01;
  return size >= 100 ? 1 : size >= 10 ? 0.1 : 0.01;
}

const tidy = (value: number, digits: number): string => {
  const rounded = Number(value.toPrecision(digits));
  return plain(rounded === 0 ? 0 : rounded);
};

/** Without an exponent wherever a person would write none. */
function plain(value: number): string {
  const written = String(value);
  return written.includes('e-') ? value.toFixed(12).replace(/0+$/, '').replace(/\.$/, '') : written;
}

const joined = (figure: string, unit: Unit): string =>
  unit.close ? `${figure}${unit.symbol}` : `${figure} ${unit.symbol}`;

/** The unit itself, or the base unit where the dimension has none of this name. */
function unitFor(symbol: string, dimension: Dimension): Unit {
  return findUnit(symbol, dimension) ?? findUnit(baseSymbols[dimension], dimension)!;
}

/**
 * A single figure, exact to `digits` digits (six unless told): `75 mm`, `90°`.
 * @param base the figure in the base unit of its dimension.
 * @param symbol the unit to print it in, any known spelling; an unknown one gives the base unit.
 */
export function printMeasure(base: number, dimension: Dimension, symbol: string, digits = 6): string {
  const unit = unitFor(symbol, dimension);
  return joined(tidy(fromBase(base, unit), digits), unit);
}

/** A figure in a unit, rounded as `roundingStepOf` says, without the unit. */
export function printRounded(base: number, unit: Unit): string {
  const value = fromBase(base, unit);
  const step = roundingStepOf(value, unit.symbol);
  return tidy(Math.round(value / step) * step, 12);
}

/**
 * A quantity in a unit: `95 N·m`, `108–136 N·m`. In the unit it was written in the figures stay as they were; in
 * another they are rounded as `roundingStepOf` says. The second unit of a pair is not printed.
 */
export function printQuantity(quantity: Quantity, symbol: string = quantity.symbol): string {
  const unit = unitFor(symbol, quantity.dimension);
  const figure = (base: number): string =>
    unit.symbol === quantity.symbol ? tidy(fromBase(base, unit), 6) : printRounded(base, unit);
  const low = figure(quantity.low);
  const high = figure(quantity.high);
  if (low === high) return joined(low, unit);
  return joined(quantity.low < 0 ? `${low} to ${high}` : `${low}–${high}`, unit);
}

/**
 * The quantity as the other half of the trade reads it, rounded (`95 N·m` gives `70 lbf·ft`, `8 N·m` gives `71 lbf·in`),
 * or undefined for times and angles. A pair written in the guide is given as it was written.
 */
export function otherUnit(quantity: Quantity): string | undefined {
  const { second, dimension } = quantity;
  if (second !== undefined) {
    return printQuantity({ ...quantity, low: second.low, high: second.high, symbol: second.symbol });
  }
  let other = otherSymbols[quantity.symbol];
  if (other === undefined) return undefined;
  if (dimension === 'torque' && other === 'lbf·ft' && quantity.high < SMALL_TORQUE_NM) other = 'lbf·in';
  return printQuantity(quantity, other);
}
