import { clearanceHoles, drillSteps, type Fit, fitOf, tapDrill } from '../../calc/holes';
import { UsageError } from '../io';
import { both, type Calculator, measureOf, sized, threadOf, tidy } from './answer';

const FITS: Readonly<Record<Fit, string>> = {
  'too-small': 'the bolt does not pass',
  close: 'a close fit, between the bolt and the fine clearance: allowed, where the holes are in line',
  fine: 'a fine clearance',
  medium: 'a medium clearance, the usual one',
  coarse: 'a coarse clearance',
  wide: 'wider than the coarse clearance: it wants a washer or another hole',
  unknown: 'no standard clearance is known here for this diameter',
};

/** Holes to pass a bolt, to be tapped, and the drills to them. */
export const hole: Calculator = {
  name: 'hole',
  usage: 'hole THREAD',
  summary: 'clearance holes, tap drill, and the drills that lead there',
  options: { size: { type: 'string' } },
  optionsHelp: [['--size FIGURE', 'say how a hole of this size takes the bolt']],
  example: 'hole M10 --size 10.2 mm',
  answer(words, args) {
    const thread = threadOf(words);
    const holes = clearanceHoles(thread);
    const size = measureOf(args, 'size', 'length');
    if (size !== undefined && size <= 0) throw new UsageError('--size takes the diameter of a hole.');
    const tap = tapDrill(thread);
    const fit = size === undefined ? undefined : fitOf(thread, size);
    const steps = drillSteps(size ?? holes?.medium ?? tap);
    return {
      title: `Holes for ${thread.name}`,
      rows: [
        ...(size === undefined || fit === undefined
          ? []
          : [[`A hole of ${sized(size, thread)}`, FITS[fit]] as const]),
        ...(holes === undefined
          ? []
          : ([
              ['Clearance, fine', sized(holes.fine, thread)],
              ['Clearance, medium', sized(holes.medium, thread)],
              ['Clearance, coarse', sized(holes.coarse, thread)],
            ] as const)),
        ['Tap drill', both(tap, 'length')],
        [`Drills to ${figure(steps.at(-1)!)} mm`, `${steps.map(figure).join(', ')} mm`],
        ['Drills to tap', `${drillSteps(tap).map(figure).join(', ')} mm`],
      ],
      notes: [],
      assumptions: [
        'tap drill: diameter less pitch, in round figures, as workshop charts have it',
        'drills: after a centre punch, each up to twice the last, a pilot above 5 mm (common practice)',
      ],
      sources: [
        ...(holes === undefined ? [] : [`clearance holes ${holes.source}`]),
        'tap drills as in charts after ISO 2306',
      ],
      figures: {
        clearance:
          holes === undefined
            ? null
            : { fine: tidy(holes.fine), medium: tidy(holes.medium), coarse: tidy(holes.coarse) },
        tapDrill: tap,
        drills: steps.map(tidy),
        tapDrills: drillSteps(tap),
        ...(size === undefined ? {} : { hole: { size: tidy(size), fit } }),
      },
    };
  },
};

const figure = (millimetres: number): string => String(Number(millimetres.toFixed(1)));
