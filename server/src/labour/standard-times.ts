import { parseThread } from '../calc/threads';
import type { Place } from '../findings/finding';
import type { Joint } from '../model/model';
import { entries, find, items, keyName } from '../text/access';
import type { Node, Reading } from '../text/tree';
import { parseQuantity } from '../units/quantity';
import { MOST_MINUTES } from '../units/table';
import type { ThreePoint } from './three-point';

/** One entry of a `*.times.yaml`: what an operation takes where the entry matches it. Minutes. */
export interface StandardTime {
  readonly verbs: readonly string[];
  /** Kinds of part or line; empty for any. */
  readonly kinds: readonly string[];
  readonly thread: string | null;
  /** Width across flats, as written. */
  readonly hex: string | null;
  readonly per: 'operation' | 'bolt';
  readonly people: number | null;
  /** Who may do it. */
  readonly skill: string | null;
  /** What must be got to first. */
  readonly access: Access | null;
  readonly time: ThreePoint;
  readonly place: Place;
}

/** What it takes to get to a place and to close it again. */
export interface Access {
  readonly name: string;
  readonly time: ThreePoint;
  /** Each side is opened by itself. */
  readonly eachSide: boolean;
  readonly place: Place;
}

/**
 * Reads the entries of a times document. What cannot be read is left out: the schema's findings say what is wrong with it.
 * @param kindOf the name of the kind that a word stands for.
 */
export function readStandardTimes(
  uri: string,
  reading: Reading,
  kindOf: (written: string) => string = (written) => written,
): StandardTime[] {
  const list = reading.root === null ? undefined : find(reading.root, 'times', reading);
  if (list === undefined) return [];
  const found: StandardTime[] = [];
  const accesses = readAccesses(uri, reading);
  for (const { value, written } of items(list.value, reading)) {
    const verbs = words(value, 'verb', reading);
    const time = readTime(find(value, 'time', reading)?.value, reading);
    if (verbs.length === 0 || time === null) continue;
    const people = find(value, 'people', reading)?.value.value;
    found.push({
      verbs,
      kinds: words(value, 'kind', reading).map(kindOf),
      thread: words(value, 'thread', reading)[0] ?? null,
      hex: words(value, 'hex', reading)[0] ?? null,
      per: words(value, 'per', reading)[0] === 'bolt' ? 'bolt' : 'operation',
      people: typeof people === 'number' && people >= 1 ? people : null,
      skill: words(value, 'skill', reading)[0]?.trim() || null,
      access: accesses.get(words(value, 'access', reading)[0] ?? '') ?? null,
      time,
      place: { uri, span: { start: written.start, end: written.end } },
    });
  }
  return found;
}

/** What a times document says under `access`, by name. */
export function readAccesses(uri: string, reading: Reading): Map<string, Access> {
  const found = new Map<string, Access>();
  const map = reading.root === null ? undefined : find(reading.root, 'access', reading)?.value;
  for (const { key, value } of map === undefined ? [] : entries(map, reading)) {
    const name = keyName(key, reading);
    const each = value.kind === 'map' ? find(value, 'each-side', reading)?.value : undefined;
    const time = readTime(each ?? value, reading);
    if (name === null || time === null) continue;
    const place = { uri, span: { start: key.start, end: Math.max(key.end, value.end) } };
    found.set(name, { name, time, eachSide: each !== undefined, place });
  }
  return found;
}

/** A time as guides write it, `6 min` or `{ low, likely, high }`, in minutes; null where it cannot be read. */
export function readTime(node: Node | undefined, reading: Reading): ThreePoint | null {
  if (node === undefined) return null;
  if (node.kind === 'scalar') {
    const minutes = minutesOf(node.value);
    return minutes === null ? null : { low: minutes.low, likely: minutes.nominal, high: minutes.high };
  }
  const figures = new Map<string, number>();
  for (const entry of entries(node, reading)) {
    const minutes = minutesOf(entry.value.value);
    const name = keyName(entry.key, reading);
    if (minutes !== null && name !== null) figures.set(name, minutes.nominal);
  }
  const low = figures.get('low');
  const likely = figures.get('likely');
  const high = figures.get('high');
  if (low === undefined || likely === undefined || high === undefined) return null;
  // Figures that do not go up are a finding of their document, and no time.
  return low <= likely && likely <= high ? { low, likely, high } : null;
}

/** Minutes of a written time, null where it is none. A range has its middle as `nominal`. */
export function minutesOf(
  written: Node['value'] | undefined,
): { readonly low: number; readonly nominal: number; readonly high: number } | null {
  if (typeof written !== 'string') return null;
  const parsed = parseQuantity(written, 'time');
  return parsed.ok && parsed.quantity.high <= MOST_MINUTES ? parsed.quantity : null;
}

/**
 * The entry that matches an operation on one item best, or null. The nearest kind counts first, then a thread that is
 * named, then a width across flats, and of equals the one that comes first: of several files in `times:`, the first listed.
 */
export function matchTime(
  times: readonly StandardTime[],
  verb: string,
  kinds: readonly string[],
  joints: readonly Joint[],
): StandardTime | null {
  let best: StandardTime | null = null;
  let bestRank = Number.POSITIVE_INFINITY;
  for (const time of times) {
    if (!time.verbs.includes(verb)) continue;
    if (time.thread !== null && !joints.some((joint) => sameThread(joint.thread, time.thread))) continue;
    if (time.hex !== null && !joints.some((joint) => sameHex(joint.hex, time.hex))) continue;
    const nearest =
      time.kinds.length === 0 ? kinds.length : kinds.findIndex((kind) => time.kinds.includes(kind));
    if (nearest < 0) continue;
    const rank = nearest * 4 + (time.thread === null ? 2 : 0) + (time.hex === null ? 1 : 0);
    if (rank < bestRank) {
      best = time;
      bestRank = rank;
    }
  }
  return best;
}

/** `M8`, `M8x1.25` and `M8 × 1,25` are one thread: without a pitch the coarse one is meant. */
function sameThread(a: string | null, b: string | null): boolean {
  return a !== null && b !== null && plainThread(a) === plainThread(b);
}

function plainThread(thread: string): string {
  const read = parseThread(thread);
  return read.ok
    ? read.thread.name
    : thread.toLowerCase().replaceAll(' ', '').replaceAll('×', 'x').replaceAll(',', '.');
}

/** `19 mm` and `19mm` are one width; `3/4 in` is none of millimetres. */
function sameHex(a: string | null, b: string | null): boolean {
  if (a === null || b === null) return false;
  const [one, other] = [parseQuantity(a, 'length'), parseQuantity(b, 'length')];
  return one.ok && other.ok && Math.abs(one.quantity.nominal - other.quantity.nominal) < 0.01;
}

function words(map: Node, key: string, reading: Reading): string[] {
  const value = find(map, key, reading)?.value;
  if (value === undefined) return [];
  const nodes = value.kind === 'seq' ? items(value, reading).map((item) => item.value) : [value];
  return nodes.flatMap((node) => (node.kind === 'scalar' && node.value !== null ? [String(node.value)] : []));
}
