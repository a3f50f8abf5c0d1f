import type { OpenDocument } from '../schema/document';

/** The keys of `places` in vehicles and kits, which may stand on steps and operations of a guide (`station: front`). */
export function placeKeysOf(documents: readonly OpenDocument[]): ReadonlySet<string> {
  const keys = new Set<string>();
  for (const document of documents) {
    if (document.kind !== 'vehicle' && document.kind !== 'kit') continue;
    const { kinds, parts, lines } = document.value;
    for (const bodies of [kinds, parts, lines]) {
      for (const body of Object.values(bodies ?? {})) {
        const { places } = body as { places?: object };
        for (const key of Object.keys(places ?? {})) keys.add(key);
      }
    }
  }
  return keys;
}
