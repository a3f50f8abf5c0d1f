// The oracle's own reading of quantities: "95 N·m", "108-136 N·m (80-100 lbf·ft)", "1 1/2 in".

export interface Quantity {
  low: number;
  high: number;
  dimension: string;
}

// Factors to mm, kg, N·m, kPa, degrees and seconds; exact by the definitions of inch, pound and pound-force.
const NEWTON_METRE_PER_POUND_FOOT = 1.3558179483314003;
const UNITS: Record<string, [dimension: string, factor: number]> = {
  mm: ['length', 1],
  cm: ['length', 10],
  m: ['length', 1000],
  km: ['length', 1_000_000],
  in: ['length', 25.4],
  inch: ['length', 25.4],
  ft: ['length', 304.8],
  g: ['mass', 0.001],
  kg: ['mass', 1],
  t: ['mass', 1000],
  lb: ['mass', 0.45359237],
  nm: ['torque', 1],
  lbfft: ['torque', NEWTON_METRE_PER_POUND_FOOT],
  lbft: ['torque', NEWTON_METRE_PER_POUND_FOOT],
  ftlb: ['torque', NEWTON_METRE_PER_POUND_FOOT],
  lbfin: ['torque', NEWTON_METRE_PER_POUND_FOOT / 12],
  kgfm: ['torque', 9.80665],
  pa: ['pressure', 0.001],
  kpa: ['pressure', 1],
  mpa: ['pressure', 1000],
  bar: ['pressure', 100],
  psi: ['pressure', 6.894757293168361],
  '°': ['angle', 1],
  deg: ['angle', 1],
  s: ['time', 1],
  min: ['time', 60],
  h: ['time', 3600],
};

const NUMBER = /^(?:(\d+)[ -])?(\d+)\/(\d+)|^\d+(?:\.\d+)?/;

/** A number or fraction at the start of a text, and what follows it. */
function leadingNumber(source: string): { value: number; rest: string } | undefined {
  const found = NUMBER.exec(source);
  if (!found) return undefined;
  const rest = source.slice(found[0].length).trimStart();
  if (found[2] === undefined) return { value: Number(found[0]), rest };
  return { value: Number(found[1] ?? 0) + Number(found[2]) / Number(found[3]), rest };
}

/** A quantity in the base unit of its dimension; a range gives low and high. A second figure in brackets is not read. */
export function parseQuantity(value: unknown): Quantity | undefined {
  if (typeof value !== 'string') return undefined;
  const source = (value.split('(')[0] ?? '').trim();
  const first = leadingNumber(source);
  if (!first) return undefined;
  let low = first.value;
  let high = first.value;
  let rest = first.rest;
  const second = /^(?:-|–|to )/.test(rest) ? leadingNumber(rest.replace(/^(?:-|–|to )\s*/, '')) : undefined;
  const spread = rest.startsWith('±') ? leadingNumber(rest.slice(1).trimStart()) : undefined;
  if (second) {
    high = second.value;
    rest = second.rest;
  } else if (spread) {
    low -= spread.value;
    high += spread.value;
    rest = spread.rest;
  }
  const unit = UNITS[rest.toLowerCase().replace(/[·.\s*⋅-]/g, '')];
  if (!unit) return undefined;
  return { low: low * unit[1], high: high * unit[1], dimension: unit[0] };
}

/** The figure itself, for one of a wanted dimension: the middle of a range. */
export function figure(value: unknown, dimension: string): number | undefined {
  const quantity = parseQuantity(value);
  if (!quantity || quantity.dimension !== dimension) return undefined;
  return (quantity.low + quantity.high) / 2;
}
