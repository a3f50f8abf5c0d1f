// Conditions of one variant, and the enumeration of all variants of a guide.
import { parseQuantity } from './quantity.ts';
import { isMap, list, map, type Raw, text, texts } from './raw.ts';

/** One value for each variable: traits and options by name, `done:<id>` and `found:<name>` with yes or no. */
export type Variant = Record<string, string>;

export interface Variable {
  name: string;
  values: string[];
}

/** Whether a condition (a map, or a list of maps of which one is enough) holds in a variant. */
export function holds(
  condition: unknown,
  variant: Variant,
  isDone: (id: string) => boolean = (id) => variant[`done:${id}`] === 'yes',
): boolean {
  if (condition === undefined || condition === null) return true;
  if (Array.isArray(condition)) return condition.some((one) => holds(one, variant, isDone));
  return Object.entries(map(condition)).every(([key, want]) => keyHolds(key, want, variant, isDone));
}

function keyHolds(key: string, want: unknown, variant: Variant, isDone: (id: string) => boolean): boolean {
  if (key === 'not') return !holds(want, variant, isDone);
  if (key === 'done') return texts(want).some(isDone);
  if (key === 'found') return texts(want).some((name) => variant[`found:${name}`] === 'yes');
  const actual = variant[key];
  return actual !== undefined && valueMatches(actual, want);
}

/** Whether a variable's value is the wanted one, one of the wanted ones, or within the wanted bounds. */
export function valueMatches(actual: string, want: unknown): boolean {
  if (Array.isArray(want)) return want.some((one) => valueMatches(actual, one));
  if (isMap(want)) return Object.entries(want).every(([bound, limit]) => boundHolds(actual, bound, limit));
  const wanted = text(want);
  if (wanted === 'any' || wanted === actual) return true;
  const left = parseQuantity(actual);
  const right = parseQuantity(wanted);
  return left !== undefined && right !== undefined && left.low === right.low && left.high === right.high;
}

function boundHolds(actual: string, bound: string, limit: unknown): boolean {
  if (bound === 'not') return !valueMatches(actual, limit);
  if (bound === 'is') return valueMatches(actual, limit);
  const value = parseQuantity(actual)?.low;
  const threshold = parseQuantity(limit)?.low;
  if (value === undefined || threshold === undefined) return false;
  if (bound === 'at-least') return value >= threshold;
  if (bound === 'below') return value < threshold;
  if (bound === 'at-most') return value <= threshold;
  if (bound === 'above') return value > threshold;
  return false;
}

/** Every figure that any condition in the documents holds against a trait. */
export function thresholdsOf(documents: Raw[], trait: string): number[] {
  const found = new Set<number>();
  const gather = (value: unknown): void => {
    if (Array.isArray(value)) for (const one of value) gather(one);
    if (isMap(value)) for (const one of Object.values(value)) gather(one);
    const quantity = parseQuantity(value);
    if (quantity) found.add(quantity.low);
  };
  const walk = (value: unknown): void => {
    if (Array.isArray(value)) for (const one of value) walk(one);
    if (!isMap(value)) return;
    for (const [key, inner] of Object.entries(value)) {
      if (key === trait) gather(inner);
      walk(inner);
    }
  };
  for (const one of documents) walk(one);
  return [...found].sort((a, b) => a - b);
}

/** The values of a trait: as listed, or for `{ from, to }` one for each interval between thresholds, and each threshold. */
export function traitValues(declared: unknown, documents: Raw[], trait: string): string[] {
  if (!isMap(declared)) return texts(declared);
  const from = parseQuantity(declared.from)?.low;
  const to = parseQuantity(declared.to)?.low;
  if (from === undefined || to === undefined) return [];
  const points = thresholdsOf(documents, trait).filter((point) => point > from && point < to);
  const corners = [from, ...points, to];
  const values: number[] = [];
  corners.forEach((point, index) => {
    values.push(point);
    const next = corners[index + 1];
    if (next !== undefined && next > point) values.push((point + next) / 2);
  });
  const unit = unitOf(declared.from);
  return [...new Set(values)].map((value) => `${value} ${unit}`);
}

/** The base unit a representative is written in. */
function unitOf(value: unknown): string {
  const dimension = parseQuantity(value)?.dimension;
  const names: Record<string, string> = {
    length: 'mm',
    mass: 'kg',
    torque: 'N·m',
    pressure: 'kPa',
    angle: '°',
    time: 's',
  };
  return names[dimension ?? ''] ?? 'mm';
}

/** All combinations of values, the first variable slowest. */
export function combinations(variables: Variable[]): Variant[] {
  let all: Variant[] = [{}];
  for (const { name, values } of variables) {
    all = all.flatMap((variant) => values.map((value) => ({ ...variant, [name]: value })));
  }
  return all;
}

/** Whether a value is one that the guide covers. */
export function covered(covers: unknown, trait: string, value: string): boolean {
  const want = map(covers)[trait];
  return want === undefined || list(want).length === 0 || valueMatches(value, want);
}
