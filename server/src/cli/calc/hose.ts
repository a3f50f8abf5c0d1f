import { HOSE_RESERVE, hoseLengths, hoseToSpare } from '../../calc/travel';
import { UsageError } from '../io';
import { both, type Calculator, measureOf, neededMeasure, tidy } from './answer';

/** What a hose or lead has to bridge over the travel of an axle. */
export const hose: Calculator = {
  name: 'hose',
  usage: 'hose',
  summary: 'what a hose or lead has to bridge at droop and at bump',
  options: {
    across: { type: 'string' },
    drop: { type: 'string' },
    droop: { type: 'string' },
    bump: { type: 'string' },
    free: { type: 'string' },
  },
  optionsHelp: [
    ['--across FIGURE', 'between its ends, seen from above'],
    ['--drop FIGURE', 'its end at the body above the moving one, at ride height'],
    ['--droop, --bump FIGURE', 'how far the moving end goes down, and up, from there'],
    ['--free FIGURE', 'of the hose between its fittings, to say what is spare'],
  ],
  example: 'hose --across 150 mm --drop 80 mm --droop 120 mm --bump 80 mm',
  answer(words, args) {
    if (words.length > 0)
      throw new UsageError(`"${words.join(' ')}" is not understood; this takes options only.`);
    const run = {
      across: neededMeasure(args, 'across', 'length', '150 mm'),
      drop: neededMeasure(args, 'drop', 'length', '80 mm'),
      droop: neededMeasure(args, 'droop', 'length', '120 mm'),
      bump: neededMeasure(args, 'bump', 'length', '80 mm'),
    };
    if (run.across < 0 || run.droop < 0 || run.bump < 0)
      throw new UsageError('--across, --droop and --bump are not below nothing.');
    const lengths = hoseLengths(run);
    const asked = lengths.needed * (1 + HOSE_RESERVE);
    const free = measureOf(args, 'free', 'length');
    const spare = free === undefined ? undefined : hoseToSpare(free, lengths);
    return {
      title: 'A hose over the travel',
      rows: [
        ['Straight at ride height', both(lengths.ride, 'length')],
        ['At full droop', both(lengths.atDroop, 'length')],
        ['At full bump', both(lengths.atBump, 'length')],
        ['Length to ask for', `${both(asked, 'length')} at least, between the fittings`],
        ...(spare === undefined
          ? []
          : ([
              [
                'This one',
                spare < 0
                  ? `is ${both(-spare, 'length')} too short`
                  : `has ${both(spare, 'length')} to spare`,
              ],
            ] as const)),
      ],
      notes:
        spare === undefined || free === undefined || free >= asked
          ? []
          : [
              spare! < 0
                ? 'It tears before the suspension is down.'
                : 'It is taut at full droop; ask for more.',
            ],
      assumptions: [
        'the moving end goes straight up and down; the other stays; steering and brackets that turn come on top',
        `${HOSE_RESERVE * 100} % in reserve at the worst (common practice)`,
        'at bump it must not reach anything that turns or is hot: look, with the suspension up',
      ],
      sources: ['right-angled triangles'],
      figures: {
        ride: tidy(lengths.ride),
        atDroop: tidy(lengths.atDroop),
        atBump: tidy(lengths.atBump),
        needed: tidy(lengths.needed),
        toAskFor: tidy(asked),
        ...(spare === undefined ? {} : { spare: tidy(spare) }),
      },
    };
  },
};
