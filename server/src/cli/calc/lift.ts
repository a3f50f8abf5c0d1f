import {
  type Grip,
  guidelineWeight,
  handsFor,
  type Lift,
  liftingIndex,
  liftLimit,
  type Zone,
} from '../../calc/lifting';
import { parseQuantity } from '../../units/quantity';
import { choiceOf } from '../command';
import { UsageError } from '../io';
import { type Calculator, figureIn, masses, measureOf, numberOf, tidy } from './answer';

/** Hands further out than this are at arm's length, mm; INDG143 draws it at the forearm, about here. */
const FAR = 400;
/** Heights of the zones of INDG143 for a person of middle height, mm; common practice. */
const ZONES: readonly (readonly [from: number, zone: Zone])[] = [
  [1400, 'above-shoulder'],
  [1100, 'shoulder'],
  [750, 'elbow'],
  [350, 'knuckle'],
  [Number.NEGATIVE_INFINITY, 'lower-leg'],
];

export const GRIPS: readonly Grip[] = ['good', 'fair', 'poor'];

/** Whether one person may lift a thing so. */
export const lift: Calculator = {
  name: 'lift',
  usage: 'lift MASS',
  summary: 'whether one person may lift it so, or it asks for two or an aid',
  options: {
    reach: { type: 'string' },
    from: { type: 'string' },
    to: { type: 'string' },
    twist: { type: 'string' },
    'per-minute': { type: 'string' },
    hours: { type: 'string' },
    grip: { type: 'string' },
  },
  optionsHelp: [
    ['--reach FIGURE', 'from the ankles forward to the hands (400 mm)'],
    ['--from, --to FIGURE', 'height of the hands at the start (750 mm) and end (1000 mm)'],
    ['--twist ANGLE', 'how far it is turned out of the straight (0°)'],
    ['--per-minute NUMBER', 'lifts a minute (0.2)'],
    ['--hours NUMBER', 'of the day in which it is lifted so (1)'],
    ['--grip WORD', 'good, fair or poor (fair)'],
  ],
  example: 'lift 32 kg --reach 400 mm --from 300 mm --to 900 mm',
  answer(words, args) {
    const text = words.join(' ');
    if (text === '') throw new UsageError('The mass is missing, such as 32 kg.');
    const mass = figureIn(text, 'mass', 'The mass');
    const how: Lift = {
      reach: measureOf(args, 'reach', 'length') ?? 400,
      from: measureOf(args, 'from', 'length') ?? 750,
      to: measureOf(args, 'to', 'length') ?? 1000,
      twist: measureOf(args, 'twist', 'angle') ?? 0,
      perMinute: numberOf(args, 'per-minute', 0, 60) ?? 0.2,
      hours: numberOf(args, 'hours', 0, 24) ?? 1,
      grip: choiceOf(args, 'grip', GRIPS, 'fair'),
    };
    if (how.reach < 0 || how.from < 0 || how.to < 0)
      throw new UsageError(
        'Heights and reach are measured from the floor and the ankles; they are not below nothing.',
      );
    const form = inPounds(text) ? 'inch' : 'metric';
    const start = liftLimit(how, 'from', form);
    const end = liftLimit(how, 'to', form);
    const least = start.limit <= end.limit ? start : end;
    const index = liftingIndex(mass, least);
    const guidelines = [how.from, how.to].map((height) =>
      guidelineWeight(ZONES.find(([from]) => height >= from)![1], how.reach > FAR, how.twist, how.perMinute),
    );
    const guideline = {
      men: Math.min(...guidelines.map(({ men }) => men)),
      women: Math.min(...guidelines.map(({ women }) => women)),
    };
    // One who takes part in a lift of several is asked for no more than either guide lets one lift alone.
    const hands = handsFor(mass, Math.min(guideline.men, least.limit));
    return {
      title: `${text}, lifted by hand`,
      rows: [
        ['Limit at the start', masses(start.limit)],
        ['Limit at the end', masses(end.limit)],
        ['Lifting index', index === Number.POSITIVE_INFINITY ? 'not to be lifted so' : index.toFixed(2)],
        ['Guideline, men', masses(guideline.men)],
        ['Guideline, women', masses(guideline.women)],
        ['It asks for', HANDS[hands]],
      ],
      notes:
        index > 3
          ? ['An index above 3 is more than nearly anyone should lift.']
          : index > 1
            ? [
                'An index above 1 is more than some can lift without harm; bring it nearer, higher, or ask for help.',
              ]
            : [],
      assumptions: [
        `hands ${Math.round(how.reach)} mm out, from ${Math.round(how.from)} to ${Math.round(how.to)} mm high, turned ${Number(how.twist.toFixed(1))}°, ${how.perMinute} a minute for ${how.hours} h, ${how.grip} grip`,
        'two hands, a smooth lift, firm ground, room to stand; not kneeling, not under a vehicle',
        'heights for a person of middle height; how many it asks for goes by the lower of limit and guideline for men; two lift two thirds, three half of what they could one by one',
      ],
      sources: [
        `lifting equation, DHHS (NIOSH) publication 94-110, ${form === 'inch' ? 'in its inch form' : 'in its metric form'}`,
        'guideline HSE INDG143; teams HSE L23 (figures from memory)',
      ],
      figures: {
        mass: tidy(mass),
        limitAtStart: tidy(start.limit),
        limitAtEnd: tidy(end.limit),
        multipliers: { start: start.multipliers, end: end.multipliers },
        liftingIndex: index === Number.POSITIVE_INFINITY ? null : tidy(index),
        guideline: { men: tidy(guideline.men), women: tidy(guideline.women) },
        asksFor: hands,
      },
    };
  },
};

const HANDS = {
  1: 'one person',
  2: 'two people, at the same time',
  3: 'three people, or an aid',
  aid: 'an aid: hoist, jack or lifting table',
} as const;

/** The publication prints its constants twice; who writes pounds gets the inch form. */
function inPounds(text: string): boolean {
  const result = parseQuantity(text, 'mass');
  return result.ok && result.quantity.symbol === 'lb';
}
