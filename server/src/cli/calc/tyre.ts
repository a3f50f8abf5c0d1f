import { changeOfTyre, circumference, ratioToRestore } from '../../calc/tyres';
import { parseTyre, type Tyre } from '../../units/tyre';
import { UsageError } from '../io';
import { both, type Calculator, numberOf, signedPercent, tidy } from './answer';

/** One tyre's sizes, or what changing to a second does. */
export const tyre: Calculator = {
  name: 'tyre',
  usage: 'tyre CODE [NEW CODE]',
  summary: 'sizes of a tyre, and what another does to speed and gearing',
  options: { ratio: { type: 'string' } },
  optionsHelp: [['--ratio NUMBER', 'the axle ratio: what it amounts to, what restores it']],
  example: 'tyre 205/55R16 225/60R16',
  answer(words, args) {
    const [from, to] = tyresIn(words);
    const ratio = numberOf(args, 'ratio', 1, 15);
    if (to === undefined) {
      if (ratio !== undefined) throw new UsageError('--ratio goes with two tyres.');
      return {
        title: from.name,
        rows: rowsOf(from),
        notes: [],
        assumptions: ASSUMPTIONS,
        sources: SOURCES,
        figures: figuresOf(from),
      };
    }
    const change = changeOfTyre(from, to);
    const true100 = change.trueSpeed * 100;
    return {
      title: `${from.name} → ${to.name}`,
      rows: [
        [
          'Diameter',
          `${both(from.diameter, 'length')} → ${both(to.diameter, 'length')}, ${signedPercent(change.share)}`,
        ],
        ['Circumference', `${both(circumference(from), 'length')} → ${both(circumference(to), 'length')}`],
        ['Section width', `${both(from.width, 'length')} → ${both(to.width, 'length')}`],
        [
          'The axle comes',
          Math.abs(change.lift) < 0.05
            ? 'neither up nor down'
            : `${change.lift > 0 ? 'up' : 'down'} by ${both(Math.abs(change.lift), 'length')}`,
        ],
        ['At 100 on the dial', `${true100.toFixed(1)} in truth, if the speedometer was right`],
        [
          'Effective gearing',
          `${lengthened(change.gearing)}${ratio === undefined ? '' : `: a ratio of ${ratio} is as ${(ratio * change.gearing).toFixed(2)} was`}`,
        ],
        ...(ratio === undefined
          ? []
          : ([['Ratio that restores it', ratioToRestore(ratio, change).toFixed(2)]] as const)),
      ],
      notes: [
        ...(true100 > 100.05
          ? [
              'The speedometer reads less than the speed, which the law forbids in many places: have it set anew.',
            ]
          : []),
        ...(from.rim !== to.rim ? ['The two are for rims of different diameters.'] : []),
        ...(from.loadIndex !== null && to.loadIndex !== null && to.loadIndex < from.loadIndex
          ? [`The load index falls from ${from.loadIndex} to ${to.loadIndex}: it may not carry this vehicle.`]
          : []),
      ],
      assumptions: ASSUMPTIONS,
      sources: SOURCES,
      figures: {
        from: figuresOf(from),
        to: figuresOf(to),
        diameterChange: tidy(change.diameter),
        share: tidy(change.share),
        lift: tidy(change.lift),
        trueSpeed: tidy(change.trueSpeed),
        gearing: tidy(change.gearing),
        ...(ratio === undefined ? {} : { ratioToRestore: tidy(ratioToRestore(ratio, change)) }),
      },
    };
  },
};

const ASSUMPTIONS = [
  'nominal sizes of the code; makers differ by a per cent or two, and a tyre rolls about 3 % less than its circumference',
];
const SOURCES = ["the code's own sum: rim + 2 × width × aspect / 100 (ISO 4000-1), the inch 25.4 mm"];

/** `6.6 % longer`: fewer turns of the engine to the mile. */
function lengthened(gearing: number): string {
  const change = Math.round(Math.abs(gearing - 1) * 1000) / 10;
  return change === 0 ? 'as it was' : `${change} % ${gearing < 1 ? 'longer' : 'shorter'}`;
}

/** One or two codes; each may have its load and speed behind it, apart. */
function tyresIn(words: readonly string[]): [Tyre, Tyre?] {
  if (words.length === 0) throw new UsageError('A tyre is missing, such as 205/55R16.');
  const whole = parseTyre(words.join(' '));
  if (whole.ok) return [whole.tyre];
  for (let count = words.length - 1; count > 0; count--) {
    const from = parseTyre(words.slice(0, count).join(' '));
    const to = parseTyre(words.slice(count).join(' '));
    if (from.ok && to.ok) return [from.tyre, to.tyre];
  }
  const bad = words.map((word) => parseTyre(word)).find((read) => !read.ok);
  throw new UsageError(bad !== undefined && !bad.ok ? bad.message : 'This takes one tyre or two.');
}

function rowsOf(one: Tyre): [string, string][] {
  return [
    ['Diameter', both(one.diameter, 'length')],
    ['Circumference', both(circumference(one), 'length')],
    ['Section width', both(one.width, 'length')],
    ['Rim', both(one.rim, 'length')],
    ...(one.loadIndex === null ? [] : ([['Load index', `${one.loadIndex}`]] as [string, string][])),
    ...(one.speed === null ? [] : ([['Speed letter', one.speed]] as [string, string][])),
  ];
}

const figuresOf = (one: Tyre) => ({
  name: one.name,
  diameter: tidy(one.diameter),
  circumference: tidy(circumference(one)),
  width: tidy(one.width),
  rim: tidy(one.rim),
  aspect: one.aspect,
  loadIndex: one.loadIndex,
  speed: one.speed,
});
