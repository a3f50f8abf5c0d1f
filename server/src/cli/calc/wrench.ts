import { leverage, settable, settingFor, torqueAtBolt } from '../../calc/wrench';
import { roundingStepOf } from '../../units/format';
import { parseQuantity } from '../../units/quantity';
import { findUnit, fromBase, toBase } from '../../units/table';
import { UsageError } from '../io';
import {
  alone,
  both,
  type Calculator,
  figureIn,
  measureOf,
  neededMeasure,
  signedPercent,
  tidy,
} from './answer';

/** What to set a torque wrench to that has an extension on it. */
export const wrench: Calculator = {
  name: 'wrench',
  usage: 'wrench TORQUE',
  summary: 'what to set a torque wrench to that has an extension on it',
  options: {
    length: { type: 'string' },
    extension: { type: 'string' },
    angle: { type: 'string' },
    step: { type: 'string' },
  },
  optionsHelp: [
    ['--length FIGURE', 'from the middle of the grip to the square'],
    ['--extension FIGURE', 'from the square to the middle of the bolt'],
    ['--angle ANGLE', '0° straight on (if left out), 90° square, 180° back'],
    ['--step FIGURE', 'of the scale; 1, 0.5 or 0.1 by size if left out'],
  ],
  example: 'wrench 90 N·m --length 400 mm --extension 60 mm',
  answer(words, args) {
    const text = words.join(' ');
    if (text === '') throw new UsageError('The torque at the bolt is missing, such as 90 N·m.');
    const wanted = figureIn(text, 'torque', 'The torque');
    const symbol = symbolOf(text);
    const how = {
      length: neededMeasure(args, 'length', 'length', '400 mm'),
      extension: neededMeasure(args, 'extension', 'length', '60 mm'),
      angle: measureOf(args, 'angle', 'angle') ?? 0,
    };
    if (how.length <= 0 || how.extension < 0)
      throw new UsageError('Lengths of a wrench are more than nothing.');
    const setting = settingFor(wanted, how);
    if (setting === null)
      throw new UsageError(
        'The bolt is behind the hand so; turn the extension round or take a longer wrench.',
      );
    const unit = findUnit(symbol, 'torque')!;
    const step = measureOf(args, 'step', 'torque');
    if (step !== undefined && step <= 0)
      throw new UsageError('--step takes what the scale is marked in, such as 1 N·m.');
    const figure = fromBase(setting, unit);
    const marked = step === undefined ? roundingStepOf(figure, symbol) : fromBase(step, unit);
    const set = toBase(settable(figure, marked), unit);
    const atBolt = torqueAtBolt(set, how);
    return {
      title: `${text} at the bolt`,
      rows: [
        ['Set the wrench to', both(set, 'torque', symbol)],
        [
          'The bolt then gets',
          `${alone(atBolt, 'torque', symbol)}, ${signedPercent(atBolt / wanted - 1)} of what was asked`,
        ],
        ['The extension makes it', `${leverage(how).toFixed(3)} times the scale`],
      ],
      notes: how.angle === 90 ? ['Square to the wrench the extension changes nothing.'] : [],
      assumptions: [
        'the hand pulls at the middle of the grip, square to the wrench',
        `the extension stands at ${Number(how.angle.toFixed(1))}° (0° straight on, 90° square)`,
        'lengths as measured; the extension does not bend',
      ],
      sources: ['lever arms: setting = torque × L / (L + E cos angle)'],
      figures: {
        setting: tidy(setting),
        settable: tidy(set),
        torqueAtBolt: tidy(atBolt),
        leverage: tidy(leverage(how)),
      },
    };
  },
};

/** The unit that the torque is written in, which the scale is taken to have. */
function symbolOf(text: string): string {
  const result = parseQuantity(text, 'torque');
  return result.ok ? result.quantity.symbol : 'N·m';
}
