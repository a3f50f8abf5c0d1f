// What a mechanic knows without any file: what stands under a load, what is used up, which words mean danger.

/** How something set under or around a load behaves. */
export type Footing = 'sure' | 'hydraulic' | 'tie' | 'unknown';

/**
 * A lift with its locks in, a stand, a block or a ramp cannot sink: a person may be beneath. A jack or a hoist holds by oil or
 * by a pawl and may let go at any time. A wire, a sling or pliers keep a light part from falling and carry no axle.
 */
export function footing(aid: string): Footing {
  const known = footings.get(aid);
  if (known !== undefined) return known;
  const found = footingByName(aid);
  footings.set(aid, found);
  return found;
}

const footings = new Map<string, Footing>();

function footingByName(aid: string): Footing {
  const name = aid.replace(/s$/, '');
  if (/lift-table|table$/.test(name)) return 'hydraulic';
  if (/(^|-)(lift|poster|stand|block|ramp|pit|trestle|bench|cribbing)$/.test(name)) return 'sure';
  if (/(^|-)(jack|hoist|crane|beam|dolly|trolley|column|compressor)$/.test(name)) return 'hydraulic';
  if (/(^|-)(wire|sling|strap|hook|rope|bungee|tie|plier|clamp|cord|bung|prop|magnet|holder)$/.test(name))
    return 'tie';
  return 'unknown';
}

/** What goes down with the load and is not left under it: lifts and jacks. Stands and blocks stay where they were put. */
export function letsDown(aid: string): boolean {
  const name = aid.replace(/s$/, '');
  return /(^|-)(lift|poster|jack|hoist|crane|beam|table|ramp|column|dolly|trolley)$/.test(name);
}

/** Lifts and ramps that take the vehicle by its tyres. */
export function underTyres(aid: string): boolean {
  return /four-post|4-post|four-poster|wheel-lift|ramp|column|pit/.test(aid);
}

/** Jacks that tip and sink; a lift is none. */
export const isJack = (aid: string): boolean => /(^|-)jacks?$/.test(aid) || /beam$/.test(aid);

/** Pieces that a workshop throws away once they were undone: they lock or seal one time only. */
export function usedOnce(piece: string): boolean {
  return /(^|-)(pin|pins|seal|seals|gasket|gaskets|o-ring|o-rings|rivet|rivets|wire)$|(sealing|copper|crush|tab)-washers?$|ear-cl/.test(
    piece,
  );
}

/** One person takes this much overhead, and each of two takes that much between them (common practice). */
export const ONE_PERSON = 15;
export const EACH_OF_TWO = 25;

/** A bonded bush is wound up beyond what its rubber stands when its axle goes this far from where it was clamped (common practice). */
export const BUSH_TRAVEL = 50;

/**
 * A kit's shock is made for the lift that the kit gives, and no kit lifts more than this without other arms; farther down
 * than that a shock's end does not reach its mount (common practice).
 */
export const LONGER_SHOCK = 60;

/** A figure that differs more than this from the maker's range is another figure, not rounding. */
export const SAME_FIGURE = 0.02;

/** Compounds that a joint or union fails without; grease and wax only spare it. */
export const isSealing = (stuff: string): boolean => /sealant|sealer|lock|gasket/.test(stuff);

/** Where the steering and the wheels' angles are set: whoever undoes one of these has moved the wheels (common practice). */
export const STEERS = [
  ...['control-arm', 'strut', 'knuckle', 'cam-bolt', 'tie-rod', 'tie-rod-end', 'drag-link', 'pitman-arm'],
  ...['idler-arm', 'steering-arm', 'steering-rack'],
];

/** What a handover calls the setting of the wheels. */
export const isAlignment = (words: string): boolean =>
  /alignment|^toe|tracking|geometry|camber|cast[eo]r/.test(words);
