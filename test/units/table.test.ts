import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { type Dimension, findUnit, fromBase, symbolsOf, toBase } from '../../server/src/units/table';

/** What is used of an independent library that does nothing but units. */
interface OtherUnit {
  to(unit: string): OtherUnit;
  getValue(): number;
}
const other: (text: string) => OtherUnit = createRequire(import.meta.url)('unitmath');

const convert = (value: number, from: string, to: string, dimension: Dimension): number =>
  fromBase(toBase(value, findUnit(from, dimension)!), findUnit(to, dimension)!);

/** Our symbols as the other library spells them; it does not know kgf, °, turns and the US fluid measures by themselves. */
const SPELLINGS: Readonly<Record<string, string>> = {
  N·m: 'N m',
  kN·m: 'kN m',
  daN·m: 'daN m',
  cN·m: 'cN m',
  lbf·ft: 'lbf ft',
  lbf·in: 'lbf in',
  µm: 'um',
  t: 'tonne',
  d: 'day',
  h: 'hour',
  min: 'minute',
  s: 'second',
  'US gal': 'gal',
  'US qt': 'qt',
  'US fl oz': 'floz',
  '°C': 'degC',
  '°F': 'degF',
  '°': 'deg',
};
const UNKNOWN: ReadonlySet<string> = new Set(['kgf·m', 'kgf', 'turn']);

describe('an independent library', () => {
  const dimensions: readonly Dimension[] = [
    'torque',
    'length',
    'distance',
    'mass',
    'angle',
    'time',
    'pressure',
    'force',
    'volume',
    'temperature',
  ];
  const rows = dimensions.flatMap((dimension) => {
    const [base, ...rest] = symbolsOf(dimension);
    return rest.filter((symbol) => !UNKNOWN.has(symbol)).map((symbol) => [symbol, base!, dimension] as const);
  });

  it('knows nearly all of the units', () => {
    expect(rows.length).toBeGreaterThan(30);
  });

  it.each(rows)('has %s in %s as we have', (symbol, base, dimension) => {
    const spell = (one: string) => SPELLINGS[one] ?? one;
    for (const value of [1, 95, 0.37]) {
      const theirs = other(`${value} ${spell(symbol)}`)
        .to(spell(base))
        .getValue();
      const ours = convert(value, symbol, base, dimension);
      expect(Math.abs(theirs - ours)).toBeLessThan(Math.max(1, Math.abs(ours)) * 1e-12);
    }
  });
});
