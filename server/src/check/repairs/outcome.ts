/** What a change of the text did to the findings: which are gone, which are new. */

import type { Change } from '../../edit/difference';
import type { Cube, Finding } from '../../findings/finding';

/** The findings of a state of the documents, and the texts that they stand in. */
export interface Told {
  readonly findings: readonly Finding[];
  textOf(uri: string): string;
}

export interface Outcome {
  /** The finding that was to be mended is no longer there. */
  readonly gone: boolean;
  /** Findings that were not there before; the mark of a draft does not count. */
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
    if (!take(finding, same) && finding.rule !== 'draft-step') fresh.push(finding);
  }
  return { gone: left.has(target), fresh };
}

/** Rule and item are the same, and the later one says no more than the earlier. */
function sameMatter(known: Finding, finding: Finding): boolean {
  if (known.rule !== finding.rule || known.item !== finding.item) return false;
  if ((finding.sides ?? []).some((side) => !(known.sides ?? []).includes(side))) return false;
  return known.variants.length === 0 || inWords(known.variants) === inWords(finding.variants);
}

const inWords = (variants: readonly Cube[]): string => JSON.stringify(variants);

const wordsAt = (told: Told, { place }: Finding): string =>
  told.textOf(place.uri).slice(place.span.start, place.span.end);

/** Where an offset of the changed text was before; null for what was put in. */
function placeBefore(offset: number, changes: readonly Change[]): number | null {
  let shift = 0;
  for (const { start, end, text } of changes) {
    const from = start + shift;
    if (offset < from) break;
    if (offset < from + text.length) {
      // A line that was changed begins where the old one did.
      const within = offset - from;
      return start + within <= end ? start + within : null;
    }
    shift += text.length - (end - start);
  }
  return offset - shift;
}
