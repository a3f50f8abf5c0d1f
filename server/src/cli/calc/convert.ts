import { printRounded } from '../../units/format';
import { parseQuantity, type Quantity } from '../../units/quantity';
import { DIMENSIONS, findUnit, fromBase, symbolsOf } from '../../units/table';
import { UsageError } from '../io';
import { type Calculator, tidy } from './answer';

/** A figure in every unit of the trade. */
export const convert: Calculator = {
  name: 'convert',
  usage: 'convert FIGURE',
  summary: 'a figure in every unit of the trade',
  options: {},
  optionsHelp: [],
  example: 'convert 95 N·m',
  answer(words) {
    const text = words.join(' ');
    if (text === '') throw new UsageError('A figure with its unit is missing, such as 95 N·m.');
    const result = parseQuantity(text, DIMENSIONS);
    if (!result.ok) throw new UsageError(result.problem.message);
    const { quantity } = result;
    const { dimension, symbol } = quantity;
    const others = symbolsOf(dimension).filter((one) => one !== symbol);
    return {
      title: text.replace('−', '-'),
      rows: others.map((one) => [one, inUnit(quantity, one)]),
      notes: [],
      assumptions: [
        dimension === 'torque'
          ? 'figures are rounded as a torque wrench can be set (common practice)'
          : 'figures are rounded to what the trade reads (common practice)',
      ],
      sources: [
        'inch, pound, pound-force, US gallon and mile are exact by definition; NIST SP 811 prints the same',
      ],
      figures: {
        dimension,
        in: Object.fromEntries(
          [symbol, ...others].map((one) => {
            const unit = findUnit(one, dimension)!;
            return [
              one,
              { low: tidy(fromBase(quantity.low, unit)), high: tidy(fromBase(quantity.high, unit)) },
            ];
          }),
        ),
      },
    };
  },
};

function inUnit({ low, high, dimension }: Quantity, symbol: string): string {
  const unit = findUnit(symbol, dimension)!;
  const figure = (base: number): string => {
    const exact = fromBase(base, unit);
    const rounded = printRounded(base, unit);
    // What rounding would falsify (0.095 kN·m) is said to three digits.
    return Math.abs(Number(rounded) - exact) > Math.abs(exact) * 0.01
      ? String(Number(exact.toPrecision(3)))
      : rounded;
  };
  return low === high ? figure(low) : `${figure(low)} to ${figure(high)}`;
}
