/** What a figure measures. Its base unit is given in `baseSymbols`. */
export type Dimension =
  | 'torque'
  | 'length'
  | 'distance'
  | 'mass'
  | 'angle'
  | 'time'
  | 'pressure'
  | 'force'
  | 'volume'
  | 'temperature'
  | 'voltage'
  | 'current'
  | 'resistance'
  | 'power';

/** No job takes longer, in minutes: a time beyond it is a slip. */
export const MOST_MINUTES = 60_000;

/** The unit in which figures of a dimension are held. */
export const baseSymbols: Readonly<Record<Dimension, string>> = {
  torque: 'N·m',
  length: 'mm',
  distance: 'km',
  mass: 'kg',
  angle: '°',
  time: 'min',
  pressure: 'kPa',
  force: 'N',
  volume: 'L',
  temperature: '°C',
  voltage: 'V',
  current: 'A',
  resistance: 'Ω',
  power: 'W',
};

/** All that a figure may measure; a length comes before a distance, since both have metres. */
export const DIMENSIONS = Object.keys(baseSymbols) as readonly Dimension[];

/** One unit of one dimension: base = (value − offset) × factor. */
export interface Unit {
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly factor: number;
  readonly offset: number;
  /** Stands after its figure without a blank (`90°`). */
  readonly close: boolean;
}

// Exact by definition: inch, pound, pound-force, US gallon and mile; products of them are exact too (NIST SP 811,
// appendix B, prints the same to seven digits). The decimal products are the nearest doubles.
export const INCH_MM = 25.4;
export const POUND_KG = 0.45359237;
export const POUND_FORCE_N = 4.4482216152605;
const POUND_FOOT_NM = 1.3558179483314003;
const POUND_INCH_NM = 0.11298482902761668;
const PSI_KPA = 6.894757293168361;
const KILOGRAM_FORCE_N = 9.80665;
const US_GALLON_L = 3.785411784;
const MILE_KM = 1.609344;

const poundForce = ['lbf', 'lb', 'lbs', 'pound', 'pounds'];
const foot = ['ft', 'foot', 'feet'];
const inch = ['in', 'inch', 'inches'];

/** Both orders of a product, with and without the dot: `lb·ft`, `lbft`, `ft·lb`, `ftlb`. */
function products(left: readonly string[], right: readonly string[]): string[] {
  return left.flatMap((a) => right.flatMap((b) => [`${a}·${b}`, `${a}${b}`, `${b}·${a}`, `${b}${a}`]));
}

/** A stroke where a product is meant, as the trade often writes it: `ft/lb`, `lbs/ft`. */
const strokes = (lengths: readonly string[]): string[] =>
  lengths.flatMap((a) => ['lb', 'lbs', 'lbf'].flatMap((b) => [`${a}/${b}`, `${b}/${a}`]));

type Row = readonly [symbol: string, dimension: Dimension, factor: number, spellings: readonly string[]];

// Spellings are in lower case, with every separator written as "·"; the symbol itself always counts.
const rows: readonly Row[] = [
  ['N·m', 'torque', 1, ['nm', 'newton·metre', 'newton·metres', 'newton·meter', 'newton·meters']],
  ['kN·m', 'torque', 1000, ['knm']],
  ['daN·m', 'torque', 10, ['danm']],
  ['cN·m', 'torque', 0.01, ['cnm']],
  ['kgf·m', 'torque', KILOGRAM_FORCE_N, ['kgfm', 'kg·m', 'kgm', 'kp·m', 'kpm', 'm·kgf', 'm·kg']],
  ['lbf·ft', 'torque', POUND_FOOT_NM, [...products(poundForce, foot), ...strokes(['ft', 'foot'])]],
  ['lbf·in', 'torque', POUND_INCH_NM, [...products(poundForce, inch), ...strokes(['in', 'inch'])]],
  ['mm', 'length', 1, ['millimetre', 'millimetres', 'millimeter', 'millimeters']],
  ['cm', 'length', 10, ['centimetre', 'centimetres', 'centimeter', 'centimeters']],
  ['m', 'length', 1000, ['metre', 'metres', 'meter', 'meters']],
  ['µm', 'length', 0.001, ['um', 'μm']],
  ['in', 'length', INCH_MM, ['inch', 'inches', '"', '″', '”', "''"]],
  ['ft', 'length', INCH_MM * 12, ['foot', 'feet', "'", '′', '’']],
  ['km', 'distance', 1, ['kilometre', 'kilometres', 'kilometer', 'kilometers']],
  ['m', 'distance', 0.001, ['metre', 'metres', 'meter', 'meters']],
  ['mi', 'distance', MILE_KM, ['mile', 'miles']],
  ['kg', 'mass', 1, ['kgs', 'kilo', 'kilos', 'kilogram', 'kilograms']],
  ['g', 'mass', 0.001, ['gram', 'grams']],
  ['t', 'mass', 1000, ['tonne', 'tonnes']],
  ['lb', 'mass', POUND_KG, ['lbs', 'pound', 'pounds']],
  ['oz', 'mass', POUND_KG / 16, ['ounce', 'ounces']],
  ['°', 'angle', 1, ['deg', 'degree', 'degrees', 'º', '˚']],
  ['turn', 'angle', 360, ['turns', 'rev', 'revs']],
  ['min', 'time', 1, ['mins', 'minute', 'minutes']],
  ['s', 'time', 1 / 60, ['sec', 'secs', 'second', 'seconds']],
  ['h', 'time', 60, ['hr', 'hrs', 'hour', 'hours']],
  ['d', 'time', 1440, ['day', 'days']],
  ['kPa', 'pressure', 1, []],
  ['Pa', 'pressure', 0.001, []],
  ['MPa', 'pressure', 1000, []],
  ['bar', 'pressure', 100, ['bars']],
  ['mbar', 'pressure', 0.1, []],
  ['psi', 'pressure', PSI_KPA, ['lbf/in2', 'lbf/in²', 'lb/in2', 'lb/in²', 'psig']],
  ['N', 'force', 1, ['newton', 'newtons']],
  ['kN', 'force', 1000, ['kilonewton', 'kilonewtons']],
  ['lbf', 'force', POUND_FORCE_N, ['pound·force']],
  ['kgf', 'force', KILOGRAM_FORCE_N, ['kp']],
  ['L', 'volume', 1, ['litre', 'litres', 'liter', 'liters', 'ltr']],
  ['ml', 'volume', 0.001, ['cc', 'cm3', 'cm³', 'millilitre', 'millilitres', 'milliliter', 'milliliters']],
  ['US gal', 'volume', US_GALLON_L, ['usgal', 'us·gallon', 'us·gallons', 'gal', 'gallon', 'gallons']],
  ['US qt', 'volume', US_GALLON_L / 4, ['usqt', 'us·quart', 'us·quarts', 'qt', 'quart', 'quarts']],
  ['US fl oz', 'volume', US_GALLON_L / 128, ['us·floz', 'fl·oz', 'floz']],
  ['°C', 'temperature', 1, ['degc', 'deg·c', 'celsius', 'º·c', 'ºc', '˚c', '°·c']],
  ['°F', 'temperature', 1 / 1.8, ['degf', 'deg·f', 'fahrenheit', 'º·f', 'ºf', '˚f', '°·f']],
  ['V', 'voltage', 1, ['volt', 'volts']],
  ['mV', 'voltage', 0.001, ['millivolt', 'millivolts']],
  ['kV', 'voltage', 1000, ['kilovolt', 'kilovolts']],
  ['A', 'current', 1, ['amp', 'amps', 'ampere', 'amperes']],
  ['mA', 'current', 0.001, ['milliamp', 'milliamps']],
  ['Ω', 'resistance', 1, ['ohm', 'ohms', 'ω']],
  ['kΩ', 'resistance', 1000, ['kohm', 'kilohm', 'kilohms', 'kω']],
  ['W', 'power', 1, ['watt', 'watts']],
  ['kW', 'power', 1000, ['kilowatt', 'kilowatts']],
];

