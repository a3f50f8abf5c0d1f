import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Dimension,
  parseQuantity,
  type Quantity,
  type QuantityProblem,
} from '../../server/src/units/quantity';
import { printedPairs } from './printed-pairs';

function read(text: string, dimension: Dimension | readonly Dimension[]): Quantity {
  const result = parseQuantity(text, dimension);
  if (!result.ok) throw new Error(`${text}: ${result.problem.message}`);
  return result.quantity;
}

function refuse(text: string, dimension: Dimension | readonly Dimension[]): QuantityProblem {
  const result = parseQuantity(text, dimension);
  if (result.ok) throw new Error(`${text} was read as ${JSON.stringify(result.quantity)}`);
  expect(result.problem.start).toBeGreaterThanOrEqual(0);
  expect(result.problem.end).toBeGreaterThanOrEqual(result.problem.start);
  expect(result.problem.end).toBeLessThanOrEqual(text.length);
  return result.problem;
}

const range = ({ low, high }: Quantity): number[] => [low, high];

describe('figures as guides write them', () => {
  it.each<[string, Dimension, number, number]>([
    ['95 N·m', 'torque', 95, 95],
    ['95 Nm', 'torque', 95, 95],
    ['95Nm', 'torque', 95, 95],
    ['95 N.m', 'torque', 95, 95],
    ['95 N m', 'torque', 95, 95],
    ['95 N-m', 'torque', 95, 95],
    ['95\u00a0N\u22c5m', 'torque', 95, 95],
    ['108-136 N·m', 'torque', 108, 136],
    ['108–136 N·m', 'torque', 108, 136],
    ['108 – 136\u202fN·m', 'torque', 108, 136],
    ['108 to 136 N·m', 'torque', 108, 136],
    ['108 N·m-136 N·m', 'torque', 108, 136],
    ['108 N·m to 136 N·m', 'torque', 108, 136],
    ['95 ± 5 N·m', 'torque', 90, 100],
    ['22,5 N·m', 'torque', 22.5, 22.5],
    ['0,500 N·m', 'torque', 0.5, 0.5],
    ['1 192 N·m', 'torque', 1192, 1192],
    ['1\u202f192,5 N·m', 'torque', 1192.5, 1192.5],
    ['2712 N·m', 'torque', 2712, 2712],
    ['.5 N·m', 'torque', 0.5, 0.5],
    ['90°', 'angle', 90, 90],
    ['90 deg', 'angle', 90, 90],
    ['1/4 turn', 'angle', 90, 90],
    ['1/2 in', 'length', 12.7, 12.7],
    ['3 1/2 in', 'length', 88.9, 88.9],
    ['3-1/2 in', 'length', 88.9, 88.9],
    ['3½ in.', 'length', 88.9, 88.9],
    ['1/4-1/2 in', 'length', 6.35, 12.7],
    ['1/2"', 'length', 12.7, 12.7],
    ['1 ft 6 in', 'length', 457.2, 457.2],
    ['-5 mm', 'length', -5, -5],
    ['\u22125 mm', 'length', -5, -5],
    ['-5 to 5 mm', 'length', -5, 5],
    ['-5 – -2 mm', 'length', -5, -2],
    ['75 mm', 'length', 75, 75],
    ['7.5 cm', 'length', 75, 75],
    ['12 min', 'time', 12, 12],
    ['1 h 30 min', 'time', 90, 90],
    ['1h30min', 'time', 90, 90],
    ['1-2 h', 'time', 60, 120],
    ['30 s', 'time', 0.5, 0.5],
    ['80 km', 'distance', 80, 80],
    ['50 miles', 'distance', 80.4672, 80.4672],
    ['0.7-7 bar', 'pressure', 70, 700],
    ['250 kPa', 'pressure', 250, 250],
    ['15 kg', 'mass', 15, 15],
    ['1.5 L', 'volume', 1.5, 1.5],
    ['750 ml', 'volume', 0.75, 0.75],
    ['-40 °C', 'temperature', -40, -40],
  ])('reads %s as %s', (text, dimension, low, high) => {
    const quantity = read(text, dimension);
    expect(quantity.low).toBeCloseTo(low, 9);
    expect(quantity.high).toBeCloseTo(high, 9);
    expect(quantity.nominal).toBeCloseTo((low + high) / 2, 9);
    expect(quantity.dimension).toBe(dimension);
  });

  it.each([
    'lb-ft',
    'lb ft',
    'lbf·ft',
    'ft-lb',
    'ft·lbf',
    'ft-lbs',
    'ft. lbs.',
    'lbft',
    'LB-FT',
    'foot-pounds',
  ])('reads 80 %s as a torque', (unit) => {
    const quantity = read(`80 ${unit}`, 'torque');
    expect(quantity.low).toBeCloseTo(108.46543586651, 9);
    expect(quantity.symbol).toBe('lbf·ft');
    expect(quantity.unit).toBe(unit);
  });

  it.each(['in-lb', 'lbf·in', 'in·lbf', 'inch pounds', 'in.-lb.'])('reads 71 %s as a torque', (unit) => {
    expect(read(`71 ${unit}`, 'torque').low).toBeCloseTo(8.02192286, 7);
    expect(read(`71 ${unit}`, 'torque').symbol).toBe('lbf·in');
  });

  it('holds a pair with its second unit', () => {
    expect(read('108-136 N·m (80-100 lbf·ft)', 'torque')).toEqual({
      dimension: 'torque',
      low: 108,
      high: 136,
      nominal: 122,
      unit: 'N·m',
      symbol: 'N·m',
      second: {
        low: expect.closeTo(108.4654, 3),
        high: expect.closeTo(135.5818, 3),
        unit: 'lbf·ft',
        symbol: 'lbf·ft',
      },
    });
    expect(read('75 mm (3 in)', 'length').second?.low).toBeCloseTo(76.2, 9);
    expect(read('3 mm (0.12 in)', 'length').second?.low).toBeCloseTo(3.048, 9);
    expect(read('6 mm (1/4 in)', 'length').second?.low).toBeCloseTo(6.35, 9);
    expect(refuse('60 mm (1/4 in)', 'length').code).toBe('pair-disagrees');
    expect(read('95\n  N·m\t(70 lb\u2011ft)', 'torque').second?.symbol).toBe('lbf·ft');
    expect(read('2.1 bar (30 psi)', 'pressure').second?.symbol).toBe('psi');
    expect(read('93 °C (200 °F)', 'temperature').second?.low).toBeCloseTo(93.333, 3);
  });

  it('takes the dimension that fits where several will do', () => {
    expect(read('80 km', ['distance', 'time']).dimension).toBe('distance');
    expect(read('2 h', ['distance', 'time']).dimension).toBe('time');
    expect(read('500 m', ['distance', 'time']).low).toBeCloseTo(0.5, 12);
    expect(read('2 m', 'length').low).toBe(2000);
  });

  it.each(printedPairs)(
    'accepts the pair printed in %s: %d-%d lb-ft, %d-%d N·m',
    (_, lbLow, lbHigh, low, high) => {
      const figure = (from: number, to: number): string => (from === to ? `${from}` : `${from}-${to}`);
      const quantity = read(`${figure(low, high)} N·m (${figure(lbLow, lbHigh)} lb-ft)`, 'torque');
      expect(range(quantity)).toEqual([low, high]);
      read(`${figure(lbLow, lbHigh)} lb-ft (${figure(low, high)} N·m)`, 'torque');
    },
  );

  it('has all 49 printed pairs', () => {
    expect(printedPairs.length).toBe(49);
  });
});

