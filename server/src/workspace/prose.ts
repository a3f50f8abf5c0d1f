import type { Finding, Place } from '../findings/finding';
import { wordsThatCount } from '../model/words';
import type { OpenDocument } from '../schema/document';
import type { Document } from './document';

/** Keys whose words nothing is judged by, save what stands in curly brackets, figures and sides. */
const PROSE: ReadonlySet<string> = new Set(['text', 'note']);
/** What a step says of time counts in the labour alone; a time that cannot be read is a finding of the document. */
const TIME = 'time';

/**
 * Whether two readings of a guide differ in their prose, their times, their comments and their layout alone, so that a check finds
 * the same in both. Where anything in either is out of order the answer is no: what was left out might differ.
 */
export function differInProse(before: OpenDocument, after: OpenDocument): boolean {
  if (before.kind === null || before.kind !== after.kind) return false;
  if (before.findings.length > 0 || after.findings.length > 0) return false;
  return sameMeaning(before.value, after.value, false);
}

function sameMeaning(a: unknown, b: unknown, prose: boolean): boolean {
  if (a === b) return true;
  if (typeof a === 'string' && typeof b === 'string')
    return prose && !a.includes('{') && !b.includes('{') && wordsThatCount(a) === wordsThatCount(b);
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return Object.is(a, b);
  if (Array.isArray(a) || Array.isArray(b)) {
    if (!Array.isArray(a) || !Array.isArray(b) || a.length !== b.length) return false;
    for (let index = 0; index < a.length; index++) if (!sameMeaning(a[index], b[index], false)) return false;
    return true;
  }
  const left = Object.keys(a);
  const right = Object.keys(b);
  if (left.length !== right.length) return false;
  for (let index = 0; index < left.length; index++) {
    const key = left[index]!;
    // The order of keys is the order of operations' pairs and of names; another order is another reading.
    if (right[index] !== key) return false;
    if (key === TIME && isStep(a) && isStep(b)) continue;
    if (
      !sameMeaning((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key], PROSE.has(key))
    )
      return false;
  }
  return true;
}

/** A map with operations under `do`: nothing else has those. */
const isStep = (map: object): boolean => {
  const operations = (map as { do?: unknown }).do;
  return Array.isArray(operations) && typeof operations[0] === 'object';
};

/**
 * Findings of the text before with their places moved to the text after; null where one of them stands at what changed,
 * so that only a check can tell.
 */
export function movedFindings(
  findings: readonly Finding[],
  before: Document,
  after: Document,
): Finding[] | null {
  const region = changedRegion(before.text, after.text);
  const growth = after.text.length - before.text.length;
  const { uri } = after;
  let lost = false;
  const moved = (place: Place): Place => {
    const { start, end } = place.span;
    if (place.uri !== uri || end < region.start) return place;
    if (start <= region.end) {
      lost = true;
      return place;
    }
    return { uri, span: { start: start + growth, end: end + growth } };
  };
  const found = findings.map((finding) => ({
    ...finding,
    place: moved(finding.place),
    related: finding.related.map((one) => ({ ...one, place: moved(one.place) })),
    fixes: finding.fixes.map((fix) => ({
      ...fix,
      edits: fix.edits.map((edit) => ({ ...edit, place: moved(edit.place) })),
    })),
  }));
  return lost ? null : found;
}

/** The stretch of the text before outside of which both texts are the same. */
function changedRegion(before: string, after: string): { start: number; end: number } {
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before.charCodeAt(start) === after.charCodeAt(start)) start++;
  let same = 0;
  while (
    same < most - start &&
    before.charCodeAt(before.length - 1 - same) === after.charCodeAt(after.length - 1 - same)
  )
    same++;
  return { start, end: before.length - same };
}