const units: readonly Unit[] = rows.map(([symbol, dimension, factor]) => ({
  symbol,
  dimension,
  factor,
  offset: symbol === '°F' ? 32 : 0,
  close: symbol === '°',
}));

/** How a unit is looked up: lower case, every run of blanks and separators one "·", a closing full stop dropped. */
export function unitKey(written: string): string {
  let key = '';
  for (const char of written.toLowerCase()) {
    if (!isSeparator(char)) key += char;
    else if (key !== '' && !key.endsWith('·')) key += '·';
  }
  return key.endsWith('·') ? key.slice(0, -1) : key;
}

const separators = new Set([...' \t\r\n\u00a0\u2007\u2009\u202f.*·⋅•‧∙×-\u2010\u2011']);

/** Whether a character may stand between the parts of a unit. */
export const isSeparator = (char: string): boolean => separators.has(char);

const unitsByKey: ReadonlyMap<string, readonly Unit[]> = (() => {
  const byKey = new Map<string, Unit[]>();
  rows.forEach(([symbol, , , spellings], index) => {
    const unit = units[index]!;
    for (const key of new Set([unitKey(symbol), ...spellings])) {
      const known = byKey.get(key);
      if (known) known.push(unit);
      else byKey.set(key, [unit]);
    }
  });
  return byKey;
})();

/** All units that a written spelling can mean (`m` is a length and a distance); empty where it is unknown. */
export function unitsSpelled(written: string): readonly Unit[] {
  return unitsByKey.get(unitKey(written)) ?? [];
}

/** The unit of a dimension that a spelling means, or undefined. */
export function findUnit(written: string, dimension: Dimension): Unit | undefined {
  return unitsSpelled(written).find((unit) => unit.dimension === dimension);
}

/** The symbols of all units of a dimension, the base unit first. */
export function symbolsOf(dimension: Dimension): string[] {
  const symbols = units.filter((unit) => unit.dimension === dimension).map((unit) => unit.symbol);
  return [baseSymbols[dimension], ...symbols.filter((symbol) => symbol !== baseSymbols[dimension])];
}

/** Every spelling that a unit of a dimension answers to, with the symbol to offer for it. */
export function spellingsOf(dimension: Dimension): { readonly key: string; readonly symbol: string }[] {
  const found: { key: string; symbol: string }[] = [];
  for (const [key, known] of unitsByKey) {
    for (const unit of known) if (unit.dimension === dimension) found.push({ key, symbol: unit.symbol });
  }
  return found;
}

/** A figure in a unit, in the base unit of its dimension. */
export const toBase = (value: number, unit: Unit): number => (value - unit.offset) * unit.factor;

/** A figure in the base unit, in another unit of the same dimension. */
export const fromBase = (base: number, unit: Unit): number => base / unit.factor + unit.offset;

/** How a dimension is named in a sentence. */
export const dimensionNames: Readonly<Record<Dimension, string>> = {
  torque: 'a torque',
  length: 'a length',
  distance: 'a distance',
  mass: 'a mass',
  angle: 'an angle',
  time: 'a time',
  pressure: 'a pressure',
  force: 'a force',
  volume: 'a volume',
  temperature: 'a temperature',
  voltage: 'a voltage',
  current: 'a current',
  resistance: 'a resistance',
  power: 'a power',
};
