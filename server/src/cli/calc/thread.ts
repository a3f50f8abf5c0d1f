import { clearanceHoles, tapDrill } from '../../calc/holes';
import { gradeNames, leastEngagement, proofLoad, strengthOf } from '../../calc/strength';
import { coarsePitch, minorDiameter, pitchDiameter, rootDiameter, stressArea } from '../../calc/threads';
import { both, type Calculator, forces, sized, threadOf, tidy } from './answer';

const SERIES = {
  coarse: 'the standard coarse pitch',
  fine: 'finer than the standard coarse pitch',
  coarser: 'coarser than the standard coarse pitch: is it meant so?',
  other: 'no standard coarse pitch is known here for this diameter',
} as const;

/** Sizes of a thread, and what its bolts bear. */
export const threadCalculator: Calculator = {
  name: 'thread',
  usage: 'thread THREAD',
  summary: 'its diameters, stress area, holes, and what its bolts bear',
  options: {},
  optionsHelp: [],
  example: 'thread M12x1.25',
  answer(words) {
    const thread = threadOf(words);
    const holes = clearanceHoles(thread);
    const loads = gradeNames.flatMap((grade) => {
      const result = strengthOf(grade, thread);
      if (!result.ok) return [];
      const { load, from } = proofLoad(thread, result.strength);
      const named = grade.startsWith('grade') ? grade : `class ${grade}`;
      return [{ grade, named, load, from, standard: result.strength.standard }];
    });
    const coarse = coarsePitch(thread);
    const pitch =
      thread.perInch === null ? fine(thread.pitch) : `${thread.perInch} per inch (${fine(thread.pitch)})`;
    return {
      title: thread.name,
      rows: [
        ['Diameter', sized(thread.diameter, thread)],
        ['Pitch', `${pitch}, ${SERIES[thread.series]}`],
        ['Pitch diameter', fine(pitchDiameter(thread))],
        ['Root of the bolt', fine(rootDiameter(thread))],
        ['Crest of the nut', fine(minorDiameter(thread))],
        ['Stress area', `${stressArea(thread).toPrecision(3)} mm²`],
        ...loads.map(({ named, load, from }): [string, string] => [
          `Proof load, ${named}`,
          `${forces(load)}${from === 'printed' ? '' : ', stress area × proof strength'}`,
        ]),
        ['Tap drill', both(tapDrill(thread), 'length')],
        ...(holes === undefined
          ? []
          : ([['Clearance hole, medium', sized(holes.medium, thread)]] as [string, string][])),
        ['Least engagement in steel', both(leastEngagement(thread, '10.9', 'steel'), 'length')],
        ['Least engagement in aluminium', both(leastEngagement(thread, '10.9', 'aluminium'), 'length')],
      ],
      notes: [],
      assumptions: ['basic sizes, no tolerances', 'least engagement up to class 10.9, common practice'],
      sources: [
        thread.system === 'metric'
          ? 'ISO 68-1, ISO 261, ISO 724; stress area and proof loads ISO 898-1'
          : 'ASME B1.1; proof loads SAE J429',
        ...(holes === undefined ? [] : [`clearance hole ${holes.source}; tap drill workshop charts`]),
      ],
      figures: {
        diameter: tidy(thread.diameter),
        pitch: tidy(thread.pitch),
        threadsPerInch: thread.perInch,
        series: thread.series,
        coarsePitch: coarse === null ? null : tidy(coarse),
        pitchDiameter: tidy(pitchDiameter(thread)),
        rootDiameter: tidy(rootDiameter(thread)),
        stressArea: tidy(stressArea(thread)),
        tapDrill: tapDrill(thread),
        proofLoads: Object.fromEntries(loads.map(({ grade, load }) => [grade, tidy(load)])),
      },
    };
  },
};

/** Two decimals more than a rule shows: sizes of threads are read with a micrometer. */
const fine = (length: number): string => `${Number(length.toFixed(3))} mm`;
