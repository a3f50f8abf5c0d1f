import { trackBarShift } from '../../calc/travel';
import { UsageError } from '../io';
import { alone, both, type Calculator, neededMeasure, tidy } from './answer';

/** How far an axle goes sideways on its track bar when the body is lifted. */
export const trackbar: Calculator = {
  name: 'trackbar',
  usage: 'trackbar',
  summary: 'how far a lift shifts an axle sideways on its track bar',
  options: { length: { type: 'string' }, rise: { type: 'string' }, lift: { type: 'string' } },
  optionsHelp: [
    ['--length FIGURE', 'of the bar, between the middles of its bolts'],
    ['--rise FIGURE', 'its end at the frame above that at the axle, as it stands'],
    ['--lift FIGURE', 'of the body; with a minus sign for lowering'],
  ],
  example: 'trackbar --length 900 mm --rise 80 mm --lift 50 mm',
  answer(words, args) {
    if (words.length > 0)
      throw new UsageError(`"${words.join(' ')}" is not understood; this takes options only.`);
    const length = neededMeasure(args, 'length', 'length', '900 mm');
    const rise = neededMeasure(args, 'rise', 'length', '80 mm');
    const up = neededMeasure(args, 'lift', 'length', '50 mm');
    const found = trackBarShift({ length, rise }, up);
    if (found === null) throw new UsageError('A bar of this length does not reach so far up or down.');
    const towards =
      found.shift > 0 ? "towards the bar's end at the frame" : "away from the bar's end at the frame";
    return {
      title: `Track bar of ${alone(length, 'length')}, ${up < 0 ? 'lowered' : 'lifted'} by ${alone(Math.abs(up), 'length')}`,
      rows: [
        [
          'The axle goes',
          Math.abs(found.shift) < 0.05 ? 'nowhere' : `${both(Math.abs(found.shift), 'length')} ${towards}`,
        ],
        ['In the middle again with', `a bar of ${both(found.length, 'length')}`],
        [
          'Or with',
          `a bracket that takes its end at the axle ${both(Math.abs(up), 'length')} ${up < 0 ? 'down' : 'up'}`,
        ],
        [
          'Angle of the bar',
          `${found.angleBefore.toFixed(1)}° before, ${found.angleAfter.toFixed(1)}° after`,
        ],
      ],
      notes: [],
      assumptions: [
        'the body goes straight up; both ends are points in one plane across the vehicle; rubber and frame do not give',
        'measured with the vehicle on its wheels',
      ],
      sources: ['right-angled triangles'],
      figures: {
        shift: tidy(found.shift),
        lengthToRestore: tidy(found.length),
        bracket: tidy(found.bracket),
        angleBefore: tidy(found.angleBefore),
        angleAfter: tidy(found.angleAfter),
      },
    };
  },
};
