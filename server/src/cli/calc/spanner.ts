import { socketKeyFor, spannersFor } from '../../calc/spanners';
import { UsageError } from '../io';
import { type Calculator, threadOf, tidy } from './answer';

const STANDARDS = { iso: 'by ISO', din: 'by the old series', inch: 'by ASME' } as const;

/** The spanner or key for a bolt. */
export const spanner: Calculator = {
  name: 'spanner',
  usage: 'spanner THREAD',
  summary: 'the hexagon and key of a bolt, by standard',
  options: {},
  optionsHelp: [],
  example: 'spanner M12',
  answer(words) {
    const thread = threadOf(words);
    const spanners = spannersFor(thread);
    const key = socketKeyFor(thread);
    if (spanners.length === 0) throw new UsageError(`No standard hexagon is known here for ${thread.name}.`);
    return {
      title: `Tools for ${thread.name}`,
      rows: [
        ...spanners.map(({ marked, standard }): [string, string] => [
          `Hexagon ${STANDARDS[standard]}`,
          marked,
        ]),
        ...(key === undefined ? [] : ([['Key of a socket head', `${key} mm`]] as [string, string][])),
      ],
      notes: [],
      assumptions: [
        ...(thread.system === 'unified'
          ? [
              'the hexagon is the bolt’s; the nut of 7/16 has 11/16 in, that of 9/16 has 7/8 in (ASME B18.2.2, from memory)',
            ]
          : ['the nut of the same standard, and so the counterhold, has the same hexagon']),
        "flange bolts, low heads and makers' own hexagons differ: measure them",
      ],
      sources: [...spanners.map(({ source }) => source), ...(key === undefined ? [] : ['ISO 4762'])],
      figures: {
        hexagons: spanners.map(({ size, marked, standard }) => ({ standard, size: tidy(size), marked })),
        socketKey: key ?? null,
      },
    };
  },
};