describe('what is wrong, in one sentence', () => {
  it.each<[string, Dimension | readonly Dimension[], QuantityProblem['code'], string, string]>([
    ['95', 'torque', 'missing-unit', '95', 'The unit is missing: a torque needs one, such as "95 N·m".'],
    [
      '95-100',
      'torque',
      'missing-unit',
      '95-100',
      'The unit is missing: a torque needs one, such as "95-100 N·m".',
    ],
    ['90', 'angle', 'missing-unit', '90', 'The unit is missing: an angle needs one, such as "90°".'],
    ['1 h 30', 'time', 'missing-unit', '1 h 30', 'The unit of the last figure in "1 h 30" is missing.'],
    ['95 Nn', 'torque', 'unknown-unit', 'Nn', 'The unit "Nn" is not known; did you mean "N·m"?'],
    ['95 bananas (70 lbf·ft)', 'torque', 'unknown-unit', 'bananas', 'The unit "bananas" is not known.'],
    ['12 minuts', 'time', 'unknown-unit', 'minuts', 'The unit "minuts" is not known; did you mean "min"?'],
    ['95 mm', 'torque', 'wrong-dimension', 'mm', 'A torque is wanted here, not a length.'],
    [
      '80 kg',
      ['distance', 'time'],
      'wrong-dimension',
      'kg',
      'A distance or a time is wanted here, not a mass.',
    ],
    ['95 N·m (95 mm)', 'torque', 'wrong-dimension', 'mm', 'A torque is wanted here, not a length.'],
    [
      '95 N·m (80 lbf·ft)',
      'torque',
      'pair-disagrees',
      '80 lbf·ft',
      'The two figures disagree: 80 lbf·ft is 108 N·m, not 95 N·m.',
    ],
    [
      '108-136 N·m (80-90 lbf·ft)',
      'torque',
      'pair-disagrees',
      '80-90 lbf·ft',
      'The two figures disagree: 90 lbf·ft is 122 N·m, not 136 N·m.',
    ],
    [
      '136-108 N·m',
      'torque',
      'range-upside-down',
      '136-108 N·m',
      'The range "136-108 N·m" is upside down: its first figure is the larger.',
    ],
    ['-5 N·m', 'torque', 'negative', '-5 N·m', 'A torque cannot be below zero.'],
    ['-2 kg', 'mass', 'negative', '-2 kg', 'A mass cannot be below zero.'],
    ['tight', 'torque', 'not-a-number', 'tight', '"tight" is not a number with its unit.'],
    ['', 'torque', 'not-a-number', '', 'A torque is missing here.'],
    ['95- N·m', 'torque', 'not-a-number', 'N·m', '"N·m" is not a number with its unit.'],
    ['1.2.3 N·m', 'torque', 'not-a-number', '1.2.3', '"1.2.3" is not a number.'],
    ['1/0 in', 'length', 'not-a-number', '1/0', '"1/0" is not a number.'],
    [
      '1,192 N·m',
      'torque',
      'not-a-number',
      '1,192',
      '"1,192" can be read as 1.192 or as 1192; write it without the comma.',
    ],
    ['95 N·m dry', 'torque', 'not-understood', 'dry', '"dry" after the figure is not understood.'],
    [
      '95 N·m (70 lbf·ft',
      'torque',
      'not-understood',
      '(70 lbf·ft',
      'The bracket after the figure is not closed.',
    ],
    ['30 min 1 h', 'time', 'not-understood', '30 min 1 h', '"30 min 1 h" is not understood as one figure.'],
  ])('says of %s (%s) that it is %s', (text, dimension, code, marked, message) => {
    const problem = refuse(text, dimension);
    expect({
      code: problem.code,
      marked: text.slice(problem.start, problem.end),
      message: problem.message,
    }).toEqual({
      code,
      marked,
      message,
    });
  });

  it('offers what a fix could write', () => {
    expect(refuse('95', 'torque').suggestion).toBe('N·m');
    expect(refuse('95 lbfftt', 'torque').suggestion).toBe('lbf·ft');
    expect(refuse('95 bananas', 'torque').suggestion).toBeUndefined();
  });

  it('holds pairs of torques equal to the larger of 1 N·m and 1 %', () => {
    expect(parseQuantity('94 N·m (70 lbf·ft)', 'torque').ok).toBe(true); // 94.907, 0.907 off
    expect(parseQuantity('93.9 N·m (70 lbf·ft)', 'torque').ok).toBe(false); // 1.007 off
    expect(parseQuantity('1000 N·m (744 lbf·ft)', 'torque').ok).toBe(true); // 1008.7, 0.87 %
    expect(parseQuantity('1000 N·m (746 lbf·ft)', 'torque').ok).toBe(false); // 1011.4, 1.1 %
  });
});

