/** Sizes by standard that may stand at a place of a vehicle or kit file: of hexagons, keys, holes, classes and threads. Never a torque. */

import { clearanceHoles, tapDrill } from '../calc/holes';
import { socketKeyFor, spannersFor } from '../calc/spanners';
import { gradeNames } from '../calc/strength';
import { parseThread, type Thread } from '../calc/threads';
import type { Asked } from './asked';
import { type Candidate, candidate } from './candidates';

/** Threads that vehicles have, the usual ones first (common practice). */
const THREADS = [
  ...['M6x1.0', 'M8x1.25', 'M10x1.5', 'M10x1.25', 'M12x1.75', 'M12x1.5', 'M12x1.25', 'M14x1.5', 'M14x2'],
  ...['M16x1.5', 'M16x2', '5/16-18', '3/8-16', '3/8-24', '7/16-20', '1/2-13', '1/2-20', '9/16-18'],
];

/** What a standard has for the key that is asked for, by what is written beside it. */
export function standardSizes({ keys, beside, document }: Asked): Candidate[] {
  if (document.kind !== 'vehicle' && document.kind !== 'kit') return [];
  const key = keys.at(-1);
  const said = (name: string): Thread | null => {
    const value = beside.get(name)?.value;
    const read = typeof value === 'string' ? parseThread(value) : null;
    return read?.ok === true ? read.thread : null;
  };
  const inHole = keys.at(-3) === 'holes';
  if (key === 'thread' || (inHole && (key === 'bolt' || key === 'tap')))
    return THREADS.map((word) => candidate(word, 'thread'));
  if (key === 'class') return gradeNames.map((word) => candidate(`"${word}"`, 'bolt'));
  if (inHole && key === 'size') return [...holesFor(said('bolt')), ...drillFor(said('tap'))];
  const thread = said('thread');
  if (thread === null) return [];
  if (key === 'hex')
    return unlike(spannersFor(thread).map(({ marked, source }) => candidate(marked, source, FLANGES, 0)));
  const size = key === 'key' ? socketKeyFor(thread) : undefined;
  return size === undefined ? [] : [candidate(`${size} mm`, 'ISO 4762', FLANGES, 0)];
}

const FLANGES = 'By standard for the thread beside it; flange heads, low heads and makers’ own differ.';

function holesFor(bolt: Thread | null): Candidate[] {
  const holes = bolt === null ? undefined : clearanceHoles(bolt);
  if (holes === undefined) return [];
  const { fine, medium, coarse, source } = holes;
  const one = (size: number, what: string) =>
    candidate(`${tidy(size)} mm`, `${what} clearance, ${source}`, '', 0);
  return [one(medium, 'medium'), one(fine, 'fine'), one(coarse, 'coarse')];
}

const drillFor = (tap: Thread | null): Candidate[] =>
  tap === null ? [] : [candidate(`${tidy(tapDrill(tap))} mm`, 'drill for tapping, ISO 2306', '', 0)];

const unlike = (all: readonly Candidate[]): Candidate[] =>
  all.filter(({ word }, index) => all.findIndex((one) => one.word === word) === index);

const tidy = (figure: number): number => Math.round(figure * 100) / 100;
