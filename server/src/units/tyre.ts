/**
 * Tyre codes, read: `205/55R16`, `35x12.50R17`.
 *
 * Lengths in mm. Sizes are the nominal ones of the code: diameter = rim + 2 × width × aspect / 100, an inch being 25.4 mm (ISO 4000-1
 * writes the code so). Real tyres differ by a per cent or two from maker to maker.
 */

import { INCH_MM } from './table';

export interface Tyre {
  /** As it is printed: `205/55R16 91V`, `35x12.50R17`. */
  readonly name: string;
  /** Overall diameter, section width, and diameter of the rim, mm. */
  readonly diameter: number;
  readonly width: number;
  readonly rim: number;
  /** Height of the side wall in per cent of the width; null in codes that give the diameter. */
  readonly aspect: number | null;
  /** The load index (of the single tyre) and the speed letter, where the code has them. */
  readonly loadIndex: number | null;
  readonly speed: string | null;
}

export type TyreResult =
  | { readonly ok: true; readonly tyre: Tyre }
  | { readonly ok: false; readonly message: string };

/** Tyres of one size differ so much across from maker to maker (common practice). */
export const SAME_SIZE = 0.01;

/** Longer texts are no code. */
const LONGEST = 40;

// Each is anchored and has no two neighbouring parts that match the same, so that it is linear.
const METRIC =
  /^(P|LT|T|ST)? ?(\d{3})\/(\d{2,3}) ?(ZR|R|D|B|-) ?(\d{2}(?:\.5)?) ?(C|LT)?(?: (\d{2,3})(?:\/\d{2,3})? ?([A-Y]\d?))?(?: XL)?$/;
const FLOTATION =
  /^(LT)? ?(\d{2}(?:\.\d{1,2})?) ?X ?(\d{1,2}(?:\.\d{1,2})?) ?(R|D|B|-) ?(\d{2}(?:\.5)?) ?(LT)?(?: (\d{2,3})(?:\/\d{2,3})? ?([A-Y]\d?))?$/;

/** Reads `205/55R16 91V`, `LT285/75R16`, `35x12.50R17`. Never throws. */
export function parseTyre(text: string): TyreResult {
  const written = text.trim();
  if (written === '') return refuse('A tyre is missing here; write one such as 205/55R16 or 35x12.50R17.');
  if (written.length > LONGEST) return refuse('This is too long to be a tyre.');
  const code = written.toUpperCase().replaceAll('×', 'X').replaceAll(',', '.').replace(/\s+/g, ' ');
  const metric = METRIC.exec(code);
  if (metric !== null) {
    const [, , width, aspect, build, rim] = metric;
    const wide = Number(width);
    const high = Number(aspect);
    if (wide < 105 || wide > 455 || high < 20 || high > 110) return unlikely(written);
    const diameter = Number(rim) * INCH_MM + (2 * wide * high) / 100;
    const name = `${metric[1] ?? ''}${wide}/${high}${build}${rim}${metric[6] ?? ''}`;
    return { ok: true, tyre: tyre(name, diameter, wide, Number(rim), high, metric[7], metric[8]) };
  }
  const flotation = FLOTATION.exec(code);
  if (flotation !== null) {
    const [, , over, width, build, rim] = flotation;
    if (Number(over) <= Number(rim) + 2) return unlikely(written);
    const name = `${flotation[1] ?? ''}${over}x${width}${build}${rim}${flotation[6] ?? ''}`;
    return {
      ok: true,
      tyre: tyre(
        name,
        Number(over) * INCH_MM,
        Number(width) * INCH_MM,
        Number(rim),
        null,
        flotation[7],
        flotation[8],
      ),
    };
  }
  return refuse(`"${written}" is no tyre; write one such as 205/55R16 91V, 285/75R16 or 35x12.50R17.`);
}

const refuse = (message: string): TyreResult => ({ ok: false, message });
const unlikely = (written: string): TyreResult => refuse(`No tyre has the size "${written}".`);

function tyre(
  name: string,
  diameter: number,
  width: number,
  rim: number,
  aspect: number | null,
  load: string | undefined,
  speed: string | undefined,
): Tyre {
  return {
    name: load === undefined ? name : `${name} ${load}${speed ?? ''}`,
    diameter,
    width,
    rim: rim * INCH_MM,
    aspect,
    loadIndex: load === undefined ? null : Number(load),
    speed: speed ?? null,
  };
}
