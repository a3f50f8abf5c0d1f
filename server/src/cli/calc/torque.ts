import { nutFor, proofLoad, type Strength } from '../../calc/strength';
import { stressArea, type Thread } from '../../calc/threads';
import {
  type Bearing,
  expectedTorque,
  judgeTorque,
  nutFactors,
  tableTension,
  tableTorque,
  tensionByNutFactor,
  torqueByNutFactor,
  USUAL_SHARE,
  usualBearing,
  usualFriction,
} from '../../calc/tightening';
import type { Arguments } from '../command';
import { UsageError } from '../io';
import {
  type Answer,
  alone,
  both,
  type Calculator,
  forces,
  measureOf,
  numberOf,
  percent,
  range,
  threadAndStrength,
  tidy,
} from './answer';

type Row = readonly [string, string];

/** The torque for a thread and class, or what a torque does to it. */
export const torque: Calculator = {
  name: 'torque',
  usage: 'torque THREAD CLASS',
  summary: 'the torque for a bolt, or what a torque does to it',
  options: {
    friction: { type: 'string' },
    'head-friction': { type: 'string' },
    'nut-factor': { type: 'string' },
    share: { type: 'string' },
    torque: { type: 'string' },
    lubricated: { type: 'boolean' },
    bearing: { type: 'string' },
    hole: { type: 'string' },
    nut: { type: 'string' },
  },
  optionsHelp: [
    ['--friction µ', 'in the thread, and under the head unless that is given'],
    ['--head-friction µ', 'under the head or nut'],
    ['--nut-factor K', 'T = K d F instead of friction; 0.2 is dry, plain steel'],
    ['--share PERCENT', 'of the proof load that the nut factor goes for (75)'],
    ['--torque FIGURE', 'judge this torque'],
    ['--lubricated', 'judge with the friction of oiled threads, 0.08 to 0.12'],
    ['--bearing, --hole', 'what the head bears on, where no standard hexagon'],
    ['--nut CLASS', 'say whether a nut of this class bears it'],
  ],
  example: 'torque M12x1.25 10.9 --friction 0.12',
  answer(words, args) {
    const { thread, strength } = threadAndStrength(words);
    const bearing = bearingOf(thread, args);
    const friction = args.flag('lubricated') ? usualFriction.lubricated : usualFriction.asDelivered;
    const proof = proofLoad(thread, strength);
    const expected = expectedTorque(thread, strength, bearing, friction);
    const named = strength.grade.startsWith('grade') ? strength.grade : `class ${strength.grade}`;
    const chosen = chosenOf(thread, strength, bearing, args);
    const judged = judgedOf(thread, strength, bearing, friction, args);
    const nut = nutOf(strength, args);
    return {
      title: `${thread.name}, ${named}`,
      rows: [
        ...chosen.rows,
        ...judged.rows,
        ['Usual range', range(expected.low, expected.high, 'torque', 'N·m', 'lbf·ft')],
        [
          'Proof load',
          `${forces(proof.load)}${proof.from === 'printed' ? '' : ', stress area × proof strength'}`,
        ],
        ['Stress area', `${stressArea(thread).toPrecision(3)} mm²`],
      ],
      notes: [...judged.notes, ...nut],
      assumptions: [
        ...chosen.assumptions,
        `usual range: from ${percent(USUAL_SHARE)} of the proof load at friction ${friction.low} to 90 % of the yield point at ${friction.high}, ${args.flag('lubricated') ? 'oiled' : 'as delivered'} (common practice)`,
        `the head or nut bears on ${tidy3(bearing.outer)} mm around a hole of ${tidy3(bearing.hole)} mm`,
        'steel parts; no prevailing torque of a self-locking nut, which comes on top; no stretch bolt',
      ],
      sources: [
        `strengths ${strength.standard}${proof.from === 'printed' ? ', proof load as printed there' : ''}`,
        'torque and tension VDI 2230 (long form after Kellermann and Klein)',
      ],
      figures: {
        ...chosen.figures,
        ...judged.figures,
        expected: { low: tidy(expected.low), high: tidy(expected.high) },
        proofLoad: tidy(proof.load),
        stressArea: tidy(stressArea(thread)),
      },
    };
  },
};

type Part = Pick<Answer, 'rows' | 'assumptions' | 'figures'>;
const tidy3 = (figure: number): number => Number(figure.toFixed(1));

function bearingOf(thread: Thread, args: Arguments): Bearing {
  const usual = usualBearing(thread);
  const outer = measureOf(args, 'bearing', 'length') ?? usual?.outer;
  const hole = measureOf(args, 'hole', 'length') ?? usual?.hole;
  if (outer === undefined || hole === undefined)
    throw new UsageError(
      `No standard hexagon is known here for ${thread.name}; say what its head bears on, such as --bearing 16 mm --hole 11 mm.`,
    );
  if (outer <= hole) throw new UsageError('--bearing must be larger than the hole.');
  return { outer, hole };
}

