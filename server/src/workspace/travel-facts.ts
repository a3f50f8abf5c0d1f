/** What the lengths of track bars and lines come to over travel and lift: for the pointer. */

import { trackBarShift } from '../calc/travel';
import { moving, toBridge } from '../check/travel';
import { listed } from '../findings/words';
import { isLift } from '../model/clearances';
import type { Line, Part } from '../model/model';
import type { World } from '../variants/world';

/** Lifts that are told of; a table of more is for a page. */
const MOST_LIFTS = 5;

/** How far an axle goes sideways on a track bar at the lifts that the kit has. */
export function trackBarInWords({ length, rise }: Part, world: World): string[] {
  if (length === null) return [];
  const facts = [
    `${length} mm between its bolts${rise === null ? '' : `, its end at the frame ${rise} mm higher`}.`,
  ];
  if (rise === null) return facts;
  const shifts = liftsOf(world).flatMap((lift) => {
    const found = trackBarShift({ length, rise }, lift);
    if (found === null) return [];
    const way = found.shift > 0 ? "towards the bar's end at the frame" : 'the other way';
    return [
      `${Math.abs(found.shift).toFixed(1)} mm ${way} with ${lift} mm of lift (a bar of ${Math.round(found.length)} mm would keep it)`,
    ];
  });
  return shifts.length === 0
    ? facts
    : [...facts, `The axle goes ${listed(shifts)}; rubber and frame taken as stiff.`];
}

/** The figures of the traits and options that are a lift, mm; of a range its ends. */
function liftsOf({ variables }: World): number[] {
  const figures = new Set<number>();
  for (const { name, numeric } of variables)
    if (numeric?.dimension === 'length' && isLift(name))
      for (const { low, high } of numeric.intervals) for (const one of [low, high]) figures.add(one);
  return [...figures]
    .filter((one) => one !== 0)
    .sort((a, b) => a - b)
    .slice(0, MOST_LIFTS);
}

/** What a line bridges as the vehicle stands, at droop and at bump, and what it has to spare. */
export function lengthInWords(line: Line): string[] {
  const { length } = line;
  const facts = length === null ? [] : [`${length} mm between its fittings.`];
  for (const part of moving(line)) {
    const found = toBridge(line, part);
    if (found === null) continue;
    const { ride, atDroop, atBump, needed } = found;
    const spare =
      length === null
        ? ''
        : length < needed
          ? `: ${Math.round(needed - length)} mm too short`
          : `: ${Math.round(length - needed)} mm to spare`;
    const bump = part.bump === null ? '' : `, ${Math.round(atBump)} mm at the bump stop`;
    facts.push(
      `Its ends are ${Math.round(ride)} mm apart as the vehicle stands, ${Math.round(atDroop)} mm with ${part.name} at full droop${bump}${spare}.`,
    );
  }
  return facts;
}
