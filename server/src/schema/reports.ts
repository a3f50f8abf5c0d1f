import type { Fix, Place } from '../findings/finding';
import type { Node } from '../text/tree';
import { type Checking, type Holder, type Key, replacing } from './checking';
import { type Spot, typesOf } from './spots';
import { valueAt } from './values';
import { found, isOnlySlip, nearest, oneOf, quoted, wanted } from './words';

export function reportUnknownValue(
  checking: Checking,
  holder: Holder,
  key: Key,
  value: string,
  allowed: readonly string[],
): void {
  const place = exactPlace(checking, holder, key);
  const near = nearest(value, allowed);
  const end = near === null ? `allowed is ${oneOf(allowed)}.` : `${quoted(near)} was probably meant.`;
  const safe = isOnlySlip(value, allowed);
  const fixes = near === null ? [] : [replacing(place, near, `Write ${quoted(near)}`, safe)];
  checking.report(
    'unknown-value',
    place,
    `${quoted(value)} is not a value that may stand here; ${end}`,
    fixes,
  );
}

/** Where a value itself is written: a mistake behind an alias stands at its anchor, once. */
export function exactPlace(checking: Checking, holder: Holder, key: Key): Place {
  return checking.places.origin(holder, key) ?? checking.places.value(holder, key);
}

export function reportWrongType(checking: Checking, holder: Holder, key: Key, spot: Spot): void {
  const { schema } = spot;
  const { places } = checking;
  const value = valueAt(holder, key);
  if (value === null && places.damaged(holder)) return;
  const name = typeof key === 'string' ? quoted(key) : 'This entry';
  if (value === null) {
    const place = typeof key === 'string' ? places.key(holder, key) : emptyPlace(checking, holder, key);
    checking.report('wrong-type', place, `${name} has no value yet; it wants ${wanted(schema)}.`);
    return;
  }
  const place = exactPlace(checking, holder, key);
  // A second colon or a line out of line makes a map of a text; that was told by those who read it.
  if (typeof value === 'object' && places.inDamage(place)) return;
  const message = `${name} wants ${wanted(schema)}; here stands ${found(value)}.`;
  checking.report('wrong-type', place, message, typeFixes(checking, holder, key, spot, place));
}

/** An empty entry of a list has no width; the finding then stands on its dash. */
function emptyPlace(checking: Checking, holder: Holder, key: Key): Place {
  const place = checking.places.value(holder, key);
  const { start, end } = place.span;
  if (end > start || start === 0) return place;
  return { uri: place.uri, span: { start: start - 1, end } };
}

const TRUTHS: Readonly<Record<string, string>> = {
  yes: 'true',
  on: 'true',
  y: 'true',
  true: 'true',
  no: 'false',
  off: 'false',
  n: 'false',
  false: 'false',
};

function typeFixes(checking: Checking, holder: Holder, key: Key, spot: Spot, place: Place): Fix[] {
  const { schema } = spot;
  const value = valueAt(holder, key);
  const types = typesOf(schema);
  if (typeof value !== 'string') return [];
  if (types.includes('boolean') && Object.hasOwn(TRUTHS, value.toLowerCase())) {
    const truth = TRUTHS[value.toLowerCase()]!;
    return [replacing(place, truth, `Write ${truth}`, true)];
  }
  if ((types.includes('integer') || types.includes('number')) && /^[0-9]{1,9}$/.test(value)) {
    return [replacing(place, value, 'Write it without quotes', true)];
  }
  const item = typesOf(checking.child(spot, 0)?.schema ?? {});
  if (types.includes('array') && item.includes('string') && isSimple(checking.places.written(holder, key))) {
    const { start, end } = place.span;
    const edits = [
      { place: { uri: place.uri, span: { start, end: start } }, text: '[' },
      { place: { uri: place.uri, span: { start: end, end } }, text: ']' },
    ];
    return [{ title: 'Write it as a list of one', edits, safe: true }];
  }
  return [];
}

/** True for a text that may be put between brackets as it is. */
function isSimple(node: Node | null): boolean {
  if (node?.kind !== 'scalar' || typeof node.value !== 'string' || node.anchor !== null) return false;
  if (node.style === 'single' || node.style === 'double') return true;
  return node.style === 'plain' && !/[[\]{},:#\n]/.test(node.value);
}

export function reportMissing(checking: Checking, holder: Holder, key: string, spot: Spot): void {
  if (checking.places.damaged(holder)) return;
  const property = checking.child(spot, key);
  const wants = property === null ? '' : `: ${wanted(property.schema)}`;
  checking.report('missing-key', checking.places.header(holder), `${quoted(key)} is missing here${wants}.`);
}
