/** Lines that say how long they are, against the travel of what they span: from the stop down to full droop. */

import { type HoseLengths, hoseLengths } from '../calc/travel';
import { type Finding, plainFinding } from '../findings/finding';
import type { Line, Model, Part, Thing } from '../model/model';
import type { Diagram } from '../variants/diagram';

const RULE = 'line-too-short';

/** Ends are measured to a millimetre or so (common practice). */
const MEASURED = 1;

/** What a line has to bridge over the travel of a part that it spans, mm; null where files do not say enough. */
export function toBridge({ across, rise }: Line, { droop, bump }: Part, lower = 0): HoseLengths | null {
  if (across === null || rise === null || droop === null) return null;
  return hoseLengths({ across, drop: rise, droop: droop + lower, bump: bump ?? 0 });
}

/** The parts that a line spans whose travel is said. */
export const moving = ({ spans }: Line): Part[] =>
  spans.filter((one): one is Part => typeof one !== 'string' && one.droop !== null);

/**
 * A line that does not reach as far as what it spans goes: as it is, or with a part of the kit that lets it go further. Told in a
 * guide, of the variants that it covers, where no kit's line takes the place of this one.
 */
export function travelFindings(model: Model): Finding[] {
  const { diagrams } = model.world;
  const things = [...model.things.values()];
  const lines = things.filter((one): one is Line => one.type === 'line' && one.length !== null);
  return lines.flatMap((line) => {
    let there = diagrams.and(model.universe, line.presence);
    for (const one of things) if (one.replaces.includes(line)) there = diagrams.minus(there, one.presence);
    return moving(line).flatMap((part) => {
      let rest = diagrams.and(there, part.presence);
      const found: Finding[] = [];
      for (const longer of [...limitersOf(part, things), null]) {
        const set = longer === null ? rest : diagrams.and(rest, longer.presence);
        if (longer !== null) rest = diagrams.minus(rest, longer.presence);
        const finding = set === 0 ? null : told(model, line, part, longer, set);
        if (finding !== null) found.push(finding);
      }
      return found;
    });
  });
}

/** The parts of kits that say how far they let an axle or arm go, the longest first; none where something else limits it too. */
function limitersOf(part: Part, things: readonly Thing[]): Part[] {
  const limiters = part.limitedBy.flat().map((one) => (one.type === 'joint' ? one.part : one));
  const own = new Set(limiters.filter(({ origin }) => origin !== 'kit'));
  if (own.size !== 1) return [];
  const [limiter] = own;
  return things
    .filter((one): one is Part => one.type === 'part' && one.origin === 'kit' && one.drop !== null)
    .filter((one) => one.replaces.includes(limiter!))
    .sort((a, b) => b.drop! - a.drop!);
}

function told(model: Model, line: Line, part: Part, longer: Part | null, set: Diagram): Finding | null {
  const lengths = toBridge(line, part, longer?.drop ?? 0);
  if (lengths === null || line.length! >= lengths.needed - MEASURED) return null;
  const where = lengths.atDroop >= lengths.atBump ? 'at full droop' : 'at the bump stop';
  const by = longer === null ? '' : ` with ${longer.name}`;
  const message = `${line.name} is ${round(line.length!)} mm long, and its ends are ${round(lengths.needed)} mm apart with ${part.name} ${where}${by}.`;
  const related = [line, longer].flatMap((one) =>
    one?.declared == null ? [] : [{ place: one.declared, message: `${one.name} as its file has it` }],
  );
  // What is too short of itself is told where it is written; what a kit makes so, where the guide names the kit.
  const place = longer === null ? (line.declared ?? model.kitPlace) : model.kitPlace;
  return plainFinding(RULE, place, message, {
    severity: 'error',
    item: line.name,
    operation: '0',
    variants: model.world.cubesOf(set, model.universe),
    related: related.filter((one) => one.place !== place),
  });
}

const round = (mm: number): number => Math.round(mm);
