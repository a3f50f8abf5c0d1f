/** What the trade's arithmetic has to say of a part, a hole or a joint: for the pointer. A maker's own figures come first. */

import { clearanceHoles, drillSteps, tapDrill } from '../calc/holes';
import { guidelineWeight, handsFor } from '../calc/lifting';
import { spannersFor } from '../calc/spanners';
import { parseThread, type Thread } from '../calc/threads';
import { changeOfTyre, circumference } from '../calc/tyres';
import { listed } from '../findings/words';
import type { Hole, Joint, Part } from '../model/model';
import type { Tyre } from '../units/tyre';

/** Sizes of a tyre by its code, and what it does in place of another. */
export function tyreInWords(tyre: Tyre, old: Tyre | null): string[] {
  const facts = [
    `${tyre.name}: ${Math.round(tyre.diameter)} mm (${inches(tyre.diameter)} in) across, ${Math.round(circumference(tyre))} mm around, by its code.`,
  ];
  if (old === null) return facts;
  const { share, trueSpeed, gearing, lift } = changeOfTyre(old, tyre);
  if (Math.abs(share) < 0.0005) return [...facts, `As far across as ${old.name}.`];
  const way = share > 0 ? 'more' : 'less';
  return [
    ...facts,
    `${percent(share)} ${way} than ${old.name}: at 100 km/h shown the vehicle does ${(trueSpeed * 100).toFixed(1)} km/h, if the speedometer was right.`,
    `Gearing ${percent(gearing - 1)} ${gearing < 1 ? 'longer' : 'shorter'}; the axle comes ${lift > 0 ? 'up' : 'down'} by ${Math.abs(lift).toFixed(0)} mm.`,
  ];
}

/** The tyre of what a part replaces, the first that says one. */
export const tyreReplaced = ({ replaces }: Part): Tyre | null => {
  for (const old of replaces) if (old.type === 'part' && old.tyre !== null) return old.tyre;
  return null;
};

const inches = (mm: number): string => (mm / 25.4).toFixed(1);
const percent = (share: number): string => `${(Math.abs(share) * 100).toFixed(1)} %`;

/** How many hands a mass (kg) asks for; nothing where anyone lifts it. */
export function handsInWords(mass: number): string[] {
  const near = guidelineWeight('elbow', false).men;
  const far = guidelineWeight('elbow', true).men;
  if (mass <= far) return [];
  const hands = handsFor(mass, near);
  const wants =
    hands === 'aid' ? 'a jack or hoist' : hands === 1 ? 'both hands close to the body' : `${hands} people`;
  return [
    `Asks for ${wants}: the guideline is ${near} kg close to the body, ${far} kg at arm's length, less for each of a team (HSE INDG143 and L23, from memory).`,
  ];
}

/** What a hole's bolt or thread asks of the drill, and the drills that lead to its size. */
export function holeInWords({ bolt, tap, size, count }: Hole): string[] {
  const facts = [
    ...(size === null ? [] : [`${count > 1 ? `${count} holes of` : 'A hole of'} ${tidy(size)} mm.`]),
    ...boltInWords(bolt),
    ...tapInWords(tap),
  ];
  const tapped = threadOf(tap);
  const last = size ?? (tapped === null ? null : tapDrill(tapped));
  const drills = last === null ? [] : drillSteps(last);
  return drills.length < 2
    ? facts
    : [
        ...facts,
        `Drills: ${listed(
          drills.map((one) => `${tidy(one)} mm`),
          'then',
        )} (common practice).`,
      ];
}

/** The holes that a bolt goes through. */
export function boltInWords(bolt: string | null): string[] {
  const thread = threadOf(bolt);
  const holes = thread === null ? undefined : clearanceHoles(thread);
  if (holes === undefined) return [];
  const { fine, medium, coarse, source } = holes;
  return [
    `Clearance of ${bolt}: ${tidy(fine)} mm fine, ${tidy(medium)} mm medium, ${tidy(coarse)} mm coarse (${source}).`,
  ];
}

/** The drill of a thread that is cut. */
export function tapInWords(tap: string | null): string[] {
  const thread = threadOf(tap);
  return thread === null ? [] : [`Drill for tapping ${tap}: ${tidy(tapDrill(thread))} mm (ISO 2306).`];
}

/** The spanner of a joint by standard, where its file says no tool. */
export function spannerInWords({
  thread,
  hex,
  key,
  handTight,
}: Pick<Joint, 'thread' | 'hex' | 'key' | 'handTight'>): string[] {
  if (hex !== null || key !== null || handTight) return [];
  const read = threadOf(thread);
  if (read === null) return [];
  const sizes = new Map<string, string>();
  for (const { marked, source } of spannersFor(read)) if (!sizes.has(marked)) sizes.set(marked, source);
  if (sizes.size === 0) return [];
  const all = [...sizes].map(([marked, source]) => `${marked} (${source})`);
  return [`Its file says no spanner; by standard ${listed(all, 'or')}. Flange heads differ.`];
}

function threadOf(text: string | null): Thread | null {
  const read = text === null ? null : parseThread(text);
  return read?.ok === true ? read.thread : null;
}

const tidy = (figure: number): number => Math.round(figure * 100) / 100;
