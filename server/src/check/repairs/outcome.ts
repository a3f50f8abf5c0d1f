/** What a change of the text did to the findings: which are gone, which are new. */

import type { Change } from '../../edit/difference';
import type { Cube, Finding, Span } from '../../findings/finding';

/** The findings of a state of the documents, and the texts that they stand in. */
export interface Told {
  readonly findings: readonly Finding[];
  textOf(uri: string): string;
}

export interface Outcome {
  /** The finding that was to be mended is no longer there. */
  readonly gone: boolean;
  /** Findings that were not there before; the mark of a draft does not count, nor what a slip of the pen had hidden. */
  readonly fresh: readonly Finding[];
}

/**
 * Compares what is found before and after a change. A finding is the same where its rule and item are, and it stands at
 * the same place or at the same words; it may have lost sides, or have come down from all variants to some.
 * @param changes what was changed, by document.
 */
export function outcomeOf(
  before: Told,
  after: Told,
  target: Finding,
  changes: ReadonlyMap<string, readonly Change[]>,
): Outcome {
  const left = new Set(before.findings);
  const fresh: Finding[] = [];
  const waiting: Finding[] = [];
  const take = (finding: Finding, sameSpot: (known: Finding) => boolean): boolean => {
    for (const known of left)
      if (sameMatter(known, finding) && sameSpot(known)) {
        left.delete(known);
        return true;
      }
    return false;
  };
  for (const finding of after.findings) {
    const { uri, span } = finding.place;
    const start = placeBefore(span.start, changes.get(uri) ?? []);
    const same = (known: Finding) => known.place.uri === uri && known.place.span.start === start;
    if (start === null || !take(finding, same)) waiting.push(finding);
  }
  for (const finding of waiting) {
    const words = wordsAt(after, finding);
    const same = (known: Finding) =>
      known.place.uri === finding.place.uri && wordsAt(before, known) === words;
    const own = changes.get(finding.place.uri) ?? [];
    if (!take(finding, same) && !isNoNews(finding, target, own)) fresh.push(finding);
  }
  return { gone: left.has(target), fresh };
}

/**
 * The mark of a draft; and what only comes to light where a slip of the pen that hid it is put right: a fault of the work,
 * or another slip, though not one in what was written.
 */
function isNoNews(finding: Finding, target: Finding, changes: readonly Change[]): boolean {
  if (finding.rule === 'draft-step') return true;
  if (target.harm !== null) return false;
  return finding.harm !== null || !isIn(finding.place.span, changes);
}

/** Whether a span of the changed text has something in it that was put in. */
function isIn(span: Span, changes: readonly Change[]): boolean {
  let shift = 0;
  for (const { start, end, text } of changes) {
    const from = start + shift;
    if (from < span.end && span.start < from + text.length) return true;
    shift += text.length - (end - start);
  }
  return false;
}

/** Rule and item are the same, and the later one says no more than the earlier. */
function sameMatter(known: Finding, finding: Finding): boolean {
  if (known.rule !== finding.rule || known.item !== finding.item) return false;
  // Said otherwise it is another matter, figures apart: a wheel that is off was on before, its nuts loose.
  if (withoutFigures(known.message) !== withoutFigures(finding.message)) return false;
  if ((finding.sides ?? []).some((side) => !(known.sides ?? []).includes(side))) return false;
  return known.variants.length === 0 || inWords(known.variants) === inWords(finding.variants);
}

const withoutFigures = (message: string): string => message.replaceAll(/\d+/g, '');

const inWords = (variants: readonly Cube[]): string => JSON.stringify(variants);

const wordsAt = (told: Told, { place }: Finding): string =>
  told.textOf(place.uri).slice(place.span.start, place.span.end);

/** Where an offset of the changed text was before; null for what was put in. */
function placeBefore(offset: number, changes: readonly Change[]): number | null {
  let shift = 0;
  for (const { start, end, text } of changes) {
    const from = start + shift;
    if (offset < from) break;
    // What was put in stands where it was put, if it took the place of something.
    if (offset < from + text.length) return offset === from && end > start ? start : null;
    shift += text.length - (end - start);
  }
  return offset - shift;
}