/** The torque that was asked for: by friction, by the nut factor, or none. */
function chosenOf(thread: Thread, strength: Strength, bearing: Bearing, args: Arguments): Part {
  const inThread = numberOf(args, 'friction', 0.02, 0.6);
  const head = numberOf(args, 'head-friction', 0.02, 0.6) ?? inThread;
  const factor = numberOf(args, 'nut-factor', 0.05, 0.6);
  const share = (numberOf(args, 'share', 1, 100) ?? USUAL_SHARE * 100) / 100;
  const proof = proofLoad(thread, strength).load;
  if (factor !== undefined) {
    if (head !== undefined) throw new UsageError('Give --friction or --nut-factor, not both.');
    const tension = share * proof;
    const turned = torqueByNutFactor(factor, thread, tension);
    const near = nutFactors.find((one) => one.factor === factor);
    return {
      rows: answered(turned, tension, share),
      assumptions: [
        `nut factor ${factor}, as given${near === undefined ? '' : ` (${near.of}; ${near.source})`}; ${percent(share)} of the proof load`,
      ],
      figures: { torque: tidy(turned), tension: tidy(tension), shareOfProof: tidy(share) },
    };
  }
  if (args.text('share') !== undefined) throw new UsageError('--share goes with --nut-factor.');
  if (head === undefined) return { rows: [], assumptions: [], figures: {} };
  if (inThread === undefined) throw new UsageError('--head-friction goes with --friction.');
  const friction = { thread: inThread, head };
  const tension = tableTension(thread, strength, inThread);
  const turned = tableTorque(thread, strength, friction, bearing);
  return {
    rows: answered(turned, tension, tension / proof),
    assumptions: [
      head === inThread
        ? `friction ${inThread} in the thread and under the head, as given`
        : `friction ${inThread} in the thread and ${head} under the head, as given`,
      'pull and twist together use 90 % of the yield point',
    ],
    figures: { torque: tidy(turned), tension: tidy(tension), shareOfProof: tidy(tension / proof) },
  };
}

const answered = (turned: number, tension: number, share: number): Row[] => [
  ['Torque', both(turned, 'torque')],
  ['Tension it makes', `${forces(tension)}, ${percent(share)} of the proof load`],
];

/** What a torque that is given does. */
function judgedOf(
  thread: Thread,
  strength: Strength,
  bearing: Bearing,
  friction: { readonly low: number; readonly high: number },
  args: Arguments,
): Omit<Part, 'assumptions'> & { notes: string[] } {
  const given = measureOf(args, 'torque', 'torque');
  if (given === undefined) return { rows: [], notes: [], figures: {} };
  const factor = numberOf(args, 'nut-factor', 0.05, 0.6);
  const judged = judgeTorque(given, thread, strength, bearing, friction);
  const proof = proofLoad(thread, strength).load;
  const notes: string[] = [];
  const said = alone(given, 'torque');
  if (judged.pastProof === 'surely')
    notes.push(`${said} loads the bolt past its proof load: it stretches for good.`);
  else if (judged.pastProof === 'possibly')
    notes.push(
      `${said} passes the proof load only where the thread runs easier than usual; oil on it would.`,
    );
  if (judged.farUnder)
    notes.push(`${said} is far under what this bolt is used at; in a joint that carries, ask why.`);
  return {
    rows: [
      [
        `${said} makes`,
        `${percent(judged.least)} to ${percent(judged.most)} of the proof load, friction ${friction.high} to ${friction.low}`,
      ],
      ...(factor === undefined
        ? []
        : ([
            [
              `${said}, by the nut factor`,
              `${percent(tensionByNutFactor(factor, thread, given) / proof)} of the proof load`,
            ],
          ] as Row[])),
    ],
    notes,
    figures: {
      judged: {
        torque: tidy(given),
        least: tidy(judged.least),
        most: tidy(judged.most),
        pastProof: judged.pastProof,
        farUnder: judged.farUnder,
      },
    },
  };
}

function nutOf(strength: Strength, args: Arguments): string[] {
  const nut = args.text('nut');
  if (nut === undefined) return [];
  const verdict = nutFor(strength.grade, nut);
  if (verdict === 'unknown')
    throw new UsageError(`--nut takes a class or grade, such as 10; "${nut}" is none.`);
  const named = strength.grade.startsWith('grade') ? strength.grade : `class ${strength.grade}`;
  if (verdict === 'enough') return [`A nut of class ${nut} bears what a bolt of ${named} does.`];
  if (verdict === 'thin')
    return [`A nut marked ${nut} is a thin one and strips before a bolt of ${named} breaks.`];
  return [`A nut of class ${nut} is weaker than a bolt of ${named}, and strips first (ISO 898-2).`];
}