describe('any text', () => {
  const pieces = fc.array(
    fc.constantFrom(
      ...[
        '95',
        '1/2',
        ' ',
        '-',
        '–',
        'N·m',
        'Nm',
        '(',
        ')',
        'lbf·ft',
        '°',
        ',',
        '.',
        '/',
        '±',
        'to',
        ' to ',
        'h',
        'min',
      ],
      ...[
        '30',
        '½',
        '"',
        '\u00a0',
        '1e9',
        '-5',
        'x',
        '\u{1f527}',
        '\ud800',
        '\n',
        '0',
        '999999999999999999999',
      ],
    ),
    { maxLength: 12 },
  );
  const dimensions = fc.constantFrom<Dimension>(
    'torque',
    'length',
    'time',
    'angle',
    'temperature',
    'pressure',
  );

  it('is read or refused with a sentence and a place, and never throws', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary' }),
          pieces.map((list) => list.join('')),
        ),
        dimensions,
        (text, dimension) => {
          const result = parseQuantity(text, dimension);
          if (result.ok) {
            expect(Number.isFinite(result.quantity.low) && Number.isFinite(result.quantity.high)).toBe(true);
            expect(result.quantity.low).toBeLessThanOrEqual(result.quantity.high);
          } else {
            expect(result.problem.message.length).toBeGreaterThan(10);
            expect(result.problem.start).toBeLessThanOrEqual(result.problem.end);
            expect(result.problem.end).toBeLessThanOrEqual(text.length);
          }
        },
      ),
      { numRuns: 3000 },
    );
  });

  it.each([
    ['digits', '9'.repeat(100_000)],
    ['digits that fit', '9'.repeat(190)],
    ['blanks', ' '.repeat(100_000)],
    ['dashes', '1-'.repeat(90)],
    ['brackets', '('.repeat(50_000)],
    ['units', 'N·'.repeat(90)],
    ['parts', '1 h '.repeat(45)],
  ])('refuses hostile %s at once', (_, text) => {
    expect(parseQuantity(text, 'torque').ok).toBe(false);
    expect(parseQuantity(text, 'time').ok).toBe(false);
  });
});
