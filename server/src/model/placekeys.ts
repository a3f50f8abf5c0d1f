/** The keys of `places` in vehicle and kit files: they may stand on sections, steps and operations of a guide. */

import { Cursor, entriesAt, type OpenDocument } from './source';

/** Every key, for `openDocument` of a guide that uses these files; other documents have none. */
export function placeKeysOf(documents: Iterable<OpenDocument>): Set<string> {
  const keys = new Set<string>();
  for (const document of documents) {
    if (document.kind !== 'vehicle' && document.kind !== 'kit') continue;
    const root = Cursor.of(document);
    for (const holder of ['kinds', 'parts', 'lines']) {
      for (const [, cursor] of entriesAt(root, holder)) {
        for (const [key] of entriesAt(cursor, 'places')) keys.add(key);
      }
    }
  }
  return keys;
}
