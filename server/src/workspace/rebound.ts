/** A closure with other texts in the place of some, for trying what a change would do. */

import type { Library } from '../model/source';
import { type OpenDocument, openDocument } from '../schema/document';
import { type Document, readDocument } from './document';
import { placeKeysOf } from './place-keys';
import type { Closure } from './project';

/**
 * The closure as if some of its guides, vehicles and kits said something else. Null where one of the texts would no
 * longer be a document of its kind.
 */
export function withTexts(closure: Closure, texts: ReadonlyMap<string, string>): Closure | null {
  const changed = new Map<string, Document>();
  for (const [uri, text] of texts) {
    const old = closure.documents.get(uri);
    const fresh = readDocument(uri, text);
    if (old === undefined || fresh === null || fresh.kind !== old.kind) return null;
    changed.set(uri, fresh);
  }
  const documents = new Map(
    [...closure.documents].map(([uri, document]) => [uri, changed.get(uri) ?? document]),
  );
  const kept = new Map<Document, OpenDocument>();
  const openedOf = (document: Document, placeKeys: ReadonlySet<string>): OpenDocument => {
    const known = kept.get(document);
    if (known !== undefined) return known;
    const { uri, reading, text } = document;
    const made = openDocument(uri, reading, { placeKeys, source: text, ours: true });
    kept.set(document, made);
    return made;
  };
  const declares = ({ kind }: Document) => kind === 'vehicle' || kind === 'kit';
  const fresh = new Set(changed.values());
  const plain = (document: Document): OpenDocument =>
    fresh.has(document) ? openedOf(document, NO_KEYS) : closure.opened(document);
  const declaring = [...documents.values()].filter(declares);
  const placeKeys = placeKeysOf(declaring.map(plain));
  const moved = declaring.some((document) => fresh.has(document));
  const opened = (document: Document): OpenDocument => {
    if (document.kind === 'install' && (fresh.has(document) || moved)) return openedOf(document, placeKeys);
    return plain(document);
  };
  const library: Library = {
    ...closure.library,
    document: (uri) => {
      const found = documents.get(uri);
      return found === undefined ? closure.library.document(uri) : opened(found);
    },
    vehicles: (closure.library.vehicles ?? []).map((vehicle) => {
      const other = changed.get(vehicle.uri);
      return other === undefined ? vehicle : opened(other);
    }),
  };
  return {
    ...closure,
    document: changed.get(closure.document.uri) ?? closure.document,
    documents,
    opened,
    library,
  };
}

const NO_KEYS: ReadonlySet<string> = new Set();
