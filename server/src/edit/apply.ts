/** Edits put into effect. */

import type { Edit } from '../findings/finding';

/**
 * The text with its edits made, which are places in the text as it is and do not overlap. Several insertions at one place
 * stand in the order in which they are given.
 * @returns null where edits overlap or lie outside the text.
 */
export function applyEdits(text: string, edits: readonly Edit[]): string | null {
  const ordered = edits
    .map((edit, index) => ({ edit, index }))
    .sort(
      (a, b) =>
        a.edit.place.span.start - b.edit.place.span.start ||
        a.edit.place.span.end - b.edit.place.span.end ||
        a.index - b.index,
    );
  let made = '';
  let at = 0;
  for (const { edit } of ordered) {
    const { start, end } = edit.place.span;
    if (start < at || end < start || end > text.length) return null;
    made += text.slice(at, start) + edit.text;
    at = end;
  }
  return made + text.slice(at);
}

/** Edits by the document that they are of. */
export function editsByDocument(edits: readonly Edit[]): Map<string, Edit[]> {
  const found = new Map<string, Edit[]>();
  for (const edit of edits) {
    const known = found.get(edit.place.uri);
    if (known === undefined) found.set(edit.place.uri, [edit]);
    else known.push(edit);
  }
  return found;
}

/** Several changes as one; null where one of them could not be made. */
export function together(...changes: readonly (readonly Edit[] | null)[]): Edit[] | null {
  const all: Edit[] = [];
  for (const change of changes) {
    if (change === null) return null;
    all.push(...change);
  }
  return all;
}
